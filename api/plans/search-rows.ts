/** What a search writes to its row of the file while it goes on. */
import type { Db } from "../store/database.ts";
import type { PlanRow } from "../store/tables.ts";
import type { Better } from "./messages.ts";

export type RowParts = Partial<
  Pick<PlanRow, "plan" | "cost" | "bound" | "seconds" | "faults" | "state" | "day" | "course">
>;

export async function writeParts(db: Db, id: string, parts: RowParts): Promise<void> {
  await db.updateTable("plan").set(parts).where("id", "=", id).execute();
}

export function partsOf({ plan, cost, bound, seconds, course }: Better): RowParts {
  return { plan: JSON.stringify(plan), cost, bound, seconds, course: Buffer.from(course, "base64") };
}

export async function begunRow(db: Db, id: string): Promise<PlanRow> {
  const [row] = await db.updateTable("plan").set({ state: "searching" }).where("id", "=", id).returningAll().execute();
  if (row === undefined) throw new Error("a search without its row");
  return row;
}

/** Searches that had a plan when their service went down end with it; answers those that had none yet, in order. */
export async function leftBehind(db: Db): Promise<string[]> {
  await db
    .updateTable("plan")
    .set({ state: "cut short" })
    .where("state", "in", ["queued", "searching"])
    .where("plan", "is not", null)
    .execute();
  const promised = await db
    .selectFrom("plan")
    .select("id")
    .where("state", "in", ["queued", "searching"])
    .orderBy("made_at")
    .execute();
  return promised.map(({ id }) => id);
}
