/** Instants of the two files as minutes since 1970-01-01T00:00Z, with time-zone arithmetic from `Intl` alone. */

export interface Clock {
  /** Minutes since the epoch; NaN where the text is no instant. Without an offset the text is local to the zone. */
  readonly minutes: (text: string) => number;
  /** Minutes the zone's clocks are ahead of UTC at an instant; NaN where there is no such instant. */
  readonly offsetAt: (minutes: number) => number;
  /** Offset written in the text, minutes; undefined where it carries none. */
  readonly offsetSaid: (text: string) => number | undefined;
  /** Local date and time for a sentence, as in `2026-03-10 08:31`. */
  readonly show: (minutes: number) => string;
}

const instantPattern = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2})(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})?$/;
/** Zones change their clocks on multiples of this, so one look-up serves every instant in between. */
const lookUpMinutes = 15;

export function clockOf(timeZone: string): Clock {
  const offsetAt = offsetTable(timeZone);
  const minutes = (text: string): number => {
    const match = instantPattern.exec(text);
    if (match === null) return Number.NaN;
    const local = wallMinutes(match);
    return match[8] === undefined ? fromLocal(local, offsetAt) : local - offsetMinutes(match[8]);
  };
  const offsetSaid = (text: string): number | undefined => {
    const written = instantPattern.exec(text)?.[8];
    return written === undefined ? undefined : offsetMinutes(written);
  };
  const show = (instant: number): string => {
    const shifted = instant + offsetAt(instant);
    if (!Number.isFinite(shifted)) return "no time";
    return new Date(Math.round(shifted * 60) * 1000).toISOString().slice(0, 19).replace("T", " ").replace(/:00$/, "");
  };
  return { minutes, offsetAt, offsetSaid, show };
}

function wallMinutes(match: RegExpExecArray): number {
  const part = (index: number): number => Number(match[index] ?? 0);
  const wall = Date.UTC(part(1), part(2) - 1, part(3), part(4), part(5), part(6));
  return wall / 60_000 + part(7) / 60;
}

function offsetMinutes(written: string): number {
  if (written === "Z") return 0;
  const sign = written.startsWith("-") ? -1 : 1;
  return sign * (Number(written.slice(1, 3)) * 60 + Number(written.slice(-2)));
}

/** Two rounds suffice unless the clock change skips or repeats the time, which the day file may not leave open. */
function fromLocal(local: number, offsetAt: (minutes: number) => number): number {
  const first = local - offsetAt(local);
  return local - offsetAt(first);
}

function offsetTable(timeZone: string): (minutes: number) => number {
  const format = new Intl.DateTimeFormat("en-GB", { timeZone, timeZoneName: "longOffset" });
  const known = new Map<number, number>();
  return (minutes) => {
    const slot = Math.floor(minutes / lookUpMinutes);
    const found = known.get(slot);
    if (found !== undefined) return found;
    const date = new Date(slot * lookUpMinutes * 60_000);
    if (Number.isNaN(date.getTime())) return Number.NaN;
    const name = format.formatToParts(date).find((part) => part.type === "timeZoneName")?.value ?? "GMT";
    const offset = name === "GMT" ? 0 : offsetMinutes(name.slice(3));
    known.set(slot, offset);
    return offset;
  };
}
