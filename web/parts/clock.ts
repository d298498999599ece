/** Instants as the shop's clock shows them. The plan's instants carry the shop's offset, so their text is the shop's time. */
import { language } from "./language.ts";
import { instantIn, localOf } from "./zone.ts";

const shopTime = { timeZone: "UTC" } as const;
const numeric = new Intl.DateTimeFormat(language, { ...shopTime, hour: "numeric", minute: "2-digit" });
/** Where hours count to 24 they have two digits, so that columns of times line up. */
const clock =
  numeric.resolvedOptions().hour12 === true
    ? numeric
    : new Intl.DateTimeFormat(language, { ...shopTime, hour: "2-digit", minute: "2-digit" });
const day = new Intl.DateTimeFormat(language, { ...shopTime, weekday: "short", day: "numeric", month: "short" });

/** The instant's own date and time, as if they were UTC. Seconds fall off: a clock shows the minute that runs. */
function wallMillis(instant: string): number {
  return Date.parse(`${instant.slice(0, 16)}Z`);
}

/** "07:30", or "7:30 AM" where the browser's reader counts to 12. */
export function clockOf(instant: string): string {
  return clock.format(wallMillis(instant));
}

export function millisOf(instant: string): number {
  return Date.parse(instant);
}

/** The clock text of a moment, milliseconds since 1970, in a time zone. */
export function clockAt(timeZone: string, millis: number): string {
  return clockOf(instantIn(timeZone, millis));
}

/** "Tue 9 Jun 07:30" in a time zone, of an instant or of a local time as a day file has it. */
export function dayAndClock(timeZone: string, text: string): string {
  const local = localOf(timeZone, text);
  return `${dayOf(local)} ${clockOf(local)}`;
}

/** "2026-06-09", to compare. */
export function dateOf(instant: string): string {
  return instant.slice(0, 10);
}

/** "Tue 9 Jun". */
export function dayOf(instant: string): string {
  return day.format(wallMillis(instant));
}

/** The clock, with the day before it where that is another day than `like`. */
export function whenOf(instant: string, like: string): string {
  return dateOf(instant) === dateOf(like) ? clockOf(instant) : `${dayOf(instant)} ${clockOf(instant)}`;
}

/** "42:10" or "1:12:10"; what is over counts on with a minus. */
export function countdown(millis: number): string {
  const seconds = Math.abs(Math.trunc(millis / 1000));
  const two = (n: number): string => String(n).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  const rest = `${hours > 0 ? two(Math.floor(seconds / 60) % 60) : Math.floor(seconds / 60)}:${two(seconds % 60)}`;
  return `${millis < 0 && seconds > 0 ? "−" : ""}${hours > 0 ? `${hours}:` : ""}${rest}`;
}

/** Day and hour of an instant on this device's own clock. */
export function deviceTime(instant: string): string {
  return new Intl.DateTimeFormat(language, { dateStyle: "medium", timeStyle: "short" }).format(millisOf(instant));
}
