/** What the load in the oven asks for next, and by when. */
import type { DayFile } from "../../api/contract/day.ts";
import { millisOf } from "../parts/clock.ts";
import { burnerOffWindow } from "../parts/load-now.ts";
import type { LoadNow } from "../parts/load-now.ts";

/** The moment that the countdown runs to, and the last one by which it must have happened; instants. */
export interface Due {
  readonly what: "close" | "light" | "burner off" | "out" | "done" | "ends";
  readonly from: string;
  /** Null: as soon as `from`. */
  readonly latest: string | null;
}

export interface Reported {
  readonly closed: boolean;
  readonly off: boolean;
}

/** What comes next for a load that is under way; the plan is believed where nothing is reported. */
export function dueNow(day: DayFile, { load }: LoadNow, reported: Reported, now: number): Due {
  const passed = (instant: string | null): boolean => instant !== null && millisOf(instant) <= now;
  const off = burnerOffWindow(day, load);
  if (!reported.closed && !reported.off && !passed(load.doorClosesAt))
    return { what: "close", from: load.doorClosesAt, latest: null };
  if (load.burnerOnAt !== null && !reported.off && !passed(load.burnerOnAt))
    return { what: "light", from: load.burnerOnAt, latest: null };
  if (off !== null && !reported.off && !passed(load.unloadAt))
    return { what: "burner off", from: off.earliest, latest: off.latest };
  if (load.pans.length === 0) return { what: "ends", from: load.unloadAt, latest: null };
  if (!passed(load.unloadAt)) return { what: "out", from: load.unloadAt, latest: null };
  return { what: "done", from: load.unloadAt, latest: null };
}
