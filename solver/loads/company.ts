/**
 * Which kinds may stand in one firing at all, by pairs, told without laying anything out: the search passes loads with such a
 * pair over unseen.
 */
import type { DayModel } from "../day/day-model.ts";
import { overbakes } from "../heat/overbakes.ts";
import { memberOn } from "./arrange.ts";
import { clashOf } from "./mixing.ts";

const UNKNOWN = 0;
const MAY = 1;
const MAY_NOT = 2;

export class Company {
  readonly #day: DayModel;
  readonly #kinds: number;
  /** Per oven, kind and kind. */
  readonly #known: Uint8Array;

  constructor(day: DayModel) {
    this.#day = day;
    this.#kinds = day.kinds.length;
    this.#known = new Uint8Array(day.request.ovens.length * this.#kinds * this.#kinds);
  }

  /** False where two of these kinds (in any order) cannot share a firing of that oven, whatever else is in it. */
  mayMeet(oven: number, kinds: readonly number[]): boolean {
    return kinds.every((kind, at) => this.mayJoin(oven, kinds, kind, at));
  }

  /** False where one more of `kind` cannot share a firing with one of the first `count` of these. */
  mayJoin(oven: number, kinds: readonly number[], kind: number, count = kinds.length): boolean {
    for (let at = 0; at < count; at++) if (kinds[at] !== kind && !this.#pair(oven, kinds[at]!, kind)) return false;
    return true;
  }

  #pair(oven: number, one: number, other: number): boolean {
    const at = (oven * this.#kinds + Math.min(one, other)) * this.#kinds + Math.max(one, other);
    if (this.#known[at] === UNKNOWN) this.#known[at] = this.#asked(oven, one, other) ? MAY : MAY_NOT;
    return this.#known[at] === MAY;
  }

  #asked(oven: number, one: number, other: number): boolean {
    const { request, kinds } = this.#day;
    const bakes = [kinds[one]!, kinds[other]!];
    const groups = bakes.map(({ coat }) => coat.mixGroup);
    if (bakes.some(({ ovens }) => !ovens.includes(oven)) || clashOf(request.mixing, groups) !== undefined) return false;
    return !this.#oneOverbakes(oven, one, other);
  }

  /** One of them must get too hot where the other bakes, wherever they stand. */
  #oneOverbakes(oven: number, one: number, other: number): boolean {
    const { request, kinds } = this.#day;
    const { space, cycle } = request.ovens[oven]!;
    if (space.kind === "area" || cycle.kind === "fixed") return false;
    const offsets = space.shelves.map(({ offsetC }) => offsetC);
    const warm = [one, other].map((kind) => memberOn(kinds[kind]!, Math.max(...offsets)));
    const cool = [other, one].map((kind) => memberOn(kinds[kind]!, Math.min(...offsets)));
    return warm.some((hot, at) => {
      const beside = cool[at];
      return hot !== undefined && beside !== undefined && overbakes(cycle, request.ambientC, hot, beside);
    });
  }
}
