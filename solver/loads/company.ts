/**
 * Which kinds may stand in one firing at all, by pairs. A load with a pair that no firing bakes is hardly ever saved by its other
 * members: on days of many pans the search passes such loads over unseen, and what one of them baked would tell it wrong things of
 * others.
 */
import type { Member } from "../heat/members.ts";
import { overbakesAnywhere } from "../heat/overbakes.ts";
import { memberOn } from "./lone-pan.ts";
import type { RecipeBook } from "./recipe-book.ts";

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

  /** False where two of these kinds (in any order) cannot share a firing of that oven. */
  mayMeet(oven: number, kinds: readonly number[]): boolean {
    return kinds.every((kind, at) => this.mayJoin(oven, kinds, kind, at));
  }

  /** False where one more of `kind` cannot share a firing with one of the first `count` of these. */
  mayJoin(oven: number, kinds: readonly number[], kind: number, count = kinds.length): boolean {
    for (let at = 0; at < count; at++) if (kinds[at] !== kind && !this.#pair(oven, kinds[at]!, kind)) return false;
    return true;
  }

  #pair(oven: number, one: number, other: number): boolean {
    const [low, high] = one < other ? [one, other] : [other, one];
    const at = (oven * this.#kinds + low) * this.#kinds + high;
    if (this.#known[at] === UNKNOWN) this.#known[at] = this.#asked(oven, low, high) ? MAY : MAY_NOT;
    return this.#known[at] === MAY;
  }

  #asked(oven: number, one: number, other: number): boolean {
    if (this.#oneOverbakes(oven, one, other)) return false;
    // A pan more may keep light metal from overbaking beside heavy metal.
    return this.#book.asksEach || this.#book.recipe(oven, [one, other]) !== undefined;
  }

  /** One of them must get too hot where the other bakes, wherever they stand: told without laying them out. */
  #oneOverbakes(oven: number, one: number, other: number): boolean {
    const { request, kinds } = this.#book.day;
    const { space, cycle } = request.ovens[oven]!;
    if (space.kind === "area" || cycle.kind === "fixed") return false;
    const onShelves = (kind: number): Member[] =>
      space.shelves.flatMap(({ offsetC }) => memberOn(kinds[kind]!, offsetC) ?? []);
    const [members, others] = [onShelves(one), onShelves(other)];
    const { ambientC } = request;
    return overbakesAnywhere(cycle, ambientC, members, others) || overbakesAnywhere(cycle, ambientC, others, members);
  }
}
