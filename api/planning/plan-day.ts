/**
 * The use case behind the command line and the service: a day that `readDay` accepted -> a plan file that the checker
 * accepts. The search runs in short slices, so that whoever waits can still be heard.
 */
import { setImmediate as breathe } from "node:timers/promises";
import type { Clock } from "../clock.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { toRequest } from "../day/to-solver.ts";
import { planFiring, secondsBudget, stepBudget } from "../../solver/index.ts";
import type { Beside } from "./beside.ts";
import { startBeside } from "./beside.ts";
import type { FiringPlan, PlanProgress, PlanRequest, Progress } from "../../solver/index.ts";

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
}

/** Longest that the search holds the event loop between two of its steps. */
const SLICE_SECONDS = 0.03;

/** Throws `PlanFault` where the checker objects: that is a mistake of this program, never of the day. */
export async function planDay(
  day: Day,
  options: PlanDayOptions,
  onProgress?: (progress: DayProgress) => void,
): Promise<{ readonly plan: PlanFile }> {
  const began = options.secondsNow();
  const request = toRequest(day);
  const written = async (): Promise<(plan: FiringPlan, checkSavings: boolean) => PlanFile> => {
    const { writeChecked } = await import("./write-checked.ts");
    return (plan, checkSavings) => {
      const seconds = options.secondsNow() - began;
      const madeAt = options.clock.now();
      return writeChecked({ day, request, plan, seed: options.seed, seconds, madeAt, checkSavings });
    };
  };
  const best = await search(request, options, async ({ steps, cost, bound, plan }) => {
    const found = { seconds: options.secondsNow() - began, steps, cost, bound };
    options.found?.(found);
    if (!onProgress) return;
    const write = await written();
    onProgress({ ...found, plan: () => write(plan(), false) });
  });
  return { plan: (await written())(best, true) };
}

async function search(
  request: PlanRequest,
  options: PlanDayOptions,
  better: (progress: PlanProgress) => Promise<void>,
): Promise<FiringPlan> {
  const { seed, gapPercent, stopped, secondsNow } = options;
  const beside = besideOf(request, options);
  const planning = planFiring(request, {
    seed,
    gapPercent,
    progress: budget(options),
    proven: beside.bound,
    offered: beside.offered,
    ...(stopped ? { stopped } : {}),
  });
  let sliceEnds = secondsNow() + SLICE_SECONDS;
  try {
    for (;;) {
      const step = planning.next();
      if (step.done === true) return step.value;
      if (step.value !== undefined) {
        beside.know(step.value);
        await better(step.value);
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
  const pans = request.lines.reduce((sum, { quantity }) => sum + quantity, 0);
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

/** Where steps are given the seconds only cut a search short: a slow machine takes the same way. */
function budget({ seconds, steps, secondsNow }: PlanDayOptions): Progress {
  const byTime = seconds === null ? undefined : secondsBudget(seconds, secondsNow);
  const bySteps = steps === null ? undefined : stepBudget(steps);
  const through = bySteps ?? byTime;
  if (through === undefined) throw new Error("a search needs a limit: seconds, steps or both");
  return (done) => (byTime !== undefined && byTime(done) >= 1 ? 1 : through(done));
}
