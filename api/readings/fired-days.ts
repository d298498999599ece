/** Every day with the loads that were fired, as they were reported: the closed ones, and today as far as it is. */
import { dayOfAll, firedLoads, plansInForce } from "../closing/fired.ts";
import type { Day, DayFile } from "../contract/day.ts";
import type { PlanLoad } from "../contract/plan.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { momentOf } from "../shop/stand.ts";
import type { Image } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { EditedRow } from "../store/tables.ts";

export interface FiredDay {
  readonly day: Day;
  /** In order of door opening; of interrupted ones nobody knows what they did. */
  readonly loads: readonly PlanLoad[];
}

export async function firedDays(db: Db, now: number): Promise<FiredDay[]> {
  const closed = await db
    .selectFrom("closed_day")
    .innerJoin("event", "event.id", "closed_day.last_event")
    .select(["closed_day.day", "closed_day.closed_at", "first_event", "last_event", "event.before"])
    .orderBy("closed_day.id", "desc")
    .limit(mostDays)
    .execute();
  const days: FiredDay[] = [];
  for (const row of closed.toReversed()) {
    const loads = (JSON.parse(row.before) as Image[]).flatMap(loadRow);
    const plans = await plansInForce(db, row.first_event, row.last_event);
    days.push(...firedDay(JSON.parse(row.day) as DayFile, plans, loads, Date.parse(row.closed_at)));
  }
  const rows = await shopRows(db);
  const stored = dayOf(rows);
  if (stored === undefined) return days;
  const plans = await plansInForce(db, (closed[0]?.last_event ?? 0) + 1, Number.MAX_SAFE_INTEGER);
  return [...days, ...firedDay(stored, plans, rows.loads, now)];
}

/** Older readings than these days' say little about the oven as it is. */
const mostDays = 60;

/** Closing a day takes its loads away; the event keeps them as they were. */
function loadRow({ table, before }: Image): EditedRow[] {
  return table === "load" && before !== null && typeof before !== "string" ? [before] : [];
}

function firedDay(
  stored: DayFile,
  plans: Parameters<typeof dayOfAll>[1],
  rows: readonly EditedRow[],
  now: number,
): FiredDay[] {
  const day = dayOfAll(stored, plans);
  if (day === undefined) return [];
  const fired = firedLoads({ loads: rows }, momentOf({ stored, now }));
  return [{ day, loads: fired.filter(({ state }) => state === "fired").map(({ load }) => load) }];
}
