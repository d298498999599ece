/** The plan in force with its loads as they are now. */
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { handedOut } from "../plans/handed-out.ts";
import type { Trx } from "../store/change.ts";
import { rowsOf } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import { HANDED_IN } from "./day-rows.ts";
import type { Current } from "./stand.ts";

export async function currentPlan(db: Db | Trx): Promise<Current | null> {
  const [shop] = await db.selectFrom("shop").select("in_force").execute();
  if (!shop?.in_force) return null;
  const [row] = await db
    .selectFrom("plan")
    .select(["id", "day", "plan", "extra"])
    .where("id", "=", shop.in_force)
    .execute();
  if (!row?.plan) return null;
  const loads = (await rowsOf(db, "load"))
    .filter(({ note }) => note !== HANDED_IN)
    .map(({ body, state }) => ({ load: JSON.parse(body) as PlanLoad, state }))
    .toSorted((a, b) => Date.parse(a.load.doorOpensAt) - Date.parse(b.load.doorOpensAt));
  const { day, plan } = handedOut(row, JSON.parse(row.plan) as PlanFile);
  return { id: row.id, day, plan, loads };
}
