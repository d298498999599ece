/** How a load stands: as the plan has it, or as was reported. */
import type { PlanLoad } from "../../api/contract/plan.ts";

export type LoadState = PlanLoad["state"] | "interrupted" | "dropped";
