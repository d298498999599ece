/**
 * Sequences built in the order of time: whenever an oven comes free, the group of first rank that may go in soon opens
 * a load, and others join it by rank as far as they fit. One change of rank packs every later load anew.
 */
import type { Group, Keys } from "./dispatch-keys.ts";
import { ALONE, groupsOf } from "./dispatch-keys.ts";
import { LoadFiller } from "./load-filler.ts";
import { newLoad } from "./moves.ts";
import { firstFreeOven, readyAfter } from "./ready.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";
import { tasteKey } from "./taste.ts";
import type { Timetable } from "./timetable.ts";

export interface Built {
  readonly sequence: Sequence;
  readonly cost: number;
}

/** Not for two sequences at a time: it keeps the states of the one it builds and of the one last accepted. */
export class Dispatcher {
  readonly timetable: Timetable;
  readonly groups: readonly Group[];
  readonly looksCloser: boolean;
  /** Sequences built so far. */
  built = 0;
  /** Per group: from when on its first pan could go in, and in an oven that is free; Infinity when none waits. */
  readonly #ready: Float64Array;
  readonly #opens: Float64Array;
  readonly #filler: LoadFiller;
  readonly #closeFiller: LoadFiller;
  /** Per bake: 1 until it is in a load or given up. */
  readonly #waits: Uint8Array;
  /** Per bake, as in the day. */
  readonly #panOf: Int32Array;
  readonly #stepOf: Int32Array;
  /** The state before each load, of the sequence accepted and, from where it differs, of the one being built. */
  readonly #accepted: ShopState[];
  readonly #building: ShopState[];
  readonly #end: ShopState;
  #loads: readonly PlannedLoad[] = [];
  #taste = "";

  /** `looksCloser`: loads may be made of what only the closer look of the book allows; false: of what the plain one does. */
  constructor(timetable: Timetable, looksCloser = true) {
    const { day } = timetable;
    this.timetable = timetable;
    this.groups = groupsOf(day);
    this.#ready = new Float64Array(this.groups.length);
    this.#opens = new Float64Array(this.groups.length);
    this.looksCloser = looksCloser && timetable.book.fitsClosely;
    this.#filler = new LoadFiller(timetable.book.plain);
    this.#closeFiller = new LoadFiller(timetable.book);
    this.#waits = new Uint8Array(day.bakes.length);
    this.#panOf = Int32Array.from(day.bakes, ({ pan }) => pan);
    this.#stepOf = Int32Array.from(day.bakes, ({ step }) => step);
    this.#accepted = [timetable.startState()];
    this.#building = [timetable.startState()];
    this.#end = timetable.startState();
  }

