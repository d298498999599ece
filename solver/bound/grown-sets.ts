/**
 * The exact search over some of the pans, when all are too many: the set grows by whichever pan lifts the bound most. A set's
 * lowest open floor is a bound on every plan of all pans at any time.
 */
import type { DayModel } from "../day/day-model.ts";
import type { ShopState } from "../sequence/shop-state.ts";
import { ExactSearch } from "./exact-search.ts";
import { OutsideFloor } from "./outside-floor.ts";
import type { ProofTables } from "./proof-task.ts";
import { proofTask } from "./proof-task.ts";

export interface Growth {
  /** No plan of all pans costs less. */
  readonly total: number;
  /** Labels made since the last one. */
  readonly labels: number;
}

export interface GrowthWish {
  /** Pans that still have something to bake. */
  readonly pans: readonly number[];
  readonly upper: () => number;
  /** All pans are baked, and the last firing then ends no sooner; undefined: some may be left over. */
  readonly allBakedBy: number | undefined;
  /** Labels that one try of a set may take. */
  readonly labelsPerTry: number;
}

/** What one pan more must add for the set to grow by it, as a share of the bound. */
const LEAST_GAIN = 2e-4;

export class GrownSets {
  readonly #day: DayModel;
  readonly #start: ShopState;
  readonly #tables: ProofTables;
  readonly #outside: OutsideFloor;
  #set: readonly number[] = [];

  constructor(day: DayModel, start: ShopState, tables: ProofTables) {
    this.#day = day;
    this.#start = start;
    this.#tables = tables;
    this.#outside = new OutsideFloor(day);
  }

  /** Pans of the set so far. */
  get size(): number {
    return this.#set.length;
  }

  /** Grows until no pan adds anything within the labels per try. Call again with more of them to go on. */
  *grow(wish: GrowthWish): Generator<Growth> {
    let best = -Infinity;
    for (const growth of this.#search(this.#set, wish)) {
      best = Math.max(best, growth.total);
      yield growth;
    }
    for (;;) {
      let chosen: readonly number[] | undefined;
      let most = best;
      for (const pan of this.#candidates(wish.pans)) {
        const larger = [...this.#set, pan].sort((a, b) => a - b);
        let own = -Infinity;
        for (const growth of this.#search(larger, wish)) {
          own = Math.max(own, growth.total);
          yield growth;
        }
        if (own <= most) continue;
        most = own;
        chosen = larger;
      }
      if (chosen === undefined || most < best + LEAST_GAIN * Math.abs(best)) return;
      best = most;
      this.#set = chosen;
    }
  }

  /** Of alike pans one at a time. */
  #candidates(pans: readonly number[]): number[] {
    const seen = new Set<string>();
    return pans.filter((pan) => {
      if (this.#set.includes(pan)) return false;
      const { line, due } = this.#day.pans[pan]!;
      const key = `${line}/${due.length - this.#start.panStep[pan]!}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  }

  *#search(set: readonly number[], { upper, labelsPerTry, allBakedBy }: GrowthWish): Generator<Growth> {
    if (set.length === 0) return;
    const inside = new Set(set);
    const maySave = allBakedBy === undefined ? this.#outside.maySave(inside) : 0;
    const search = new ExactSearch(proofTask(this.#tables, this.#start, set), {
      upper: () => upper() + maySave,
      ticketBase: this.#outside.ticketBase(inside, this.#start.ticketReady),
      leastFinish: (left) => allBakedBy ?? this.#outside.leastFinish(left),
      ...(allBakedBy === undefined ? {} : { mostLeft: 0 }),
    });
    let told = 0;
    while (search.labels < labelsPerTry && search.step()) {
      if (search.labels - told < LABELS_PER_YIELD) continue;
      yield { total: search.bound - maySave, labels: search.labels - told };
      told = search.labels;
    }
    yield { total: search.bound - maySave, labels: search.labels - told };
  }
}

const LABELS_PER_YIELD = 200;
