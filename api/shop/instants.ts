/** Times of the shop's day as milliseconds and back. */
import type { DayFile } from "../contract/day.ts";
import { readInstant, writeInstant } from "../day/instants.ts";

export interface ShopTime {
  /** The text has passed the contract; NaN for a local time that the clock change skips or repeats. */
  readonly millis: (instant: string) => number;
  /** With the zone's offset, to the second. */
  readonly write: (millis: number) => string;
}

export function shopTime(day: Pick<DayFile, "timeZone">): ShopTime {
  return {
    millis: (instant) => {
      const read = readInstant(instant, day.timeZone);
      return read.kind === "instant" ? read.millis : Number.NaN;
    },
    write: (millis) => writeInstant(millis, day.timeZone),
  };
}

export const MINUTE = 60_000;

/** Start and end of everything staffed, in milliseconds. */
export function horizon(day: DayFile): { readonly from: number; readonly to: number } {
  const { millis } = shopTime(day);
  return { from: millis(day.planFrom), to: Math.max(...day.staffed.map(({ to }) => millis(to))) };
}

/** Staffed milliseconds between two instants. */
export function staffedBetween(day: DayFile, from: number, to: number): number {
  const { millis } = shopTime(day);
  return day.staffed.reduce((sum, interval) => {
    const overlap = Math.min(millis(interval.to), to) - Math.max(millis(interval.from), from);
    return sum + Math.max(0, overlap);
  }, 0);
}

/** The first instant from `from` on at which work of so many milliseconds lies within one staffed interval. */
export function firstStaffed(day: DayFile, from: number, length: number): number | undefined {
  const { millis } = shopTime(day);
  return day.staffed
    .map((interval) => ({ start: Math.max(millis(interval.from), from), end: millis(interval.to) }))
    .find(({ start, end }) => start + length <= end)?.start;
}
