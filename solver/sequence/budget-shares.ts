/** What share of its budget a search gives to building, to lines and to warm-ups; see search.ts. */

/** What loads lead to is looked at until so much of the budget is spent; on large days, where no ranks follow, for longer. */
export const LOOK_AHEAD_UNTIL = 0.1;
export const LARGE_LOOK_AHEAD_UNTIL = 0.3;
/** Sequences are built by rank until so much of the budget is spent. */
export const DISPATCH_UNTIL = 0.3;
/** Fewer than so many are too few where promises clash: they are built until so much of the budget is spent. */
export const FEW_DISPATCHED = 4000;
const FEW_DISPATCHED_UNTIL = 0.5;
/** Far fewer will not be enough by then either: moves make more of the time. */
const FAR_FEWER_DISPATCHED = 2000;
const FAR_FEWER_DISPATCHED_UNTIL = 0.4;
/** The second of two searches leaves more time to moves where promises clash. */
export const SECOND_DISPATCH_UNTIL = 0.25;
/** Where building ends sooner, on small days, a try from the first sequence fills the time until: share of the budget, and of the cost. */
export const TRY_UNTIL = 0.35;
export const TRY_FROM = 0.03;
/** Warm-ups of the best: share of the budget at which each ends, and the temperature it starts from as a share of the cost. */
const WARM_UPS = [
  { until: 0.7, from: 0.008 },
  { until: 0.85, from: 0.004 },
  { until: 0.97, from: 0.002 },
] as const;
/** Where few sequences were built, the best of them is far from what moves can make of it. */
const HOT_WARM_UPS = [
  { until: 0.75, from: 0.01 },
  { until: 0.88, from: 0.004 },
  { until: 0.97, from: 0.002 },
] as const;
/** On days of few pans moves find no more after a while, and the last hand takes its time. */
const FEW_PANS = 14;
const FEW_PANS_WARM_UPS = [
  { until: 0.65, from: 0.008 },
  { until: 0.77, from: 0.004 },
  { until: 0.87, from: 0.002 },
] as const;
/**
 * A search ends where its ranks have led it, however long it goes on: on days of this many pans the first of two builds and cools down
 * anew so many times, each time in a line of its own, until so much of the budget is spent. Smaller days end alike.
 */
export const FEWEST_PANS_OF_LINES = 15;
export const LINES_WHERE_LATE = 4;
export const LINES_WHERE_ON_TIME = 2;
export const LINES_UNTIL = 0.8;
/** Share of a line for its ranks; the temperature that moves start from; what they start from costs at most so many times the best. */
export const RANKS_SHARE = 0.3;
export const LINE_FROM = 0.015;
export const MOST_OF_LINE = 1.5;
/** Then the best is warmed up, as in `WARM_UPS`. */
export const WARM_UPS_AFTER_LINES = [
  { until: 0.89, from: 0.004 },
  { until: 0.97, from: 0.002 },
] as const;
/** After the tries and each warm-up the best is polished for so much of the budget at most. */
export const POLISH = 0.03;

/** Share of the budget at which it ends, and the temperature it starts from as a share of the cost. */
export interface WarmUp {
  readonly until: number;
  readonly from: number;
}

/** Of a day with so many pans, of which few sequences were built or not. */
export function warmUpsOf(pans: number, fewBuilt: boolean): readonly WarmUp[] {
  if (fewBuilt) return HOT_WARM_UPS;
  return pans <= FEW_PANS ? FEW_PANS_WARM_UPS : WARM_UPS;
}

/** Sequences are built until so much of the budget is spent, once so many are. */
export function dispatchUntil(built: number): number {
  if (built >= FEW_DISPATCHED) return DISPATCH_UNTIL;
  return built >= FAR_FEWER_DISPATCHED ? FEW_DISPATCHED_UNTIL : FAR_FEWER_DISPATCHED_UNTIL;
}
