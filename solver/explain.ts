/** May two pans share a firing? If not, why, with the numbers. */
import type { Reason } from "./reason.ts";
import type { PlanRequest } from "./shop.ts";

/** Either a firing that takes both next coats, or every reason against it, oven by oven. */
export type PairAnswer =
  | {
      readonly shares: true;
      readonly oven: number;
      readonly setPointC: number | null;
      /** Minutes from door closing to burner off, and how much later it could still be. */
      readonly burnerOffMinutes: number | null;
      readonly slackMinutes: number | null;
      readonly gasKWh: number;
    }
  | { readonly shares: false; readonly reasons: readonly (Reason & { readonly oven: number | null })[] };

/** Next coats due of one pan each of two lines (indices), in an empty oven. */
export function explainPair(request: PlanRequest, oneLine: number, otherLine: number): PairAnswer {
  throw new Error(`not explained yet: ${request.lines.length} ${oneLine} ${otherLine}`);
}
