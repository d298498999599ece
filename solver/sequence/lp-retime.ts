/**
 * Exact start minutes for a sequence whose loads and firings stand: the timing LP says which doors had better open
 * later, and the same sequence with those delays is handed back to be timed. Called in pauses of the search.
 */
import { timeSequence } from "../lp-models/timing.ts";
import type { Lp } from "../lp/lp.ts";
import type { Sequence } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";
import { placeAll } from "./lp-placed.ts";
import { retimeTask } from "./lp-timing-task.ts";

/** Undefined where no door gains by moving. */
export function retime(timetable: Timetable, lp: Lp, sequence: Sequence, reach: number): Sequence | undefined {
  const placed = placeAll(timetable, sequence);
  const asked = retimeTask(timetable, placed, reach);
  if (asked === undefined) return undefined;
  const starts = timeSequence(lp, asked.task);
  if (starts === undefined) return undefined;
  const doors = new Map<number, number>();
  asked.loadOf.forEach((load, activity) => {
    if (load < 0) return;
    // One that had best open at its earliest opens with no wait: where those before it move up, so does it.
    const door = starts[activity]! > asked.task.earliest[activity]! ? starts[activity]! : -Infinity;
    doors.set(placed.loads[load]!.at, door);
  });
  const timed = withDoors(timetable, sequence, doors);
  const same = timed.loads.every(({ delayMinutes }, at) => delayMinutes === sequence.loads[at]!.delayMinutes);
  return same ? undefined : timed;
}

/** The sequence with such delays that the doors open then, or as soon after as they can. */
function withDoors(timetable: Timetable, sequence: Sequence, doors: ReadonlyMap<number, number>): Sequence {
  const state = timetable.startState();
  const trial = timetable.startState();
  const loads = sequence.loads.map((load, at) => {
    const door = doors.get(at);
    let timed = load;
    if (door !== undefined) {
      trial.copyFrom(state);
      const plain = { ...load, delayMinutes: 0 };
      const soonest = timetable.place(trial, plain, sequence)?.slot.doorOpens ?? door;
      timed = { ...plain, delayMinutes: Math.max(0, door - soonest) };
    }
    timetable.place(state, timed, sequence);
    return timed;
  });
  return { ...sequence, loads };
}
