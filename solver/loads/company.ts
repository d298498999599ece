/**
 * Which kinds may stand in one firing at all, by pairs. A load with a pair that no firing bakes is hardly ever saved by
 * its other members, and trying that out is dear: the search passes such loads over unseen.
 */
import type { RecipeBook } from "./recipe.ts";

const UNKNOWN = 0;
const MAY = 1;
const MAY_NOT = 2;

export class Company {
  readonly #book: RecipeBook;
  readonly #kinds: number;
  /** Per oven, kind and kind. */
  readonly #known: Uint8Array;

  constructor(book: RecipeBook) {
    this.#book = book;
    this.#kinds = book.day.kinds.length;
    this.#known = new Uint8Array(book.day.request.ovens.length * this.#kinds * this.#kinds);
  }

  /** False where two of these kinds (ascending) cannot share a firing of that oven. */
  mayMeet(oven: number, kinds: readonly number[]): boolean {
    for (let one = 0; one < kinds.length; one++) {
      if (one > 0 && kinds[one] === kinds[one - 1]) continue;
      for (let other = one + 1; other < kinds.length; other++) {
        if (other > one + 1 && kinds[other] === kinds[other - 1]) continue;
        if (!this.#pair(oven, kinds[one]!, kinds[other]!)) return false;
      }
    }
    return true;
  }

  #pair(oven: number, one: number, other: number): boolean {
    const at = (oven * this.#kinds + one) * this.#kinds + other;
    if (this.#known[at] === UNKNOWN)
      this.#known[at] = this.#book.recipe(oven, [one, other]) === undefined ? MAY_NOT : MAY;
    return this.#known[at] === MAY;
  }
}
