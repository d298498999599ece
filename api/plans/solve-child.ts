/** The child process that searches: a day in, ever better checked plans out, until the budget is spent or it is stopped. */
import { setImmediate as breathe } from "node:timers/promises";
import { checkPlan } from "../check/check-plan.ts";
import type { Day } from "../contract/day.ts";
import { planSchema } from "../contract/plan.ts";
import type { PlanFile } from "../contract/plan.ts";
import { toPlanFile } from "../day/from-solver.ts";
import { writeInstant } from "../day/instants.ts";
import { readDay } from "../day/read-day.ts";
import { toRequest } from "../day/to-solver.ts";
import type { FiringPlan, PlanRequest } from "../../solver/index.ts";
import { either, planFiring, secondsBudget, stepBudget } from "../../solver/index.ts";
import type { Better, FromChild, ToChild } from "./messages.ts";
import { renumbered } from "./number-loads.ts";

type Ask = Extract<ToChild, { type: "plan" }>;

/** Improvements come by the hundred at first; nobody reads more than a few a second. */
const tellEveryMs = 250;
const breatheEveryMs = 20;

let stopped = false;

const tell = (message: FromChild): void => void process.send?.(message);

process.on("message", (message: ToChild) => {
  if (message.type === "stop") stopped = true;
  else void search(message);
});
// The service is gone: nobody waits for the answer.
process.on("disconnect", () => process.exit(0));
tell({ type: "ready" });

async function search(ask: Ask): Promise<void> {
  stopped = false;
  try {
    const read = readDay(ask.day);
    if (!read.ok) throw new Error(`the day is not sound: ${read.problems[0]?.message}`);
    await searchDay(ask, read.day);
  } catch (error) {
    tell({ type: "failed", message: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}

async function searchDay(ask: Ask, day: Day): Promise<void> {
  const { options } = ask;
  const request = toRequest(day);
  const began = performance.now();
  const seconds = (): number => (performance.now() - began) / 1000;
  const time = secondsBudget(options.seconds, seconds);
  const progress = options.steps === null ? time : either(time, stepBudget(options.steps));
  const { seed, gapPercent } = options;
  const steps = planFiring(request, { seed, progress, gapPercent, stopped: () => stopped });
  const write = (plan: FiringPlan): Better | undefined => written({ ask, day, request, plan, seconds: seconds() });
  let told = -Infinity;
  let breathed = began;
  let untold: (() => FiringPlan) | undefined;
  for (;;) {
    const step = steps.next();
    if (step.done === true) {
      const best = write(step.value);
      if (best !== undefined) tell({ type: "done", ...best });
      return;
    }
    if (step.value !== undefined) untold = step.value.plan;
    const now = performance.now();
    if (untold !== undefined && now - told >= tellEveryMs) {
      const better = write(untold());
      if (better === undefined) return;
      tell({ type: "better", ...better });
      untold = undefined;
      told = performance.now();
    }
    if (now - breathed > breatheEveryMs) {
      await breathe();
      breathed = performance.now();
    }
  }
}

interface Found {
  readonly ask: Ask;
  readonly day: Day;
  readonly request: PlanRequest;
  readonly plan: FiringPlan;
  readonly seconds: number;
}

/** Written out, numbered and checked; undefined where the checker objects, which is then told instead. */
function written({ ask, day, request, plan, seconds }: Found): Better | undefined {
  const meta = {
    madeAt: writeInstant(ask.madeAt, day.timeZone),
    seconds,
    seed: ask.options.seed,
    lpEngine: "javascript-lp-solver",
  };
  const held = new Set(day.held.map(({ id }) => id));
  const file: PlanFile = renumbered(toPlanFile(day, request, plan, meta), held, ask.options.numberFrom);
  const shape = planSchema.safeParse(file);
  const faults = shape.success ? checkPlan(day, file) : shape.error.issues;
  if (faults.length > 0) {
    tell({ type: "faulty", plan: file, faults: [...faults] });
    return undefined;
  }
  return { plan: file, cost: file.cost.total, bound: file.search.bestPossibleCost, seconds, steps: plan.proof.steps };
}
