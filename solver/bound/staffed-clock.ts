/** Staffed minutes as a clock: hands work only while it runs. Used by the bounds on the finish. */
import type { Interval } from "../shop.ts";

export class StaffedClock {
  readonly #intervals: readonly Interval[];
  readonly #from: number;

  constructor(intervals: readonly Interval[], from: number) {
    this.#intervals = intervals;
    this.#from = from;
  }

  /** Staffed minutes from the clock's start to `minute`. */
  read(minute: number): number {
    let sum = 0;
    for (const { from, to } of this.#intervals) sum += Math.max(0, Math.min(minute, to) - Math.max(this.#from, from));
    return sum;
  }

  /** The minute at which the clock goes on after standing still at `minute`; `minute` itself where it runs, or never goes on. */
  goesOnAt(minute: number): number {
    for (const { from, to } of this.#intervals) {
      if (minute < from) return from;
      if (minute < to) return minute;
    }
    return minute;
  }

  /** The first minute ≥ the clock's start at which it reads `staffed`; Infinity where it never does. */
  minuteOf(staffed: number): number {
    if (staffed <= 0) return this.#from;
    let left = staffed;
    for (const { from, to } of this.#intervals) {
      const start = Math.max(this.#from, from);
      const length = Math.max(0, to - start);
      if (left <= length + 1e-9) return start + left;
      left -= length;
    }
    return Infinity;
  }
}
