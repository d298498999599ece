/** What the service told last, kept for every screen, and what the buttons ask of it. */
import { useEffect, useState } from "preact/hooks";
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { setBill } from "../parts/units.ts";
import {
  acceptSearch,
  newestSearch,
  readRequest,
  readSearch,
  startSearch,
  stopSearch,
  watchSearch,
} from "./service.ts";

export interface Live {
  /** False until the first answer. */
  readonly isRead: boolean;
  /** The search under way, else the plan in force, else the newest; null: nothing was ever planned. */
  readonly search: SearchAnswer | null;
  /** The day that `search` was planned from. */
  readonly day: DayFile | null;
  /** What the last request failed with. */
  readonly trouble: unknown;
}

let live: Live = { isRead: false, search: null, day: null, trouble: null };
const listeners = new Set<() => void>();
let leave: (() => void) | undefined;

function tell(parts: Partial<Live>): void {
  live = { ...live, ...parts };
  for (const listener of listeners) listener();
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

/** Carries out what a button asks; what goes wrong is shown at the top of the page. */
export async function attempt(work: () => Promise<unknown>): Promise<void> {
  try {
    await work();
    tell({ trouble: null });
  } catch (trouble) {
    tell({ trouble });
  }
}

export const refresh = (): Promise<void> => attempt(async () => show(await newestSearch()));
export const plan = (from: "day" | "now"): Promise<void> => attempt(async () => show((await startSearch(from)).id));
export const stop = (id: string): Promise<void> => attempt(async () => tell({ search: await stopSearch(id) }));
export const accept = (id: string): Promise<void> =>
  attempt(async () => {
    await acceptSearch(id);
    await show(id);
  });

/** Reads a search with its day, and follows it while it runs. */
export async function show(id: string | null): Promise<void> {
  leave?.();
  leave = undefined;
  if (id === null) return tell({ isRead: true, search: null, day: null });
  const [search, { day }] = await Promise.all([readSearch(id), readRequest(id)]);
  setBill(day.gas);
  tell({ isRead: true, search, day });
  if (isRunning(search))
    leave = watchSearch(id, (told) => {
      if (live.search?.id === id) tell({ search: { ...live.search, ...told } });
    });
}
