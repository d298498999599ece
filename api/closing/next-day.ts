/** The shop's day after the one that is closed: hours already entered for it, else those of the closed day again. */
import { DateTime } from "luxon";
import type { DayFile } from "../contract/day.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";

export interface NextDay {
  readonly planFrom: string;
  readonly staffed: DayFile["staffed"];
  /** Absent where the closed day said nothing of it. */
  readonly nextOpen?: string;
}

type Hours = Pick<DayFile, "timeZone" | "staffed" | "nextOpen">;

interface Interval {
  readonly from: DateTime;
  readonly to: DateTime;
}

/** `now` in milliseconds. A day closed before its hours began is planned again as it stands. */
export function nextDay(day: Hours, now: number): NextDay {
  const time = shopTime(day);
  const at = (instant: string): DateTime => DateTime.fromMillis(time.millis(instant), { zone: day.timeZone });
  const written = (instant: DateTime): string => time.write(instant.toMillis());
  const all = day.staffed
    .map(({ from, to }) => ({ from: at(from), to: at(to) }))
    .toSorted((a, b) => a.from.toMillis() - b.from.toMillis());
  const closed = all.findLast(({ from }) => from.toMillis() <= now)?.from.startOf("day");
  const opens = day.nextOpen === undefined || day.nextOpen === null ? undefined : at(day.nextOpen);
  const entered = closed === undefined ? all : all.filter(({ from }) => from.startOf("day") > closed);
  if (closed === undefined || entered.length > 0) return nextOf(entered, opens, now, written);
  const hours = all.filter(({ from }) => from.hasSame(closed, "day"));
  const days = daysOn(hours, closed, opens, now);
  const moved = hours.map(({ from, to }) => ({ from: from.plus({ days }), to: to.plus({ days }) }));
  return nextOf(moved, opens && opensAfter(moved, opens), now, written);
}

/** When work goes on, where that was said; else tomorrow, or the first day whose hours are not over yet. */
function daysOn(hours: readonly Interval[], closed: DateTime, opens: DateTime | undefined, now: number): number {
  const said = opens === undefined ? 0 : Math.round(opens.startOf("day").diff(closed, "days").days);
  const isOver = (days: number): boolean => hours.every(({ to }) => to.plus({ days }).toMillis() <= now);
  let days = Math.max(1, said);
  while (isOver(days)) days++;
  return days;
}

/** At the hour that was said, on the first day after the hours. */
function opensAfter(hours: readonly Interval[], opens: DateTime): DateTime {
  const last = hours.at(-1)?.to ?? opens;
  const { hour, minute } = opens;
  const sameDay = last.set({ hour, minute, second: 0, millisecond: 0 });
  return sameDay < last ? sameDay.plus({ days: 1 }) : sameDay;
}

function nextOf(
  hours: readonly Interval[],
  opens: DateTime | undefined,
  now: number,
  written: (instant: DateTime) => string,
): NextDay {
  const first = hours[0]?.from ?? DateTime.fromMillis(now);
  // Where the hours have begun, what is left of them.
  const from = Math.max(first.toMillis(), Math.ceil(now / MINUTE) * MINUTE);
  return {
    planFrom: written(DateTime.fromMillis(from)),
    staffed: hours.map((one) => ({ from: written(one.from), to: written(one.to) })),
    ...(opens === undefined ? {} : { nextOpen: written(opens) }),
  };
}
