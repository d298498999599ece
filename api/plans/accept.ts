/** A plan becomes the plan in force: its loads are what the oven does next, and the day's pans are as far as it took them. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import type { Answer } from "../http/route.ts";
import { HANDED_IN } from "../shop/day-rows.ts";
import { record, soundDay } from "../shop/edit.ts";
import type { PanFile } from "../shop/pieces.ts";
import type { Change } from "../store/change.ts";
import { revisionOf, rowsOf } from "../store/change.ts";
import { handedOut } from "./handed-out.ts";
import { offerOf } from "./offer.ts";
import { fileOf, planRow } from "./searches.ts";
import type { Extra } from "./searches.ts";

export interface Accepting {
  readonly who: string;
  readonly note: string;
  /** The offer that whoever accepts has seen. */
  readonly offer?: string | undefined;
}

export async function acceptPlan(
  app: Pick<App, "clock">,
  change: Change,
  id: string,
  { who, note, offer }: Accepting,
): Promise<Answer> {
  const row = await planRow(change.trx, id);
  const found = fileOf(row);
  if (found === null) throw conflict("There is no plan to accept yet.");
  if (row.revision !== (await revisionOf(change.trx)))
    throw conflict("The day has changed since this plan was asked for: plan again, then accept.");
  const extra = JSON.parse(row.extra) as Extra;
  const { day, plan } = handedOut(row, found);
  if (offer !== undefined && offer !== offerOf(plan))
    throw conflict("A better plan has been found since this offer: look at the quote again.");
  if (row.kind !== "plan" || extra.before !== null) await advanceDay(change, day, extra);
  await putLoads(change, plan, extra);
  await change.setInForce(id);
  await soundDay(change);
  const at = new Date(app.clock.now()).toISOString();
  const accepted = { accepted_at: at, cost: plan.cost.total, bound: plan.search.bestPossibleCost };
  await change.trx.updateTable("plan").set(accepted).where("id", "=", id).execute();
  const kind = row.kind === "quote" ? "quote-accepted" : "plan-accepted";
  const event = await record(app, change, { who, kind, subject: id, body: { plan: id, note } });
  return { status: 200, body: { id, event } };
}

/** From here on the stored day is the one that was planned from: pans piece by piece, as far as they were then. */
async function advanceDay(change: Change, day: DayFile, extra: Extra): Promise<void> {
  const rows = await rowsOf(change.trx, "pan");
  const stay = new Set([...day.pans.map(({ id }) => id), ...extra.onHold.map(({ pan }) => pan)]);
  const originals = new Map(rows.map((row) => [row.id, row]));
  await change.put("setting", "planFrom", { body: JSON.stringify(day.planFrom) });
  const coatings = new Set((await rowsOf(change.trx, "coating")).map(({ id }) => id));
  let place = Math.max(0, ...rows.map((row) => row.place));
  for (const pan of day.pans) {
    const known =
      originals.get(pan.id) ??
      lineOf(
        pan,
        rows.map(({ id }) => id),
        originals,
      );
    const body = JSON.stringify({ ...pan, coating: coatings.has(pan.coating) ? pan.coating : coatingOf(known?.body) });
    await change.put("pan", pan.id, { body, place: known?.place ?? ++place, follows: "", state: "waiting", note: "" });
  }
  for (const pan of extra.finished) {
    const known =
      originals.get(pan) ??
      lineOf(
        { id: pan },
        rows.map(({ id }) => id),
        originals,
      );
    if (known !== undefined) await finish(change, pan, known.body, known.place);
  }
  for (const { pan, why } of extra.onHold) {
    const known =
      originals.get(pan) ??
      lineOf(
        { id: pan },
        rows.map(({ id }) => id),
        originals,
      );
    if (known === undefined) continue;
    const { quantity: _alike, ...rest } = JSON.parse(known.body) as PanFile;
    const body = JSON.stringify({ ...rest, id: pan, ticket: rest.ticket ?? rest.id });
    // It waits with the rest and is tried again with every plan, unless it was set aside by hand.
    await change.put("pan", pan, { body, place: known.place, state: "waiting", note: why, follows: "no" });
  }
  for (const row of rows)
    if (row.state === "waiting" && !stay.has(row.id) && !extra.finished.includes(row.id))
      await change.drop("pan", row.id);
}

async function finish(change: Change, pan: string, lineBody: string, place: number): Promise<void> {
  const { quantity: _alike, ...rest } = JSON.parse(lineBody) as PanFile;
  const body = JSON.stringify({ ...rest, id: pan, ticket: rest.ticket ?? rest.id });
  await change.put("pan", pan, { body, place, state: "finished", note: "" });
}

/** The line that a piece came from: the longest id that it begins with. */
function lineOf<Row extends { readonly body: string; readonly place: number }>(
  pan: Pick<PanFile, "id">,
  ids: readonly string[],
  rows: ReadonlyMap<string, Row>,
): Row | undefined {
  const line = ids.filter((id) => pan.id.startsWith(`${id}.`)).toSorted((a, b) => b.length - a.length)[0];
  return line === undefined ? undefined : rows.get(line);
}

function coatingOf(body: string | undefined): string {
  return body === undefined ? "" : (JSON.parse(body) as PanFile).coating;
}

/** Loads over or under way stay as they are; those to come are the plan's. */
async function putLoads(change: Change, plan: PlanFile, extra: Extra): Promise<void> {
  const opened = new Set(extra.soFar.map(({ load }) => load));
  for (const row of await rowsOf(change.trx, "load")) {
    if (!opened.has(row.id) && row.state !== "interrupted") await change.drop("load", row.id);
  }
  const facts = new Map(extra.soFar.map(({ load, state }) => [load, state]));
  for (const row of await rowsOf(change.trx, "load")) {
    const state = facts.get(row.id);
    if (state !== undefined && row.note !== HANDED_IN && row.state !== state)
      await change.put("load", row.id, { state });
  }
  let place = 0;
  for (const load of plan.loads) {
    place++;
    if (!opened.has(load.id))
      await change.put("load", load.id, {
        body: JSON.stringify(load),
        state: load.state,
        note: "",
        place: 1000 + place,
      });
  }
}
