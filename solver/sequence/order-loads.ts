/**
 * Loads chosen by kind become a sequence: whenever the ovens ask for work, the chosen load whose pans can be ready
 * first goes next, with those pans of its kinds that are ready first.
 */
import type { PoolLoad } from "../loads/pool.ts";
import { newLoad } from "./sequence.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";
import type { ShopState } from "./shop-state.ts";
import type { Timetable } from "./timetable.ts";

export function orderLoads(timetable: Timetable, chosen: readonly PoolLoad[], taste: Taste): PlannedLoad[] {
  const state = timetable.startState();
  const trial = timetable.startState();
  const waiting = [...chosen];
  const used = new Set<number>();
  const loads: PlannedLoad[] = [];
  while (waiting.length > 0) {
    let best: { load: PlannedLoad; at: number; opens: number } | undefined;
    waiting.forEach((load, at) => {
      const bakes = pansFor(timetable, state, load, used);
      if (bakes.length === 0) return;
      const planned = newLoad(load.oven, bakes);
      trial.copyFrom(state);
      const timed = timetable.place(trial, planned, taste);
      if (timed === undefined) return;
      // A load that only part of its pans can fill yet had better wait for the rest.
      const missing = load.counts.reduce((sum, [, count]) => sum + count, 0) - bakes.length;
      const opens = timed.slot.doorOpens + missing * MINUTES_PER_MISSING;
      if (best === undefined || opens < best.opens) best = { load: planned, at, opens };
    });
    if (best === undefined) return loads;
    timetable.place(state, best.load, taste);
    for (const bake of best.load.bakes) used.add(bake);
    loads.push(best.load);
    waiting.splice(best.at, 1);
  }
  return loads;
}

const MINUTES_PER_MISSING = 30;

/** Of each kind as many pans as the load takes, those whose coat may begin first. */
function pansFor(timetable: Timetable, state: ShopState, load: PoolLoad, used: ReadonlySet<number>): number[] {
  const { day } = timetable;
  return load.counts.flatMap(([kind, count]) => {
    const ready = [...day.bakes.keys()].filter(
      (bake) => day.bakes[bake]!.kind === kind && !used.has(bake) && timetable.isNext(state, bake),
    );
    const release = (bake: number): number => state.panRelease[day.bakes[bake]!.pan]!;
    return ready.sort((a, b) => release(a) - release(b) || a - b).slice(0, count);
  });
}
