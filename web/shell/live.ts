/** What the service told last, kept for every screen, and what the buttons ask of it. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import type { Logged } from "../../api/contract/happened.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { setBill } from "../parts/units.ts";
import { readEvents, readLoads } from "./day-service.ts";
import {
  acceptSearch,
  answerKeptAt,
  readRequest,
  readSearch,
  shownSearch,
  startSearch,
  stopSearch,
  watchSearch,
} from "./service.ts";

export interface Live {
  /** False until the first answer. */
  readonly isRead: boolean;
  /** The search under way, else a plan that waits to be taken, else the plan in force; null: nothing was ever planned. */
  readonly search: SearchAnswer | null;
  /** The day that `search` was planned from. */
  readonly day: DayFile | null;
  /** Loads of the plan in force and those before it today, as they stand. */
  readonly loads: readonly LoadNow[];
  /** What was reported since the day was put in or the last one closed. */
  readonly events: readonly Logged[];
  /** Goes up whenever the service says that something changed. */
  readonly turn: number;
  /** When what is shown was kept, where the service does not answer; null: it does. */
  readonly keptAt: string | null;
  /** What the last request failed with. */
  readonly trouble: unknown;
}

const empty = { search: null, day: null, loads: [], events: [], keptAt: null, trouble: null };
let live: Live = { isRead: false, turn: 0, ...empty };
const listeners = new Set<() => void>();
let leave: (() => void) | undefined;

export function tell(parts: Partial<Live>): void {
  live = { ...live, ...parts };
  for (const listener of listeners) listener();
}

export function nowTold(): Live {
  return live;
}

/** Draws the component anew whenever the service told something. */
export function useLive(): Live {
  const [, turn] = useState(0);
  useEffect(() => {
    const listener = (): void => turn((n) => n + 1);
    listeners.add(listener);
    return () => void listeners.delete(listener);
  }, []);
  return live;
}

export function isRunning({ state }: SearchAnswer): boolean {
  return state === "queued" || state === "searching";
}

/** True while what failed last was the page's own reading: then its next success clears it. */
let isOwnTrouble = false;

/** Carries out what a button asks; what goes wrong is shown at the top of the page. True: it was carried out. */
export const attempt = (work: () => Promise<unknown>): Promise<boolean> => tried(work, false);

async function tried(work: () => Promise<unknown>, isOwn: boolean): Promise<boolean> {
  try {
    await work();
    if (!isOwn || isOwnTrouble) tell({ trouble: null });
    return true;
  } catch (trouble) {
    isOwnTrouble = isOwn;
    tell({ trouble });
    return false;
  }
}

/** Reads everything shown anew. What a button's request failed with stays on screen. */
export const refresh = (): Promise<boolean> =>
  tried(async () => {
    const [id, loads, events] = await Promise.all([shownSearch(dismissed()), readLoads(), readEvents()]);
    tell({ loads, events });
    await show(id);
    tell({ keptAt: answerKeptAt() });
  }, true);

export const plan = (from: "day" | "now"): Promise<boolean> => attempt(async () => show((await startSearch(from)).id));
export const stop = (id: string): Promise<boolean> => attempt(async () => tell({ search: await stopSearch(id) }));
export const accept = (id: string): Promise<boolean> =>
  attempt(async () => {
    await acceptSearch(id);
    await refresh();
  });

const dismissedKey = "ovenful plan not taken";
const dismissed = (): string => localStorage.getItem(dismissedKey) ?? "";

/** Goes back to the plan in force on this device. */
export function dismiss(id: string): Promise<boolean> {
  localStorage.setItem(dismissedKey, id);
  return refresh();
}

/** Reads a search with its day, and follows it while it runs. */
export async function show(id: string | null): Promise<void> {
  if (id === null) {
    leave?.();
    leave = undefined;
    return tell({ isRead: true, search: null, day: null });
  }
  const [search, { day }] = await Promise.all([readSearch(id), readRequest(id)]);
  setBill(day.gas);
  tell({ isRead: true, search, day });
  leave?.();
  leave = isRunning(search) ? follow(id) : undefined;
}

function follow(id: string): () => void {
  return watchSearch(id, (told) => {
    if (live.search?.id === id) tell({ search: { ...live.search, ...told } });
  });
}
