/** The only "now" of the service; tests bring their own. */

export interface Clock {
  /** Milliseconds since 1970-01-01T00:00Z. */
  readonly now: () => number;
}

export const wallClock: Clock = { now: () => Date.now() };

const MINUTE = 60_000;

/** The whole minute at or after an instant, in milliseconds. */
export function wholeMinuteFrom(millis: number): number {
  return Math.ceil(millis / MINUTE) * MINUTE;
}
