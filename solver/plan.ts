/** MAIN FLOW: from a request to a firing plan, in five stages. */
import type { FiringPlan } from "./firing-plan.ts";
import type { PlanRequest } from "./shop.ts";
import type { Progress } from "./stop.ts";

export interface PlanOptions {
  readonly seed: number;
  /** How far the search is through what it may spend; at 1 it ends. */
  readonly progress: Progress;
  /** Stop as soon as the plan is at most so many percent above the best possible; 0: only when proven. */
  readonly gapPercent: number;
  /** True once a person wants the search to end; asked between steps. */
  readonly stopped?: () => boolean;
}

/** A better plan, or a better bound, than before. `plan` writes it out in full. */
export interface PlanProgress {
  readonly cost: number;
  readonly bound: number;
  readonly steps: number;
  readonly plan: () => FiringPlan;
}

/**
 * Plans the firings of a request. Yields a `PlanProgress` for the first sound plan and each improvement, and
 * `undefined` in between so that the caller can breathe; returns the best plan. Same request, seed and steps give the
 * same plan.
 */
export function* planFiring(request: PlanRequest, options: PlanOptions): Generator<PlanProgress | undefined, FiringPlan> {
  throw new Error(`not planned yet: ${request.lines.length} ${options.seed}`);
  yield undefined;
}
