/** The minute from which the solver counts: the whole minute at or before `planFrom`. Called by to-solver.ts and from-solver.ts. */
import type { Day } from "../contract/day.ts";
import { readInstant, writeInstant } from "./instants.ts";

const MINUTE = 60_000;

/** A day's clock: instants of the day file <-> minutes from its origin, fractions kept. */
export interface DayClock {
  readonly toMinute: (instant: string) => number;
  /** To the second, with the zone's offset. */
  readonly toInstant: (minute: number) => string;
}

/** `day` has been read by `readDay`: a local time that the clock skips or repeats is our fault here, so it throws. */
export function dayClock(day: Day): DayClock {
  const millis = (instant: string): number => {
    const read = readInstant(instant, day.timeZone);
    if (read.kind !== "instant") throw new Error(`${instant} is ${read.kind} in ${day.timeZone}`);
    return read.millis;
  };
  const origin = Math.floor(millis(day.planFrom) / MINUTE) * MINUTE;
  return {
    toMinute: (instant) => (millis(instant) - origin) / MINUTE,
    toInstant: (minute) => writeInstant(origin + minute * MINUTE, day.timeZone),
  };
}
