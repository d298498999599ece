/** The solver's plan -> a plan file that the checker accepts. Loaded once a plan is there, so that the first one is told sooner. */
import { checkPlan } from "../check/check-plan.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { toPlanFile } from "../day/from-solver.ts";
import { writeInstant } from "../day/instants.ts";
import type { FiringPlan, PlanRequest } from "../../solver/index.ts";
import { PlanFault } from "./plan-fault.ts";

const LP_ENGINE = "javascript-lp-solver";

export interface Written {
  readonly day: Day;
  /** `toRequest(day)`. */
  readonly request: PlanRequest;
  readonly plan: FiringPlan;
  readonly seed: number;
  /** Since planning began. */
  readonly seconds: number;
  /** Milliseconds since 1970-01-01T00:00Z. */
  readonly madeAt: number;
  /** Whether the check fires the two habits afresh, which takes longer than all the rest. */
  readonly checkSavings: boolean;
}

/** Throws `PlanFault`. */
export function writeChecked({ day, request, plan, seed, seconds, madeAt, checkSavings }: Written): PlanFile {
  const meta = { madeAt: writeInstant(madeAt, day.timeZone), seconds, seed, lpEngine: LP_ENGINE };
  const file = toPlanFile(day, request, plan, meta);
  const faults = checkPlan(day, file, { savings: checkSavings });
  if (faults.length > 0) throw new PlanFault(day, file, faults);
  return file;
}
