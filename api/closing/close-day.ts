/** Closing a day: what was done leaves the list, what is left waits for tomorrow, and the record stays. */
import type { DayFile } from "../contract/day.ts";
import type { DaySummary, SavedSpans } from "../contract/closed-day.ts";
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import type { Answer } from "../http/route.ts";
import { courseText } from "../plans/searches.ts";
import { currentPlan } from "../shop/current.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import { record, soundDay } from "../shop/edit.ts";
import { overdueMarked } from "../shop/overdue.ts";
import { progressOf } from "../shop/progress.ts";
import type { Moment } from "../shop/progress.ts";
import type { Current } from "../shop/stand.ts";
import { momentOf, waitingPieces } from "../shop/stand.ts";
import type { Change, Trx } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import { carryOver } from "./carry-over.ts";
import { plansInForce } from "./fired.ts";
import { nextDay } from "./next-day.ts";
import { savedSpans } from "./saved.ts";
import type { Counted } from "./saved.ts";
import { summaryOf } from "./summary.ts";

interface Open {
  readonly rows: ShopRows;
  readonly day: DayFile;
  readonly current: Current | null;
  readonly moment: Moment;
  readonly firstEvent: number;
  readonly summary: DaySummary;
  readonly spans: SavedSpans;
}

async function openDay(app: App, db: Db | Trx): Promise<Open> {
  const rows = await shopRows(db);
  const day = dayOf(rows);
  if (day === undefined) throw conflict("There is no day to close.");
  const current = await currentPlan(db);
  const moment = momentOf({ stored: day, now: app.clock.now() });
  const [last] = await db
    .selectFrom("closed_day")
    .select(["last_event", "closed_at"])
    .orderBy("id", "desc")
    .limit(1)
    .execute();
  const firstEvent = (last?.last_event ?? 0) + 1;
  const since = last === undefined ? -Infinity : Date.parse(last.closed_at);
  const pansFinished = finishedPans(rows, current, moment);
  const summary = await summaryOf(db, { rows, day, moment, pansFinished, firstEvent, since });
  const spans = savedSpans({ day, summary }, await countedDays(db));
  return { rows, day, current, moment, firstEvent, summary, spans };
}

function finishedPans(rows: ShopRows, current: Current | null, moment: Moment): number {
  const over = rows.pans.filter(({ state }) => state === "finished" || state === "handed over").length;
  const pieces = waitingPieces(rows);
  return (
    over + pieces.filter(({ pan, follows }) => progressOf(pan, follows, current, moment).kind === "finished").length
  );
}

/** What closing the day now would record. */
export async function closePreview(app: App): Promise<{ readonly summary: DaySummary } & SavedSpans> {
  const { summary, spans } = await openDay(app, app.store.db);
  return { summary, ...spans };
}

export async function closeDay(app: App, change: Change, who: string): Promise<Answer> {
  const { rows, day, current, moment, firstEvent, summary, spans } = await openDay(app, change.trx);
  // A second tap would count the same day twice.
  if (current === null && summary.loads + summary.pansFinished + summary.pansFailed === 0)
    throw conflict("Nothing was planned, fired or finished since the last day was closed: there is nothing to close.");
  const places = new Map(rows.pans.map(({ id, place }) => [id, place]));
  for (const row of rows.pans) if (row.state !== "on hold") await change.drop("pan", row.id);
  for (const [i, { pan, follows }] of waitingPieces(rows).entries()) {
    const at = progressOf(pan, follows, current, moment);
    if (at.kind === "finished") continue;
    const left = overdueMarked(at.pan, moment.time);
    await change.put("pan", pan.id, { body: JSON.stringify(left), place: places.get(pan.id) ?? i + 1 });
  }
  for (const { id } of rows.loads) await change.drop("load", id);
  await change.setInForce(null);
  const next = nextDay(day, app.clock.now());
  await carryOver(change, { rows, day, current, moment }, next);
  await soundDay(change);
  const event = await record(app, change, { who, kind: "day-closed", subject: day.title ?? "", body: { next } });
  const [row] = await change.trx
    .insertInto("closed_day")
    .values({
      title: day.title ?? "",
      closed_at: new Date(app.clock.now()).toISOString(),
      day: JSON.stringify(day),
      plan: current?.id ?? null,
      summary: JSON.stringify(summary),
      first_event: firstEvent,
      last_event: event,
    })
    .returningAll()
    .execute();
  return { status: 201, body: row === undefined ? {} : { ...shown(row), ...spans, next } };
}

interface ClosedRow {
  readonly id: number;
  readonly title: string;
  readonly closed_at: string;
  readonly plan: string | null;
  readonly summary: string;
  readonly first_event: number;
  readonly last_event: number;
}

function shown(row: ClosedRow): Record<string, unknown> {
  const { id, title, plan } = row;
  const range = { firstEvent: row.first_event, lastEvent: row.last_event };
  return { id, title, plan, closedAt: row.closed_at, ...range, summary: summaryIn(row.summary) };
}

/** Days closed by an earlier version say less. */
function summaryIn(text: string): DaySummary {
  const nothing = { bakes: 0, kWhPerPan: null, measuredGas: null, measuredKWhPerPan: null, fired: [], saved: [] };
  return { ...nothing, ...(JSON.parse(text) as DaySummary) };
}

async function countedDays(db: Db | Trx): Promise<Counted[]> {
  const rows = await db.selectFrom("closed_day").select(["day", "summary"]).orderBy("id", "desc").limit(62).execute();
  return rows.map(({ day, summary }) => ({ day: JSON.parse(day) as DayFile, summary: summaryIn(summary) }));
}

export async function closedDays(db: Db): Promise<Record<string, unknown>[]> {
  const rows = await db
    .selectFrom("closed_day")
    .select(["id", "title", "closed_at", "plan", "summary", "first_event", "last_event"])
    .orderBy("id")
    .execute();
  return rows.map(shown);
}

/** With everything that its plans can be made again from. */
export async function closedDay(db: Db, id: string): Promise<Record<string, unknown> | undefined> {
  const [row] = await db.selectFrom("closed_day").selectAll().where("id", "=", Number(id)).execute();
  if (row === undefined) return undefined;
  const kept = await plansInForce(db, row.first_event, row.last_event);
  const parsed = (text: string | null): unknown => JSON.parse(text ?? "null") as unknown;
  const plans = kept.map(({ day, request, plan, course, ...rest }) => ({
    ...rest,
    course: courseText({ course }),
    day: parsed(day),
    options: parsed(request),
    planFile: parsed(plan),
  }));
  const planFile = plans.findLast((plan) => plan.id === row.plan)?.planFile ?? null;
  return { ...shown(row), day: parsed(row.day), planFile, plans };
}
