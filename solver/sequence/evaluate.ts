/**
 * What a sequence costs. The sequence last accepted is kept with the state before each of its loads, so that a
 * candidate is timed only from its first changed load on.
 */
import type { PlannedLoad, Sequence, Taste } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";
import { tasteKey } from "./taste.ts";
import type { Timetable } from "./timetable.ts";

export class Evaluator {
  readonly timetable: Timetable;
  /** Sequences timed so far. */
  timed = 0;
  /**
   * Money per minute from planFrom to the mean done of all bakes, added to what a sequence costs: where only the last firing
   * counts, it tells a search that earlier ones came forward.
   */
  pull = 0;
  /** Of the cost answered last: what the pull added. */
  pulled = 0;
  readonly #before: ShopState[] = [];
  readonly #scratch: ShopState;
  #loads: readonly PlannedLoad[] = [];
  #taste = "";

  constructor(timetable: Timetable) {
    this.timetable = timetable;
    this.#before.push(timetable.startState());
    this.#scratch = timetable.startState();
  }

  /** Cost of a sequence; Infinity as soon as it is sure to exceed `cutoff`. */
  cost(sequence: Sequence, cutoff = Infinity): number {
    this.timed++;
    const state = this.#scratch;
    const first = this.#firstChange(sequence);
    state.copyFrom(this.#before[first]!);
    for (let at = first; at < sequence.loads.length; at++) {
      this.timetable.place(state, sequence.loads[at]!, sequence);
      if (this.timetable.costAtLeast(state) + this.#pulled(state) > cutoff) return Infinity;
    }
    this.timetable.finish(state);
    this.pulled = this.#pulled(state);
    return this.timetable.cost(state) + this.pulled;
  }

  /** Of the sequence timed last, unless its cost exceeded the cutoff: the minute from which the pan's next coat may begin. */
  released(pan: number): number {
    return this.#scratch.panRelease[pan]!;
  }

  #pulled({ doneMinutes }: ShopState): number {
    // A day may have nothing left to bake.
    return (this.pull * doneMinutes) / Math.max(1, this.timetable.day.bakes.length);
  }

  /** The state after `load` where load `at` of the accepted sequence stands; undefined where it finds no time. Void when asked again. */
  after(at: number, load: PlannedLoad, taste: Taste): ShopState | undefined {
    this.#scratch.copyFrom(this.#before[at]!);
    return this.timetable.place(this.#scratch, load, taste) === undefined ? undefined : this.#scratch;
  }

  /** Makes this the sequence that candidates are compared with. */
  accept(sequence: Sequence): void {
    const first = this.#firstChange(sequence);
    while (this.#before.length <= sequence.loads.length) this.#before.push(new ShopState(this.timetable.day));
    for (let at = first; at < sequence.loads.length; at++) {
      const next = this.#before[at + 1]!;
      next.copyFrom(this.#before[at]!);
      this.timetable.place(next, sequence.loads[at]!, sequence);
    }
    this.#loads = sequence.loads;
    this.#taste = tasteKey(sequence);
  }

  /** The state before load `at` of the accepted sequence. */
  before(at: number): ShopState {
    return this.#before[at]!;
  }

  /** The state after its last load, held loads still ahead left out. */
  get end(): ShopState {
    return this.#before[this.#loads.length]!;
  }

  #firstChange(sequence: Sequence): number {
    if (tasteKey(sequence) !== this.#taste) return 0;
    const most = Math.min(sequence.loads.length, this.#loads.length);
    for (let at = 0; at < most; at++) if (sequence.loads[at] !== this.#loads[at]) return at;
    return most;
  }
}
