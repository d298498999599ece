/** When work at an oven can have ended at the latest before a door: not in a break, nor sooner after one than it takes. */
import type { Interval } from "../shop.ts";

/** Work that lies inside one staffed interval and takes `minutes` at least has ended by then; -Infinity where it never can have. */
export function latestEnd(staffed: readonly Interval[], door: number, minutes: number): number {
  let end = -Infinity;
  for (const { from, to } of staffed) {
    const last = Math.min(to, door);
    if (last - from >= minutes) end = Math.max(end, last);
  }
  return end;
}

/** From this door on the work can have ended with the door, where at `door` it cannot: in the interval that the door opens in. */
export function endsWithDoorFrom(staffed: readonly Interval[], door: number, minutes: number): number {
  const now = staffed.find(({ from, to }) => from <= door && door <= to && from + minutes <= to);
  return now === undefined ? Infinity : now.from + minutes;
}
