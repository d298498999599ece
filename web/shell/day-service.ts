/** Asks the service about the day as it stands: loads, what was reported, pans. */
import type { Happened, Logged } from "../../api/contract/happened.ts";
import type { Interruption } from "../../api/contract/searching.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { ask } from "./service.ts";
import { signed } from "./who.ts";

export const readLoads = async (): Promise<LoadNow[]> =>
  (await ask<{ loads: LoadNow[] }>("GET", "/loads")).loads.filter(({ state }) => state !== "dropped");

let log: Logged[] = [];
const dayEnds: readonly string[] = ["day-put", "day-closed"];

/**
 * Everything reported since the day was put in or the last one closed, oldest first. Asks only for what is new, until
 * nothing is: without the service, the kept answers lead from one to the next in the same way.
 */
export async function readEvents(): Promise<readonly Logged[]> {
  for (;;) {
    const { events } = await ask<{ events: Logged[] }>("GET", `/events?after=${log.at(-1)?.id ?? 0}`);
    const known = log.at(-1)?.id ?? 0;
    const all = [...log, ...events.filter(({ id }) => id > known)];
    const ended = all.findLastIndex(({ kind }) => dayEnds.includes(kind));
    log = ended < 0 ? all : all.slice(ended);
    if (events.length === 0) return log;
  }
}

/** What is reported, as the contract's input allows it: fields with a default may be missing. */
export type Report = Pick<Happened, "kind"> & Readonly<Record<string, unknown>>;

/** What the service makes of a report. */
export interface Reported {
  /** Number of the event. */
  readonly event: number;
  readonly notes: readonly string[];
  readonly interrupted: readonly Interruption[];
}

export const report = (happened: Report): Promise<Reported> => ask("POST", "/events", signed(happened));
export const undo = (event: number): Promise<unknown> => ask("POST", `/events/${event}/undo`, signed({}));

export interface Reading {
  readonly oven: string;
  readonly load?: string;
  readonly pan?: string;
  readonly chamberC?: number;
  readonly metalC?: number;
}
export interface ReadingKept {
  readonly id: number;
  readonly at: string;
  readonly reading: Reading;
}

export const addReading = (reading: Reading): Promise<ReadingKept> => ask("POST", "/readings", reading);
export const readReadings = async (oven: string): Promise<readonly ReadingKept[]> =>
  (await ask<{ readings: ReadingKept[] }>("GET", `/readings?oven=${encodeURIComponent(oven)}`)).readings;
