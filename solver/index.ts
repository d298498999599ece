/** The solver's door: plan a day, and say why two pans may or may not share a firing. Nothing else is imported from outside. */
export type { PlanOptions, PlanProgress } from "./plan.ts";
export { planFiring } from "./plan.ts";
export type { ProofState } from "./bound/prove.ts";
export { proveBound } from "./bound/prove.ts";
export type { FiringPlan } from "./firing-plan.ts";
export type { Sequence } from "./sequence/sequence.ts";
export { plainSequence } from "./sequence/sequence.ts";
export type { PlanRequest } from "./shop.ts";
export type { Reason, ReasonCode } from "./reason.ts";
export type { Progress } from "./stop.ts";
export { either, secondsBudget, stepBudget } from "./stop.ts";
export { firedSavings } from "./gas/fired-savings.ts";
export type { AskedBake, Drawing, SharedAnswer } from "./explain.ts";
export { explainPair, explainTogether } from "./explain.ts";
export type { CalibratedFigure } from "./heat/calibrate.ts";
export { calibratedFigures } from "./heat/calibrate.ts";
export type { LoggedFiring, OvenCalibration } from "./heat/calibrate-oven.ts";
export { calibrateOven } from "./heat/calibrate-oven.ts";
