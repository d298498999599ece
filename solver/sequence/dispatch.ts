/**
 * Sequences built in the order of time: whenever an oven comes free, the group of first rank that may go in soon opens
 * a load, and others join it by rank as far as they fit. One change of rank packs every later load anew.
 */
import type { Group, Keys } from "./dispatch-keys.ts";
import { ALONE, groupsOf } from "./dispatch-keys.ts";
import { LoadFiller } from "./load-filler.ts";
import { newLoad } from "./sequence.ts";
import { firstFreeOven } from "./ready.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";
import { tasteKey } from "./taste.ts";
import type { Timetable } from "./timetable.ts";
import { Waiting } from "./waiting.ts";

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
  readonly #waiting: Waiting;
  readonly #filler: LoadFiller;
  readonly #closeFiller: LoadFiller;
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
    this.#waiting = new Waiting(day, this.groups);
    this.looksCloser = looksCloser && timetable.book.fitsClosely;
    this.#filler = new LoadFiller(timetable.book.plain);
    this.#closeFiller = new LoadFiller(timetable.book);
    this.#accepted = [timetable.startState()];
    this.#building = [timetable.startState()];
    this.#end = timetable.startState();
  }

  /** The sequence that the keys decide; undefined as soon as its cost is sure to exceed `cutoff`. */
  build(keys: Keys, cutoff = Infinity): Built | undefined {
    this.built++;
    this.#waiting.begin();
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
        this.#waiting.settle(this.groups[opener]!.bakes);
        continue;
      }
      let given = bakes;
      let next = place(state, newLoad(oven, bakes));
      if (next === undefined) {
        given = [first];
        if (bakes.length > 1) next = place(state, newLoad(oven, given));
      }
      this.#waiting.settle(given);
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
    const { opens } = this.#waiting;
    const soonest = this.#waiting.look(state);
    if (soonest === Infinity) return undefined;
    return order.find((group) => opens[group]! <= soonest + keys.openMinutes[group]!);
  }

  /** Bakes of the group that opens the load, then of others by rank, as far as they fit and are ready in time. */
  #gather(state: ShopState, keys: Keys, order: Int32Array, opener: number, oven: number): number[] {
    const opens = this.#waiting.opens[opener]!;
    const asked: number[] = [];
    const ask = (at: number, joinMinutes: number): void => this.#waiting.ask(state, at, opens + joinMinutes, asked);
    ask(opener, Math.max(0, keys.joinMinutes[opener]!));
    if (keys.joinMinutes[opener] !== ALONE)
      for (const group of order)
        if (group !== opener && keys.joinMinutes[group] !== ALONE) ask(group, keys.joinMinutes[group]!);
    return (keys.closely[opener] === 1 ? this.#closeFiller : this.#filler).fill(oven, asked);
  }
}

function isAlike(one: PlannedLoad, other: PlannedLoad): boolean {
  return (
    one.oven === other.oven &&
    one.bakes.length === other.bakes.length &&
    one.bakes.every((bake, at) => bake === other.bakes[at])
  );
}
