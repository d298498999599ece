/** A day file planned for so many steps, written out, and checked. */
import { checkPlan } from "../../api/check/check-plan.ts";
import type { Fault } from "../../api/check/fault.ts";
import type { Day, DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { toPlanFile } from "../../api/day/from-solver.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import type { FiringPlan } from "../../solver/firing-plan.ts";
import type { PlanRequest } from "../../solver/shop.ts";
import { planOf, soundDay } from "./exact-bound.ts";

const META = { madeAt: "2026-03-10T07:12:03+00:00", seconds: 1, seed: 1, lpEngine: "javascript-lp-solver" } as const;

export interface CheckedPlan {
  readonly day: Day;
  readonly request: PlanRequest;
  readonly plan: FiringPlan;
  readonly file: PlanFile;
  readonly faults: readonly Fault[];
}

/** Throws where the day is refused as input. */
export function checkedPlan(dayFile: DayFile, steps: number): CheckedPlan {
  const day = soundDay(dayFile);
  const request = toRequest(day);
  return checked(day, request, planOf(request, steps));
}

export function checked(day: Day, request: PlanRequest, plan: FiringPlan): CheckedPlan {
  const file = toPlanFile(day, request, plan, META);
  return { day, request, plan, file, faults: checkPlan(day, file) };
}
