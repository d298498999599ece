/** Closing a day: what was done leaves the list, what is left waits for tomorrow, and the record stays. */
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import type { Answer } from "../http/route.ts";
import type { Change } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { ClosedDayRow } from "../store/tables.ts";
import { currentPlan } from "./current.ts";
import { dayOf, shopRows } from "./day-rows.ts";
import { record } from "./edit.ts";
import { hasOpened } from "./progress.ts";
import { momentOf, waitingPieces } from "./stand.ts";
import { progressOf } from "./progress.ts";

export async function closeDay(app: App, change: Change, who: string): Promise<Answer> {
  const rows = await shopRows(change.trx);
  const day = dayOf(rows);
  if (day === undefined) throw conflict("There is no day to close.");
  const current = await currentPlan(change.trx);
  const moment = momentOf({ stored: day, now: app.clock.now() });
  const opened = current?.loads.filter((entry) => hasOpened(entry, moment)) ?? [];
  const places = new Map(rows.pans.map(({ id, place }) => [id, place]));
  let finished = rows.pans.filter(({ state }) => state === "finished" || state === "handed over").length;
  for (const row of rows.pans) if (row.state !== "on hold") await change.drop("pan", row.id);
  for (const [i, { pan, follows }] of waitingPieces(rows).entries()) {
    const at = progressOf(pan, follows, current, moment);
    if (at.kind === "finished") finished++;
    else await change.put("pan", pan.id, { body: JSON.stringify(at.pan), place: places.get(pan.id) ?? i + 1 });
  }
  for (const { id } of rows.loads) await change.drop("load", id);
  await change.setInForce(null);
  const event = await record(app, change, { who, kind: "day-closed", subject: day.title ?? "", body: {} });
  const before = await change.trx
    .selectFrom("closed_day")
    .select("last_event")
    .orderBy("id", "desc")
    .limit(1)
    .execute();
  const since = (before[0]?.last_event ?? 0) + 1;
  const failures = await failuresSince(change, since);
  const summary = {
    pansFinished: finished,
    pansFailed: failures.reduce((sum, { pans }) => sum + pans, 0),
    loads: opened.length,
    gasKWh: opened.reduce((sum, { load }) => sum + load.gasKWh, 0),
    failures,
  };
  const [row] = await change.trx
    .insertInto("closed_day")
    .values({
      title: day.title ?? "",
      closed_at: new Date(app.clock.now()).toISOString(),
      day: JSON.stringify(day),
      plan: current?.id ?? null,
      summary: JSON.stringify(summary),
      first_event: since,
      last_event: event,
    })
    .returningAll()
    .execute();
  return { status: 201, body: row === undefined ? {} : shown(row) };
}

async function failuresSince(change: Change, since: number): Promise<{ cause: string; pans: number }[]> {
  const rows = await change.trx
    .selectFrom("event")
    .select(["id", "kind", "body", "undoes"])
    .where("id", ">=", since)
    .execute();
  const undone = new Set(rows.map(({ undoes }) => undoes));
  const counts = new Map<string, number>();
  for (const { id, kind, body } of rows) {
    if (kind !== "pan-failed" || undone.has(id)) continue;
    const { cause } = JSON.parse(body) as { cause: string };
    counts.set(cause, (counts.get(cause) ?? 0) + 1);
  }
  return [...counts].map(([cause, pans]) => ({ cause, pans }));
}

function shown(row: Omit<ClosedDayRow, "id"> & { readonly id: number }): Record<string, unknown> {
  const { id, title, plan } = row;
  const range = { firstEvent: row.first_event, lastEvent: row.last_event };
  return { id, title, plan, closedAt: row.closed_at, ...range, summary: JSON.parse(row.summary) as unknown };
}

export async function closedDays(db: Db): Promise<Record<string, unknown>[]> {
  const rows = await db.selectFrom("closed_day").selectAll().orderBy("id").execute();
  return rows.map(shown);
}

export async function closedDay(db: Db, id: string): Promise<Record<string, unknown> | undefined> {
  const [row] = await db.selectFrom("closed_day").selectAll().where("id", "=", Number(id)).execute();
  if (row === undefined) return undefined;
  const [plan] =
    row.plan === null ? [] : await db.selectFrom("plan").select("plan").where("id", "=", row.plan).execute();
  return { ...shown(row), day: JSON.parse(row.day) as unknown, planFile: JSON.parse(plan?.plan ?? "null") as unknown };
}