  /** The sequence that the keys decide; undefined as soon as its cost is sure to exceed `cutoff`. */
  build(keys: Keys, cutoff = Infinity): Built | undefined {
    this.built++;
    this.#waits.fill(1);
    const order = new Int32Array(this.groups.length);
    keys.rank.forEach((rank, group) => (order[rank] = group));
    const loads: PlannedLoad[] = [];
    const place = this.#placer(keys, loads);
    let state = this.#accepted[0]!;
    for (;;) {
      const opener = this.#opener(state, keys, order);
      if (opener === undefined) break;
      const oven = firstFreeOven(this.timetable.book, state, this.groups[opener]!.kind);
      const bakes = oven === undefined ? [] : this.#gather(state, keys, order, opener, oven);
      const first = bakes[0];
      if (oven === undefined || first === undefined) {
        for (const bake of this.groups[opener]!.bakes) this.#waits[bake] = 0;
        continue;
      }
      let given = bakes;
      let next = place(state, newLoad(oven, bakes));
      if (next === undefined) {
        given = [first];
        if (bakes.length > 1) next = place(state, newLoad(oven, given));
      }
      for (const bake of given) this.#waits[bake] = 0;
      if (next === undefined) continue;
      state = next;
      if (this.timetable.costAtLeast(state) > cutoff) return undefined;
    }
    this.#end.copyFrom(state);
    this.timetable.finish(this.#end);
    const { haste, heatCredit } = keys;
    return { sequence: { haste, heatCredit, loads }, cost: this.timetable.cost(this.#end) };
  }

  /** What is built from now on begins with the states of this sequence, built last, as far as its loads are the same. */
  accept({ sequence }: Built): void {
    const { loads } = sequence;
    const isTasteKept = tasteKey(sequence) === this.#taste;
    for (let at = 0; at < loads.length; at++) {
      if (isTasteKept && loads[at] === this.#loads[at]) continue;
      const old = this.#accepted[at + 1] ?? new ShopState(this.timetable.day);
      this.#accepted[at + 1] = this.#building[at + 1]!;
      this.#building[at + 1] = old;
    }
    this.#loads = loads;
    this.#taste = tasteKey(sequence);
  }

  /** Puts a load behind those built and answers the state after it; undefined where it finds no sound place. */
  #placer(keys: Keys, loads: PlannedLoad[]): (state: ShopState, load: PlannedLoad) => ShopState | undefined {
    let isSame = tasteKey(keys) === this.#taste;
    return (state, load) => {
      const at = loads.length;
      const known = isSame ? this.#loads[at] : undefined;
      if (known !== undefined && isAlike(known, load)) {
        loads.push(known);
        return this.#accepted[at + 1]!;
      }
      const next = (this.#building[at + 1] ??= new ShopState(this.timetable.day));
      next.copyFrom(state);
      if (this.timetable.place(next, load, keys) === undefined) return undefined;
      isSame = false;
      loads.push(load);
      return next;
    };
  }

  /** The group of first rank among those that may open a load soon enough; undefined when no pan waits any more. */
  #opener(state: ShopState, keys: Keys, order: Int32Array): number | undefined {
    let soonest = Infinity;
    for (let at = 0; at < this.groups.length; at++) {
      const ready = this.#readyOf(state, this.groups[at]!);
      this.#ready[at] = ready;
      this.#opens[at] = ready === Infinity ? Infinity : Math.max(ready, this.#freeFor(state, this.groups[at]!));
      soonest = Math.min(soonest, this.#opens[at]!);
    }
    if (soonest === Infinity) return undefined;
    return order.find((group) => this.#opens[group]! <= soonest + keys.openMinutes[group]!);
  }

  /** From when on the first of its pans could go in; Infinity when none waits. */
  #readyOf(state: ShopState, group: Group): number {
    let ready = Infinity;
    for (const bake of group.bakes)
      if (this.#mayGo(state, bake)) ready = Math.min(ready, this.#readyFor(state, bake, group));
    return ready;
  }

  #readyFor(state: ShopState, bake: number, group: Group): number {
    return readyAfter(this.timetable.day, state, this.#panOf[bake]!, group.leadMinutes);
  }

  #freeFor(state: ShopState, group: Group): number {
    let free = Infinity;
    for (const oven of this.timetable.day.kinds[group.kind]!.ovens) free = Math.min(free, state.ovenFree[oven]!);
    return free;
  }

  /** Bakes of the group that opens the load, then of others by rank, as far as they fit and are ready in time. */
  #gather(state: ShopState, keys: Keys, order: Int32Array, opener: number, oven: number): number[] {
    const opens = this.#opens[opener]!;
    const asked: number[] = [];
    const ask = (at: number, until: number): void => {
      if (this.#ready[at]! > until) return;
      const group = this.groups[at]!;
      for (const bake of group.bakes)
        if (this.#mayGo(state, bake) && this.#readyFor(state, bake, group) <= until) asked.push(bake);
    };
    ask(opener, opens + Math.max(0, keys.joinMinutes[opener]!));
    if (keys.joinMinutes[opener] !== ALONE)
      for (const group of order)
        if (group !== opener && keys.joinMinutes[group] !== ALONE) ask(group, opens + keys.joinMinutes[group]!);
    return (keys.closely[opener] === 1 ? this.#closeFiller : this.#filler).fill(oven, asked);
  }

  #mayGo(state: ShopState, bake: number): boolean {
    return this.#waits[bake] === 1 && state.panStep[this.#panOf[bake]!] === this.#stepOf[bake];
  }
}

function isAlike(one: PlannedLoad, other: PlannedLoad): boolean {
  return (
    one.oven === other.oven &&
    one.bakes.length === other.bakes.length &&
    one.bakes.every((bake, at) => bake === other.bakes[at])
  );
}
