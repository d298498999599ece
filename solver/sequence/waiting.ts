/** Which bakes still wait while a sequence is built in the order of time, and when the first of each group could go in. */
import type { DayModel } from "../day/day-model.ts";
import type { Group } from "./dispatch-keys.ts";
import { readyAfter } from "./ready.ts";
import type { ShopState } from "./shop-state.ts";

export class Waiting {
  readonly groups: readonly Group[];
  /** Per group, minutes, as last looked at: when its first pan could go in, and into an oven that is free; Infinity when none waits. */
  readonly ready: Float64Array;
  readonly opens: Float64Array;
  readonly #day: DayModel;
  /** Per bake: 1 until it is in a load or given up. */
  readonly #waits: Uint8Array;
  /** Per bake, as in the day. */
  readonly #panOf: Int32Array;
  readonly #stepOf: Int32Array;

  constructor(day: DayModel, groups: readonly Group[]) {
    this.groups = groups;
    this.ready = new Float64Array(groups.length);
    this.opens = new Float64Array(groups.length);
    this.#day = day;
    this.#waits = new Uint8Array(day.bakes.length).fill(1);
    this.#panOf = Int32Array.from(day.bakes, ({ pan }) => pan);
    this.#stepOf = Int32Array.from(day.bakes, ({ step }) => step);
  }

  /** All wait again. */
  begin(): void {
    this.#waits.fill(1);
  }

  /** As there, also what was last looked at; the groups must be the same. */
  copyFrom(other: Waiting): void {
    this.#waits.set(other.#waits);
    this.ready.set(other.ready);
    this.opens.set(other.opens);
  }

  /** These wait no longer. */
  settle(bakes: readonly number[]): void {
    for (const bake of bakes) this.#waits[bake] = 0;
  }

  /** Works out `ready` and `opens`; answers the soonest minute at which any group could open a load, Infinity when none waits. */
  look(state: ShopState): number {
    let soonest = Infinity;
    for (let at = 0; at < this.groups.length; at++) {
      const group = this.groups[at]!;
      const ready = this.#readyOf(state, group);
      this.ready[at] = ready;
      this.opens[at] = ready === Infinity ? Infinity : Math.max(ready, this.#freeFor(state, group));
      soonest = Math.min(soonest, this.opens[at]!);
    }
    return soonest;
  }

  /** Adds bakes of a group that could go in by `until` to `asked`; as last looked at. */
  ask(state: ShopState, at: number, until: number, asked: number[]): void {
    if (this.ready[at]! > until) return;
    const group = this.groups[at]!;
    for (const bake of group.bakes)
      if (this.#mayGo(state, bake) && this.#readyFor(state, bake, group) <= until) asked.push(bake);
  }

  #readyOf(state: ShopState, group: Group): number {
    let ready = Infinity;
    for (const bake of group.bakes)
      if (this.#mayGo(state, bake)) ready = Math.min(ready, this.#readyFor(state, bake, group));
    return ready;
  }

  #readyFor(state: ShopState, bake: number, group: Group): number {
    return readyAfter(this.#day, state, this.#panOf[bake]!, group.leadMinutes);
  }

  #freeFor(state: ShopState, group: Group): number {
    let free = Infinity;
    for (const oven of this.#day.kinds[group.kind]!.ovens) free = Math.min(free, state.ovenFree[oven]!);
    return free;
  }

  #mayGo(state: ShopState, bake: number): boolean {
    return this.#waits[bake] === 1 && state.panStep[this.#panOf[bake]!] === this.#stepOf[bake];
  }
}
