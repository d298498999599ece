/**
 * The use case behind the command line and the service: a day that `readDay` accepted -> a plan file that the checker
 * accepts. The search runs in short slices, so that whoever waits can still be heard.
 */
import { setImmediate as breathe } from "node:timers/promises";
import type { Clock } from "../clock.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { toRequest } from "../day/to-solver.ts";
import { planFiring, secondsBudget } from "../../solver/index.ts";
import type { Beside } from "./beside.ts";
import { startBeside } from "./beside.ts";
import type { Course, Recorder } from "./course.ts";
import { recorder } from "./course.ts";
import { fitHeapTo } from "./lean-heap.ts";
import { pansOf } from "./pans-of.ts";
import type { FiringPlan, PlanProgress, PlanRequest } from "../../solver/index.ts";

export interface PlanDayOptions {
  readonly seed: number;
  /** Null: no limit of time. */
  readonly seconds: number | null;
  /** Null: no limit of steps. With steps alone the same day and seed give the same plan. */
  readonly steps: number | null;
  readonly gapPercent: number;
  /** Dates the plan. */
  readonly clock: Clock;
  /** Seconds that never run backwards, from any origin. */
  readonly secondsNow: () => number;
  /** True once somebody wants the best plan so far. */
  readonly stopped?: () => boolean;
  /** Told of every better plan or bound at once, before it is written out. */
  readonly found?: (found: Found) => void;
  /** Told where the process beside the search failed; the plan is none the worse for it. Absent: there is none. */
  readonly trouble?: (message: string) => void;
}

/** A better plan, or a better bound, than before. */
export interface Found {
  /** Since planning began. */
  readonly seconds: number;
  readonly steps: number;
  readonly cost: number;
  readonly bound: number;
}

export interface DayProgress extends Found {
  /** Written out and checked; throws `PlanFault`. The savings against the habits are left to the check of the last plan. */
  readonly plan: () => PlanFile;
  /** What `plan` can be made again from. */
  readonly course: () => Course;
}

/** Longest that the search holds the event loop between two of its steps. */
const SLICE_SECONDS = 0.03;

export interface Planned {
  readonly plan: PlanFile;
  /** What it can be made again from, with the day and the seed. */
  readonly course: Course;
}

/** Throws `PlanFault` where the checker objects: that is a mistake of this program, never of the day. */
export async function planDay(
  day: Day,
  options: PlanDayOptions,
  onProgress?: (progress: DayProgress) => void,
): Promise<Planned> {
  const began = options.secondsNow();
  const request = toRequest(day);
  fitHeapTo(pansOf(request));
  const written = async (): Promise<(plan: FiringPlan, when: When, checkSavings: boolean) => PlanFile> => {
    const { writeChecked } = await import("./write-checked.ts");
    return (plan, when, checkSavings) =>
      writeChecked({ day, request, plan, seed: options.seed, ...when, checkSavings });
  };
  const now = (): When => ({ madeAt: options.clock.now(), seconds: options.secondsNow() - began });
  const better = async ({ steps, cost, bound, plan }: PlanProgress, courseAt: Recorder["course"], pauses: number) => {
    const when = now();
    const found = { seconds: when.seconds, steps, cost, bound };
    options.found?.(found);
    if (!onProgress) return;
    const write = await written();
    const course = (): Course => courseAt({ ...when, pauses });
    onProgress({ ...found, plan: () => write(plan(), when, false), course });
  };
  const { best, courseAt } = await search(request, options, better);
  const write = await written();
  const when = now();
  return { plan: write(best, when, true), course: courseAt({ ...when, pauses: null }) };
}

/** As the plan says. */
type When = Pick<Course, "madeAt" | "seconds">;

interface Searched {
  readonly best: FiringPlan;
  readonly courseAt: Recorder["course"];
}

/** `better` is told how often the search had paused by then. */
async function search(
  request: PlanRequest,
  options: PlanDayOptions,
  better: (progress: PlanProgress, courseAt: Recorder["course"], pauses: number) => Promise<void>,
): Promise<Searched> {
  const { seed, seconds, steps, gapPercent, secondsNow } = options;
  if (seconds === null && steps === null) throw new Error("a search needs a limit: seconds, steps or both");
  const beside = besideOf(request, options);
  const clock = seconds === null ? undefined : secondsBudget(seconds, secondsNow);
  const stopped = options.stopped ?? ((): boolean => false);
  const { outside, course } = recorder({ stopped, proven: beside.bound, offered: beside.offered }, clock, steps);
  const planning = planFiring(request, { seed, gapPercent, ...outside });
  let sliceEnds = secondsNow() + SLICE_SECONDS;
  try {
    for (let pauses = 1; ; pauses++) {
      const step = planning.next();
      if (step.done === true) return { best: step.value, courseAt: course };
      if (step.value !== undefined) {
        beside.know(step.value);
        await better(step.value, course, pauses);
      }
      if (secondsNow() < sliceEnds) continue;
      await breathe();
      sliceEnds = secondsNow() + SLICE_SECONDS;
    }
  } finally {
    beside.end();
  }
}

/** So many pans are too many for the exact search to end: the second core searches too. */
const MOST_PROVEN_PANS = 14;
/** Far from seeds that people try one after another. */
const OTHER_SEED = 1_000_003;

interface BesideSearch extends Pick<Beside, "bound" | "offered" | "end"> {
  readonly know: (progress: PlanProgress) => void;
}

/** A process for the second core, from the first plan on; only by the clock, for what it gets to is never the same. */
function besideOf(request: PlanRequest, { seed, seconds, steps, trouble, secondsNow }: PlanDayOptions): BesideSearch {
  const began = secondsNow();
  const pans = pansOf(request);
  let beside: Beside | undefined;
  let told = Infinity;
  return {
    bound: () => beside?.bound() ?? 0,
    offered: () => beside?.offered(),
    know: ({ cost, sequence }) => {
      if (steps !== null || seconds === null || trouble === undefined || cost >= told) return;
      told = cost;
      if (beside !== undefined) beside.know(cost, sequence());
      else if (pans <= MOST_PROVEN_PANS) beside = startBeside({ type: "prove", request, cost }, trouble);
      else {
        const left = seconds - (secondsNow() - began);
        beside = startBeside({ type: "search", request, seed: (seed + OTHER_SEED) >>> 0, seconds: left }, trouble);
      }
    },
    end: () => beside?.end(),
  };
}
