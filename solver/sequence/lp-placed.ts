/** A sequence as timed, as the models of the LP solver look at it: which loads found a place, and in what surroundings. */
import type { Sequence } from "./sequence.ts";
import type { ShopState } from "./shop-state.ts";
import type { TimedLoad, Timetable } from "./timetable.ts";

/** A load that found a place, and where its oven stood before and after it. */
export interface PlacedLoad extends TimedLoad {
  /** Index into the sequence. */
  readonly at: number;
  readonly delayMinutes: number;
  /** When the oven's held load after it begins. */
  readonly doneBy: number;
}

export interface Placed {
  readonly state: ShopState;
  readonly loads: readonly PlacedLoad[];
}

/** Times every load of the sequence. */
export function placeAll(timetable: Timetable, sequence: Sequence): Placed {
  const state = timetable.startState();
  const loads = sequence.loads.flatMap((load, at): PlacedLoad[] => {
    const timed = timetable.place(state, load, sequence);
    if (timed === undefined) return [];
    const next = timetable.held.next(state, load.oven);
    const doneBy = next === undefined ? Infinity : next.doorOpens - next.ventMinutes;
    return [{ ...timed, at, delayMinutes: load.delayMinutes, doneBy }];
  });
  timetable.finish(state);
  return { state, loads };
}
