/**
 * The loads met in good sequences, and the set of them that covers every pan's coats at least cost. Loads remember when
 * their doors opened, so that the chosen ones have an order again. Alike pans share a row.
 */
import { lateCost } from "../day/late-cost.ts";
import type { Load } from "../lp-models/cover-task.ts";
import { chooseLoads } from "../lp-models/partition.ts";
import type { Lp } from "../lp/lp.ts";
import type { Placed, PlacedLoad } from "./lp-placed.ts";
import { newLoad } from "./sequence.ts";
import type { PlannedLoad } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

/** Beyond so many rows the dense tableau of the LP library slows down. */
const MOST_ROWS = 60;
const MOST_LOADS = 400;
/** Linear programs that one choice may solve. */
const MOST_SOLVES = 30;
/** Money per minute that oven time is worth at least. */
const LEAST_MINUTE_PRICE = 0.02;

interface PoolLoad {
  readonly oven: number;
  /** Per row: how many bakes. */
  readonly counts: ReadonlyMap<number, number>;
  readonly door: number;
  readonly cost: number;
}

/** What the pool's choice comes to: loads in the order of their doors, and the bakes that none of them takes. */
export interface PoolChoice {
  readonly loads: readonly PlannedLoad[];
  readonly open: readonly number[];
}

export class LoadPool {
  readonly #timetable: Timetable;
  /** Per bake its row: bakes of the same coat of one line are alike. */
  readonly #rowOf: number[] = [];
  readonly #bakesOf: number[][] = [];
  readonly #loads = new Map<string, PoolLoad>();

  constructor(timetable: Timetable) {
    this.#timetable = timetable;
    const rows = new Map<string, number>();
    timetable.day.bakes.forEach(({ pan, step }, bake) => {
      const { line, due } = timetable.day.pans[pan]!;
      const key = `${line}/${due[step]!.coat}`;
      const row = rows.get(key) ?? rows.size;
      rows.set(key, row);
      this.#rowOf[bake] = row;
      (this.#bakesOf[row] ??= []).push(bake);
    });
  }

  /** Whether the model stays small enough to be asked at all. */
  get usable(): boolean {
    return this.#bakesOf.length <= MOST_ROWS;
  }

  /** Takes up the loads of a timed sequence; of loads with the same pans the cheaper one stays. */
  add({ loads }: Placed): void {
    for (const load of loads) {
      const met = this.#met(load);
      const key = `${met.oven}/${[...met.counts].map(([row, count]) => `${row}x${count}`).join()}`;
      const known = this.#loads.get(key);
      if (known !== undefined && known.cost <= met.cost) continue;
      this.#loads.delete(key);
      this.#loads.set(key, met);
    }
    // The oldest go first.
    for (const key of this.#loads.keys()) {
      if (this.#loads.size <= MOST_LOADS) break;
      this.#loads.delete(key);
    }
  }

  /** The cheapest loads that together take every bake once; undefined where the pool has no such set. */
  choose(lp: Lp): PoolChoice | undefined {
    const pool = [...this.#loads.values()];
    const loads: Load[] = pool.map(({ counts, cost }) => ({ covers: [...counts], cost }));
    const groups = this.#bakesOf.map((bakes) => ({ need: bakes.length }));
    const cover = chooseLoads(lp, { groups, loads }, { solves: MOST_SOLVES });
    if (cover === undefined) return undefined;
    const chosen = pool.flatMap((load, k) => Array.from({ length: cover.chosen[k]! }, () => load));
    return this.#deal(chosen.sort((a, b) => a.door - b.door));
  }

  #met({ bakes, recipe, slot }: PlacedLoad): PoolLoad {
    const { request, pans, tickets, bakes: all } = this.#timetable.day;
    const counts = new Map<number, number>();
    let late = 0;
    for (const bake of bakes) {
      const row = this.#rowOf[bake]!;
      counts.set(row, (counts.get(row) ?? 0) + 1);
      const { due, ticket } = pans[all[bake]!.pan]!;
      if (all[bake]!.step < due.length - 1) continue;
      late += lateCost(tickets[ticket]!, slot.done + request.finishMinutes) / tickets[ticket]!.pans.length;
    }
    const minutePrice = Math.max(LEAST_MINUTE_PRICE, request.prices.crewPerHour / 60 / request.ovens.length);
    const cost = slot.gasKWh * request.prices.gasPerKWh + (slot.done - slot.doorOpens) * minutePrice + late;
    return {
      oven: recipe.oven,
      counts: new Map([...counts].sort(([a], [b]) => a - b)),
      door: slot.doorOpens,
      cost,
    };
  }

  /** Pans in their order: those whose coat before was dealt first; a load takes no two coats of one pan. */
  #deal(chosen: readonly PoolLoad[]): PoolChoice {
    const { day } = this.#timetable;
    const dealtIn = new Map<number, number>();
    const loads = chosen.flatMap(({ oven, counts }, at): PlannedLoad[] => {
      const taken = [...counts].flatMap(([row, count]) =>
        this.#bakesOf
          [row]!.filter((bake) => {
            if (dealtIn.has(bake)) return false;
            const { pan, step } = day.bakes[bake]!;
            const before = step === 0 ? null : day.pans[pan]!.due[step - 1]!.bake;
            return before === null || (dealtIn.get(before) ?? at) < at;
          })
          .slice(0, count),
      );
      for (const bake of taken) dealtIn.set(bake, at);
      return taken.length === 0 ? [] : [newLoad(oven, taken)];
    });
    return { loads, open: [...day.bakes.keys()].filter((bake) => !dealtIn.has(bake)) };
  }
}
