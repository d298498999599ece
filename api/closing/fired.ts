/** What was fired today: loads over, under way and lost, with the pans, coats and ovens that they were planned with. */
import { daySchema } from "../contract/day.ts";
import type { Day, DayFile } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { handedOut } from "../plans/handed-out.ts";
import type { HandedOut } from "../plans/handed-out.ts";
import { HANDED_IN } from "../shop/day-rows.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import type { Moment } from "../shop/progress.ts";
import { hasOpened, isDone } from "../shop/progress.ts";
import type { Trx } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { PlanRow } from "../store/tables.ts";

export interface Fired {
  readonly load: PlanLoad;
  readonly state: "firing" | "fired" | "interrupted";
}

/** In order of door opening. */
export function firedLoads(rows: Pick<ShopRows, "loads">, moment: Moment): Fired[] {
  const fired = rows.loads.flatMap(({ body, state, note }): Fired[] => {
    if (note === HANDED_IN) return [];
    const load = JSON.parse(body) as PlanLoad;
    if (state === "interrupted") return [{ load, state }];
    const now = { load, state };
    if (!hasOpened(now, moment)) return [];
    return [{ load, state: isDone(now, moment) ? "fired" : "firing" }];
  });
  return fired.toSorted((a, b) => Date.parse(a.load.doorOpensAt) - Date.parse(b.load.doorOpensAt));
}

/** A plan that was in force that day. */
export interface KeptPlan {
  readonly id: string;
  readonly kind: "plan" | "replan" | "quote";
  readonly acceptedAt: string;
  readonly day: string;
  readonly request: string;
  readonly version: string;
  readonly course: PlanRow["course"];
  readonly plan: string | null;
  readonly wishes: HandedOut["wishes"];
}

/** Plans accepted between two events (numbers, both included), in order. */
export async function plansInForce(db: Db | Trx, first: number, last: number): Promise<KeptPlan[]> {
  const rows = await db
    .selectFrom("event")
    .innerJoin("plan", "plan.id", "event.subject")
    .select([
      "plan.id",
      "plan.kind",
      "event.at as acceptedAt",
      "plan.day",
      "plan.request",
      "plan.version",
      "plan.plan",
      "plan.extra",
      "plan.course",
    ])
    .where("event.kind", "in", ["plan-accepted", "quote-accepted"])
    .where("event.id", ">=", first)
    .where("event.id", "<=", last)
    .orderBy("event.id")
    .execute();
  return rows.map(({ extra, ...row }) => {
    if (row.plan === null) return { ...row, wishes: {} };
    const { day, plan, wishes } = handedOut({ day: row.day, extra }, JSON.parse(row.plan) as PlanFile);
    return { ...row, day: JSON.stringify(day), plan: JSON.stringify(plan), wishes };
  });
}

/**
 * One day that knows every pan, coating, metal and oven that was planned with, with defaults filled in; only for figures, not to
 * plan from. A pan counts as it first was, ovens and coatings as they last were. Undefined where a part of it can no longer be read.
 */
export function dayOfAll(stored: DayFile, plans: readonly KeptPlan[]): Day | undefined {
  const days = [...plans.map(({ day }) => JSON.parse(day) as DayFile), stored];
  const all = <T extends { readonly id: string }>(of: (day: DayFile) => readonly T[]): T[] => [
    ...new Map(days.flatMap(of).map((entry) => [entry.id, entry])).values(),
  ];
  const known = new Set<string>();
  const firstOnes = days.flatMap((day) => day.pans).filter(({ id }) => !known.has(id) && known.add(id));
  const pans = firstOnes.map((pan) => ({ ...pan, nextCoat: 1, sprayed: false, promisedAt: null }));
  const materials: DayFile["materials"] = Object.assign({}, ...days.map((day) => day.materials));
  const merged = { ...stored, coatings: all((day) => day.coatings), ovens: all((day) => day.ovens), pans, materials };
  const read = daySchema.safeParse({ ...merged, held: [], inForce: [] });
  return read.success ? read.data : undefined;
}
