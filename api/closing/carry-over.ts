/** What the next day begins with: its hours, the ovens and the bottle as the closed day leaves them, somebody to spray. */
import type { DayFile } from "../contract/day.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import { NO_SPRAYER } from "../shop/equipment.ts";
import { gasNow } from "../shop/gas-now.ts";
import { shopTime } from "../shop/instants.ts";
import { ovenNow } from "../shop/oven-now.ts";
import { hasOpened } from "../shop/progress.ts";
import type { Moment } from "../shop/progress.ts";
import type { Current } from "../shop/stand.ts";
import { momentOf } from "../shop/stand.ts";
import type { Change } from "../store/change.ts";
import type { NextDay } from "./next-day.ts";

export interface Closed {
  readonly rows: ShopRows;
  readonly day: DayFile;
  readonly current: Current | null;
  readonly moment: Moment;
}

export async function carryOver(change: Change, closed: Closed, next: NextDay): Promise<void> {
  for (const [id, value] of Object.entries(next)) await change.put("setting", id, { body: JSON.stringify(value) });
  // Where the plan in force had its bakes is of no use to a day that has no plan.
  for (const id of ["inForce", "inForceLoads"]) await change.drop("setting", id);
  const { rows, day, current, moment } = closed;
  if (rows.settings.some(({ id, note }) => id === "booth" && note === NO_SPRAYER))
    await change.put("setting", "booth", { note: "" });
  if (current === null) return;
  const opened = current.loads.filter((entry) => hasOpened(entry, moment));
  const asOf = shopTime(day).millis(next.planFrom);
  // By the morning whatever was in an oven is out of it.
  const then = { opened, firing: [], moment: momentOf({ stored: day, now: asOf }), asOf, coatings: day.coatings };
  for (const { id, body } of rows.ovens) {
    const oven = JSON.parse(body) as DayFile["ovens"][number];
    const found = asWritten(oven, ovenNow(oven, current, then), day.ambientC ?? 20);
    if (JSON.stringify(found) !== body) await change.put("oven", id, { body: JSON.stringify(found) });
  }
  const bottle = rows.settings.find(({ id }) => id === "gas");
  if (day.gas !== undefined && (day.gas.unitsLeft ?? null) !== null) {
    const gas = gasNow(day.gas, bottle, current.loads, moment);
    await change.put("setting", "gas", { body: JSON.stringify(gas), follows: "" });
  }
}

type OvenFile = DayFile["ovens"][number];

/** A field that says nothing new is not written where it was not. */
function asWritten(was: OvenFile, found: OvenFile, ambientC: number): OvenFile {
  const lastGroups = found.lastGroups ?? [];
  const groups = was.lastGroups === undefined && lastGroups.length === 0 ? {} : { lastGroups };
  if (was.cycle.kind === "fixed" || found.cycle.kind === "fixed") return { ...was, ...groups };
  const startC = Math.round(found.cycle.startC ?? ambientC);
  const isCold = Math.abs(startC - ambientC) < 1;
  const start = was.cycle.startC === undefined && isCold ? {} : { startC };
  return { ...was, ...groups, cycle: { ...was.cycle, ...start } };
}
