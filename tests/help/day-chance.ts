/** Seeded choices for invented days: the same seed draws the same day on every machine. */
import { seededRandom } from "../../solver/random.ts";

export interface Chance {
  /** True with the given share. */
  readonly happens: (share: number) => boolean;
  /** A whole number from `least` to `most`, both included. */
  readonly whole: (least: number, most: number) => number;
  /** A multiple of `step` from `least` to `most`. */
  readonly stepped: (least: number, most: number, step: number) => number;
  readonly oneOf: <T>(choices: readonly T[]) => T;
  /** One of the choices, as likely as its share. */
  readonly byShare: <T>(choices: readonly (readonly [share: number, choice: T])[]) => T;
}

export function chance(seed: number): Chance {
  const random = seededRandom(seed);
  // Neighbouring seeds of this generator start alike.
  for (let i = 0; i < 8; i++) random.next();
  const oneOf = <T>(choices: readonly T[]): T => {
    const choice = choices[random.below(choices.length)];
    if (choice === undefined) throw new Error("nothing to choose from");
    return choice;
  };
  const whole = (least: number, most: number): number => least + random.below(most - least + 1);
  return {
    happens: (share) => random.next() < share,
    whole,
    stepped: (least, most, step) => least + step * whole(0, Math.floor((most - least) / step + 1e-9)),
    oneOf,
    byShare: (choices) => {
      let rest = random.next() * choices.reduce((sum, [share]) => sum + share, 0);
      for (const [share, choice] of choices) {
        rest -= share;
        if (rest < 0) return choice;
      }
      return oneOf(choices)[1];
    },
  };
}
