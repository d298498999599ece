/** Whether loads fit, told by pairs of kinds and by what is known of other loads where that is enough. */
import { KnownLoads } from "./known-loads.ts";
import type { RecipeBook } from "./recipe-book.ts";

/** What others tell of a load that is refused is doubted when it has been asked for so often. */
const ASKED_IN_DOUBT = 16;

export class ToldFits {
  readonly #book: RecipeBook;
  readonly #isBaked: (oven: number, kinds: readonly number[]) => boolean;
  readonly #known = new Map<string, boolean>();
  /** How often loads have been asked for that others tell are refused. */
  readonly #refused = new Map<string, number>();
  /** Per oven. */
  readonly #loads: readonly KnownLoads[];

  /** `isBaked`: whether a load (kinds ascending) has a recipe, asked where nothing else tells. */
  constructor(book: RecipeBook, isBaked: (oven: number, kinds: readonly number[]) => boolean) {
    this.#book = book;
    this.#isBaked = isBaked;
    this.#loads = book.day.request.ovens.map(() => new KnownLoads());
  }

  /** `kinds` ascending. Says no to a load that is doubted until it has been asked for so often. */
  fits(oven: number, kinds: readonly number[]): boolean {
    const key = String.fromCharCode(oven, ...kinds);
    const known = this.#known.get(key) ?? this.#told(key, oven, kinds);
    return known || (this.#book.doubtsTold && this.#afterAll(key, oven, kinds));
  }

  #told(key: string, oven: number, kinds: readonly number[]): boolean {
    const told = this.#book.company.mayMeet(oven, kinds) ? this.#loads[oven]!.told(kinds) : false;
    const fits = told ?? this.#isBaked(oven, kinds);
    if (told === undefined) this.#loads[oven]!.note(kinds, fits);
    else if (!told) this.#refused.set(key, 0);
    this.#known.set(key, fits);
    return fits;
  }

  /** Asked once more of a load that is refused. */
  #afterAll(key: string, oven: number, kinds: readonly number[]): boolean {
    const asked = this.#refused.get(key);
    if (asked === undefined) return false;
    this.#refused.set(key, asked + 1);
    if (asked + 1 < ASKED_IN_DOUBT) return false;
    this.#refused.delete(key);
    const fits = this.#isBaked(oven, kinds);
    this.#known.set(key, fits);
    return fits;
  }
}
