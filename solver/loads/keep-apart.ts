/**
 * Shelves for the kinds of a load whose windows meet on some shelves only: quick metal, or a coat that stands less heat, kept to
 * cooler shelves than what needs more. Told without simulating a firing, where shelf-ways.ts would take too long. Asked
 * while recipes are made, after all on the same shelves.
 */
import type { BakeKind } from "../day/day-model.ts";
import type { Member } from "../heat/members.ts";
import { HAIR_K, spareK } from "../heat/overbakes.ts";
import type { ShelfSpace, ThermalCycle } from "../shop.ts";
import { memberOn } from "./lone-pan.ts";
import { shelfSets } from "./place-load.ts";

/**
 * To spare for every two kinds beyond what they have with all shelves open to all, K: what is told without simulating a firing is less
 * than what one asks for, and of soaks that last too long it tells nothing.
 */
const MARGINS_K = [0, 1, 1.5, 2.5, 3.5, 4.5, 6.5, 8.5, 11.5, 15.5, 20.5, 30.5];
/** Loads of more kinds are kept apart only where they must get too hot with all shelves open to all: asking each takes longer than it gains. */
const FEW_KINDS = 2;
/** Ways looked at with each, choices of a kind's shelves on the way to them, and ways in all. */
const MOST_WAYS = 3;
const MOST_CHOICES = 600;
const MOST_WAYS_IN_ALL = 8;

export class ShelvesApart {
  readonly #space: ShelfSpace;
  readonly #cycle: ThermalCycle;
  readonly #ambientC: number;
  readonly #sets: readonly (readonly number[])[];
  /** Per two kinds, and per place in `shelfSets` of the one and of the other: K to spare for both on the worst of those shelves. */
  readonly #spare = new Map<BakeKind, Map<BakeKind, Float64Array>>();

  constructor(space: ShelfSpace, cycle: ThermalCycle, ambientC: number) {
    this.#space = space;
    this.#cycle = cycle;
    this.#ambientC = ambientC;
    this.#sets = shelfSets(space);
  }

  /** Per kind, all different, a place in `shelfSets`: each way once, with little to spare and much freedom first. */
  *ways(kinds: readonly BakeKind[]): Generator<readonly number[]> {
    const spare = kinds.map((one) => kinds.map((other) => this.#spareOf(one, other)));
    const togetherK = Math.min(...spare.flatMap((row) => row.map((table) => table[0]!)));
    const leastK = kinds.length > FEW_KINDS ? -HAIR_K : Math.max(-HAIR_K, togetherK);
    const seen = new Set<string>();
    for (const marginK of MARGINS_K) {
      const ways = this.#agreeing(spare, leastK + marginK);
      for (const way of ways) {
        const key = way.join();
        if (seen.has(key)) continue;
        yield way;
        if (seen.add(key).size >= MOST_WAYS_IN_ALL) return;
      }
      if (ways.length === 0) return;
    }
  }

  /** Without ways that leave no kind more shelves than one before them. */
  #agreeing(spare: readonly (readonly Float64Array[])[], marginK: number): (readonly number[])[] {
    const sets = this.#sets.length;
    const ways: (readonly number[])[] = [];
    const chosen: number[] = [];
    let choices = 0;
    const choose = (): void => {
      const at = chosen.length;
      if (at === spare.length) {
        if (!ways.some((other) => this.#isWithin(chosen, other))) ways.push([...chosen]);
        return;
      }
      for (let set = 0; set < sets && choices < MOST_CHOICES && ways.length < MOST_WAYS; set++) {
        choices++;
        const agrees = chosen.every((other, before) => spare[at]![before]![set * sets + other]! >= marginK);
        if (!agrees || spare[at]![at]![set * sets + set]! < marginK) continue;
        chosen.push(set);
        choose();
        chosen.pop();
      }
    };
    choose();
    return ways;
  }

  #isWithin(way: readonly number[], other: readonly number[]): boolean {
    return way.every((set, kind) => this.#sets[set]!.every((shelf) => this.#sets[other[kind]!]!.includes(shelf)));
  }

  #spareOf(one: BakeKind, other: BakeKind): Float64Array {
    let known = this.#spare.get(one);
    if (known === undefined) this.#spare.set(one, (known = new Map()));
    const found = known.get(other) ?? this.#spareTable(one, other);
    known.set(other, found);
    return found;
  }

  #spareTable(one: BakeKind, other: BakeKind): Float64Array {
    const others = this.#sets.map((set) => this.#endsOf(other, set));
    const table = this.#sets.flatMap((set) => {
      const own = this.#endsOf(one, set);
      return others.map((beside) => Math.min(this.#spareK(own, beside), this.#spareK(beside, own)));
    });
    return Float64Array.from(table);
  }

  #spareK(hot: Ends | undefined, other: Ends | undefined): number {
    return hot && other ? spareK(this.#cycle, this.#ambientC, hot.coolest, other.warmest) : Infinity;
  }

  /** Undefined for a bake without a cure window. */
  #endsOf(kind: BakeKind, set: readonly number[]): Ends | undefined {
    const offsets = set.map((shelf) => this.#space.shelves[shelf]!.offsetC);
    const coolest = memberOn(kind, Math.min(...offsets));
    const warmest = memberOn(kind, Math.max(...offsets));
    return coolest && warmest && { coolest, warmest };
  }
}

/** One pan on the coolest and on the warmest of some shelves. */
interface Ends {
  readonly coolest: Member;
  readonly warmest: Member;
}
