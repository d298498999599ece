/** The checker objects to a plan of ours: never handed out, kept with its day so that the mistake can be found. */
import type { Fault } from "../check/fault.ts";
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";

export class PlanFault extends Error {
  readonly day: Day;
  readonly plan: PlanFile;
  readonly faults: readonly Fault[];

  constructor(day: Day, plan: PlanFile, faults: readonly Fault[]) {
    super(`the plan breaks ${faults.length === 1 ? "a rule" : `${faults.length} rules`}: ${faults[0]?.message ?? ""}`);
    this.name = "PlanFault";
    this.day = day;
    this.plan = plan;
    this.faults = faults;
  }
}
