/** The only source of chance in the solver: a seeded generator, so that a plan can be made again. */
export interface Random {
  /** A number in [0, 1). */
  next(): number;
  /** A whole number in [0, below). */
  below(below: number): number;
}

/** The 32-bit "mulberry" mixing generator (public domain, T. Ettinger, from memory); any 32-bit seed will do. */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return { next, below: (below) => Math.floor(next() * below) };
}
