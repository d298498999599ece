/** Moments as the clock of a time zone shows them, clock changes included. Zones are IANA names. */

const MINUTE = 60_000;
const formats = new Map<string, Intl.DateTimeFormat>();

/** Made once for each zone: a format takes longer to make than to use. */
function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en", {
    timeZone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  });
  formats.set(timeZone, made);
  return made;
}

/** Milliseconds of the zone's date and time as if they were UTC. Parts of a second fall off. */
function wallMillis(millis: number, timeZone: string): number {
  const parts = formatOf(timeZone).formatToParts(millis);
  const of = (type: Intl.DateTimeFormatPartTypes): string => parts.find((part) => part.type === type)?.value ?? "";
  return Date.parse(`${of("year")}-${of("month")}-${of("day")}T${of("hour")}:${of("minute")}:${of("second")}Z`);
}

/** "2026-06-09T08:05:30+01:00" of milliseconds since 1970. Parts of a second fall off. */
export function instantIn(timeZone: string, millis: number): string {
  const wall = wallMillis(millis, timeZone);
  const ahead = Math.round((wall - millis) / MINUTE);
  const two = (n: number): string => String(n).padStart(2, "0");
  const offset = `${ahead < 0 ? "-" : "+"}${two(Math.trunc(Math.abs(ahead) / 60))}:${two(Math.abs(ahead) % 60)}`;
  return new Date(wall).toISOString().slice(0, 19) + offset;
}

/** "2026-06-09T08:05" of milliseconds since 1970, as a field for a local time wants it. */
export function localIn(timeZone: string, millis: number): string {
  return instantIn(timeZone, millis).slice(0, 16);
}

/** The same of a day file's time, which is local already where it has no offset. */
export function localOf(timeZone: string, text: string): string {
  return /(Z|[+-]\d\d:\d\d)$/.test(text) ? localIn(timeZone, Date.parse(text)) : text.slice(0, 16);
}

/** The instant moved by minutes, to the nearest second. */
export function movedBy(timeZone: string, instant: string, minutes: number): string {
  return instantIn(timeZone, Math.round((Date.parse(instant) + minutes * MINUTE) / 1000) * 1000);
}

/** What is ready within a minute is ready when that minute is over. */
export function minuteUp(timeZone: string, instant: string): string {
  return instantIn(timeZone, Math.ceil(Date.parse(instant) / MINUTE) * MINUTE);
}
