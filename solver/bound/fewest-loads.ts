/** As few loads as bakes can be, worth as little as they can be. */
import type { Shares } from "./load-shares.ts";

/** Bakes of one kind as parts of loads. */
export interface Part {
  readonly shares: Shares;
  readonly count: number;
}

/**
 * Of as few loads as any measure allows, the k-th is worth at least the bake that the k − 1 before it cannot have held, in the order
 * given, even if bakes could be split. `parts`: dearest first by `worth`, all of kinds that may share a load. `charge` is told
 * how many loads count as which part's.
 */
export function leastOf<P extends Part>(
  parts: readonly P[],
  worth: (part: P) => number,
  charge?: (part: P, loads: number) => void,
): number {
  let bakes = 0;
  for (const { count } of parts) bakes += count;
  const measures = parts[0]?.shares.length ?? 0;
  let most = 0;
  let by = 0;
  for (let measure = 0; measure < measures; measure++) {
    const sum = sumBy(parts, measure, worth);
    if (sum > most) {
      most = sum;
      by = measure;
    }
    if (bakes === 1) break;
  }
  if (charge !== undefined) sumBy(parts, by, worth, charge);
  return most;
}

function sumBy<P extends Part>(
  parts: readonly P[],
  measure: number,
  worth: (part: P) => number,
  charge?: (part: P, loads: number) => void,
): number {
  let filled = 0;
  let loads = 0;
  let sum = 0;
  for (const part of parts) {
    if (part.count === 0) continue;
    filled += part.count * part.shares[measure]!;
    const after = Math.max(loads, 1, Math.ceil(filled - TINY));
    if (after > loads) {
      sum += (after - loads) * worth(part);
      charge?.(part, after - loads);
    }
    loads = after;
  }
  return sum;
}

/** Sums of shares carry rounding. */
const TINY = 1e-6;
