/** The common clock of the drawing: which hours it spans and where a moment lies, in px. */
import { millisOf } from "../parts/clock.ts";
import type { Planned } from "../parts/day-lookup.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { localIn } from "../parts/zone.ts";

const minute = 60_000;
const hour = 60 * minute;
/** So wide an hour is at least; narrower windows scroll. */
const leastHourPx = 110;
/** Room for the last hour's text. */
const endPx = 28;

export interface Scale {
  readonly from: number;
  readonly to: number;
  /** Of the whole drawing, px. */
  readonly width: number;
  readonly x: (millis: number) => number;
}

/** Whole hours of the shop's clock from the first thing to the last. Undefined: the plan holds nothing to draw. */
export function scaleOf({ day, plan }: Planned, loads: readonly LoadNow[], roomPx: number): Scale | undefined {
  const ends = [
    ...loads.flatMap(({ load }) => [load.doorOpensAt, load.doneAt]),
    ...[...plan.booth, ...plan.prep].flatMap(({ from, to }) => [from, to]),
  ].map(millisOf);
  if (ends.length === 0) return undefined;
  const first = Math.min(...ends);
  // Some zones are half an hour or a quarter off the others.
  const pastHour = Number(localIn(day.timeZone, first).slice(-2)) * minute;
  const from = first - (first % minute) - pastHour;
  const to = from + hour * Math.max(1, Math.ceil((Math.max(...ends) - from) / hour));
  const width = Math.max(roomPx, ((to - from) / hour) * leastHourPx + endPx);
  return { from, to, width, x: (millis) => ((millis - from) / (to - from)) * (width - endPx) };
}

export function hoursOf({ from, to }: Scale): number[] {
  return Array.from({ length: Math.floor((to - from) / hour) + 1 }, (_, i) => from + i * hour);
}
