/** When an invented day is: its zone, its shifts, and minutes from `planFrom` written as the file wants them. */
import type { DayFile } from "../../api/contract/day.ts";
import { readInstant, writeInstant } from "../../api/day/instants.ts";
import type { Chance } from "./day-chance.ts";

export const zones = ["Europe/Lisbon", "America/St_Johns", "Asia/Kathmandu", "Pacific/Auckland"] as const;

/** Evenings before a clock change in 2026 (IANA time zone database). Nepal has none. */
const changeEves: Readonly<Record<string, readonly string[]>> = {
  "Europe/Lisbon": ["2026-03-28", "2026-10-24"],
  "America/St_Johns": ["2026-03-07", "2026-10-31"],
  "Pacific/Auckland": ["2026-04-04", "2026-09-26"],
};

export interface DayCalendar {
  readonly zone: string;
  readonly planFrom: string;
  readonly staffed: DayFile["staffed"];
  /** A minute from `planFrom` as the file shows it. */
  readonly at: (minute: number) => string;
  /** So many minutes of work from `planFrom` on, lunch included, in minutes from `planFrom`; shifts go on day after day. */
  readonly worked: (minutes: number) => number;
}

const MINUTE = 60_000;
/** Both shifts below are as long. */
const SHIFT_MINUTES = 10.5 * 60;

export interface CalendarWish {
  readonly zone: string;
  readonly days: number;
}

export function inventCalendar(chance: Chance, { zone, days }: CalendarWish): DayCalendar {
  const eve = chance.happens(0.35) ? changeEves[zone] : undefined;
  const date = eve === undefined ? "2026-05-12" : chance.oneOf(eve);
  // A night shift of one day works through the change, day shifts have it between them.
  const night = eve !== undefined && days === 1;
  const shift = night ? { from: "20:00", to: "06:30" } : { from: "07:30", to: "18:00" };
  const lunch = !night && chance.happens(0.3);
  const offsets = chance.happens(0.4);
  const write = (millis: number): string => (offsets ? writeInstant(millis, zone) : localText(millis, zone));
  const start = millisOf(`${date}T${shift.from}`, zone);
  const staffed = Array.from({ length: days }, (_, d) => {
    const from = `${addDays(date, d)}T${shift.from}`;
    const to = `${addDays(date, night ? d + 1 : d)}T${shift.to}`;
    const noon = addDays(date, d);
    return lunch
      ? [
          { from, to: `${noon}T12:30` },
          { from: `${noon}T13:00`, to },
        ]
      : [{ from, to }];
  }).flat();
  return {
    zone,
    planFrom: write(start),
    staffed: staffed.map(({ from, to }) => ({ from: write(millisOf(from, zone)), to: write(millisOf(to, zone)) })),
    at: (minute) => write(start + minute * MINUTE),
    worked: (minutes) => minutes + Math.floor(Math.max(0, minutes) / SHIFT_MINUTES) * (24 * 60 - SHIFT_MINUTES),
  };
}

/** So many minutes after an instant or a local time, with its offset. */
export function later(text: string, minutes: number, zone: string): string {
  return writeInstant(millisOf(text, zone) + minutes * MINUTE, zone);
}

export function millisOf(local: string, zone: string): number {
  const read = readInstant(local, zone);
  if (read.kind !== "instant") throw new Error(`${local} is ${read.kind} in ${zone}`);
  return read.millis;
}

/** Local time as people write it; with its offset where the clock change makes it doubtful. */
function localText(millis: number, zone: string): string {
  const full = writeInstant(millis, zone);
  const local = full.slice(0, 16);
  return readInstant(local, zone).kind === "instant" ? local : full;
}

function addDays(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00Z`) + days * 24 * 60 * MINUTE).toISOString().slice(0, 10);
}
