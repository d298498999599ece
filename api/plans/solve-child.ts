/** The child process that searches: a day in, ever better checked plans out, until the budget is spent or it is stopped. */
import { checkPlan } from "../check/check-plan.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { readDay } from "../day/read-day.ts";
import type { Course } from "../planning/course.ts";
import { packCourse } from "../planning/course.ts";
import { heedOnlyTheParent } from "../planning/parent.ts";
import { planDay } from "../planning/plan-day.ts";
import { PlanFault } from "../planning/plan-fault.ts";
import type { Better, FromChild, ToChild } from "./messages.ts";
import { renumbered } from "./number-loads.ts";

type Ask = Extract<ToChild, { type: "plan" }>;

/** Improvements come by the hundred at first; nobody reads more than a few a second. */
const tellEveryMs = 500;

let stopped = false;

/** A service that is gone hears nothing, and that is all. */
const tell = (message: FromChild): void => void process.send?.(message, undefined, {}, () => undefined);

process.on("message", (message: ToChild) => {
  if (message.type === "stop") stopped = true;
  else void search(message);
});
heedOnlyTheParent();
tell({ type: "ready" });

async function search(ask: Ask): Promise<void> {
  stopped = false;
  try {
    const read = readDay(ask.day);
    if (!read.ok) throw new Error(`the day is not sound: ${read.problems[0]?.message}`);
    await searchKeepingPins(ask, read.day);
  } catch (error) {
    if (error instanceof PlanFault) tell({ type: "faulty", plan: error.plan, faults: [...error.faults] });
    else tell({ type: "failed", message: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}

/** A pin is a wish: where no sound plan keeps it, a sound plan without it is better than none, and it is told. */
async function searchKeepingPins(ask: Ask, day: Day): Promise<void> {
  const began = performance.now();
  try {
    await searchDay(ask, day);
  } catch (error) {
    const held = (ask.day.held ?? []).filter(({ state }) => state !== "pinned");
    if (!(error instanceof PlanFault) || held.length === (ask.day.held ?? []).length) throw error;
    const unpinned = { ...ask.day, held };
    const read = readDay(unpinned);
    if (!read.ok) throw error;
    tell({ type: "unpinned", day: unpinned });
    const left = Math.max(1, ask.options.seconds - (performance.now() - began) / 1000);
    await searchDay({ ...ask, options: { ...ask.options, seconds: left } }, read.day);
  }
}

async function searchDay({ options, madeAt }: Ask, day: Day): Promise<void> {
  const held = new Set(day.held.map(({ id }) => id));
  const numbered = (plan: PlanFile): PlanFile => checkedAgain(day, renumbered(plan, held, options.numberFrom));
  let told = -Infinity;
  const { plan, course } = await planDay(
    day,
    {
      ...options,
      clock: { now: () => madeAt },
      secondsNow: () => performance.now() / 1000,
      stopped: () => stopped,
      trouble: (message) => tell({ type: "trouble", message }),
    },
    (progress) => {
      if (performance.now() - told < tellEveryMs) return;
      tell({ type: "better", ...betterOf(numbered(progress.plan()), progress.course()) });
      told = performance.now();
    },
  );
  tell({ type: "done", ...betterOf(numbered(plan), course) });
}

/** A name changed is a plan changed: nothing leaves unchecked. */
function checkedAgain(day: Day, plan: PlanFile): PlanFile {
  const faults = checkPlan(day, plan, { savings: false });
  if (faults.length > 0) throw new PlanFault(day, plan, faults);
  return plan;
}

function betterOf(plan: PlanFile, course: Course): Better {
  const { seconds, steps, bestPossibleCost } = plan.search;
  const packed = packCourse(course).toString("base64");
  return { plan, cost: plan.cost.total, bound: bestPossibleCost, seconds, steps: steps ?? 0, course: packed };
}
