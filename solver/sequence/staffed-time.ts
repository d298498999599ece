/** The staffed intervals as questions: where does work fit, how much of it lies before an instant. Whole minutes. */
import type { Interval } from "../shop.ts";

export class StaffedTime {
  readonly intervals: readonly Interval[];

  constructor(intervals: readonly Interval[]) {
    this.intervals = intervals;
  }

  /** Earliest start ≥ `from` of work that lasts `minutes` without a break, or -1 when none fits. */
  fit(from: number, minutes: number): number {
    const { intervals } = this;
    for (let at = 0; at < intervals.length; at++) {
      const interval = intervals[at]!;
      const start = from > interval.from ? from : interval.from;
      if (start + minutes <= interval.to) return start;
    }
    return -1;
  }

  /** Staffed minutes in [from, to]. */
  minutesBetween(from: number, to: number): number {
    let sum = 0;
    for (const interval of this.intervals)
      sum += Math.max(0, Math.min(to, interval.to) - Math.max(from, interval.from));
    return sum;
  }
}
