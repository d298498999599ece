/** Seeded random numbers for the packing searches, so that the same seed gives the same layout. */

export interface Dice {
  /** Uniform in [0, 1). */
  next(): number;
  /** Uniform whole number in 0..below-1. */
  below(below: number): number;
}

/** Xorshift generator of 32 bits with the shifts 13, 17, 5 (G. Marsaglia, Xorshift RNGs, J. Stat. Softw. 8(14), 2003). */
export function seededDice(seed: number): Dice {
  let state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x6a09e667) | 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
  for (let i = 0; i < 8; i++) next();
  return { next, below: (below) => Math.floor(next() * below) };
}

/** Shuffles in place. */
export function shuffle<T>(list: T[], dice: Dice): T[] {
  for (let i = list.length - 1; i > 0; i--) {
    const j = dice.below(i + 1);
    [list[i], list[j]] = [list[j]!, list[i]!];
  }
  return list;
}
