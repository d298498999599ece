/** Where the pans of a load stand, in one list of numbers: of tens of thousands of loads kept, objects for each pan are many. */
import type { Place } from "./footprint.ts";

const NUMBERS_PER_PLACE = 4;

export class Layout {
  /** Per pan: shelf, x and y in cm, 1 where turned. */
  readonly #numbers: readonly number[];

  constructor(places: readonly Place[]) {
    this.#numbers = places.flatMap(({ shelf, xCm, yCm, turned }) => [shelf, xCm, yCm, turned ? 1 : 0]);
  }

  get pans(): number {
    return this.#numbers.length / NUMBERS_PER_PLACE;
  }

  /** Of the pan at `index`, from 0. */
  place(index: number): Place {
    const at = index * NUMBERS_PER_PLACE;
    const [shelf, xCm, yCm, turned] = this.#numbers.slice(at, at + NUMBERS_PER_PLACE);
    if (turned === undefined) throw new RangeError(`no pan ${index} among ${this.pans}`);
    return { shelf: shelf!, xCm: xCm!, yCm: yCm!, turned: turned === 1 };
  }
}
