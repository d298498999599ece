/** Instants as a shop says them: the clock of the day's zone, with the weekday where it is another day than the first. */

export interface ClockText {
  /** 08:31; Wed 08:31 on another day than the plan's first; Wed 23 Sep 08:31 beyond a week. The clock's minute, as a wall clock shows it. */
  readonly time: (instant: string) => string;
  /** The same, seconds rounded up: by then it has happened. */
  readonly by: (instant: string) => string;
  /** Tuesday 15 September 2026, the plan's first day. */
  readonly firstDay: string;
}

const MINUTE = 60_000;
const DAYS_BEFORE_WEEKDAYS_REPEAT = 7;

/** `planFrom` and all instants carry their offset. */
export function clockText(timeZone: string, planFrom: string): ClockText {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone,
    weekday: "short",
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  });
  const long = new Intl.DateTimeFormat("en-GB", {
    timeZone,
    weekday: "long",
    day: "numeric",
    month: "long",
    year: "numeric",
  });
  const first = Date.parse(planFrom);
  const firstDate = dateOf(parts, first);
  const say = (millis: number): string => {
    const said = fields(parts, millis);
    const clock = `${said["hour"]}:${said["minute"]}`;
    if (dateOf(parts, millis) === firstDate) return clock;
    const near = Math.abs(millis - first) < (DAYS_BEFORE_WEEKDAYS_REPEAT - 1) * 24 * 60 * MINUTE;
    return near ? `${said["weekday"]} ${clock}` : `${said["weekday"]} ${said["day"]} ${said["month"]} ${clock}`;
  };
  return {
    time: (instant) => say(Date.parse(instant)),
    by: (instant) => say(Math.ceil(Date.parse(instant) / MINUTE) * MINUTE),
    firstDay: long.format(first).replace(",", ""),
  };
}

function dateOf(format: Intl.DateTimeFormat, millis: number): string {
  const { year, month, day } = fields(format, millis);
  return `${year} ${month} ${day}`;
}

function fields(format: Intl.DateTimeFormat, millis: number): Record<string, string> {
  return Object.fromEntries(format.formatToParts(millis).map(({ type, value }) => [type, value]));
}

/** Minutes later (or, negative, earlier), as an instant. */
export function shifted(instant: string, minutes: number): string {
  return new Date(Date.parse(instant) + minutes * MINUTE).toISOString();
}
