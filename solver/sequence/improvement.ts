/** A better sequence that a search has found, and which one to go on from. */
import type { Sequence } from "./sequence.ts";

export interface Improvement {
  readonly sequence: Sequence;
  /** Without rounding of chamber temperatures. */
  readonly cost: number;
  /** Where the last hand has been over it: what that began from. */
  readonly unpolished?: Sequence;
}

/** A search goes on from its own best, if that costs no more than so many times what another has found. */
const MOST_OWN = 1.2;

/**
 * Where to go on from: two searches that both went on from the better one's best would search the same. `most`: what its own may cost
 * of the best.
 */
export function ownLine(own: Improvement, best: Improvement, most = MOST_OWN): Improvement {
  return own.cost <= most * best.cost ? own : best;
}

/**
 * Where a walk that rounds begins: minutes that the last hand has set may just miss a break there, and the sequence then looks far
 * dearer than what the last hand began from.
 */
export function walkable(
  { sequence, unpolished = sequence }: Improvement,
  roughCost: (sequence: Sequence) => number,
): Sequence {
  return roughCost(unpolished) < roughCost(sequence) ? unpolished : sequence;
}
