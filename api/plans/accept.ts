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
import type { EditedRow } from "../store/tables.ts";
import { handedOut } from "./handed-out.ts";
import { offerOf } from "./offer.ts";
import { fileOf, inForceId, planRow } from "./searches.ts";
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
  if ((await inForceId(change.trx)) === id) throw conflict(`${id} is in force already.`);
  if (row.revision !== (await revisionOf(change.trx)))
    throw conflict("The day has changed since this plan was asked for: plan again, then accept.");
  const extra = JSON.parse(row.extra) as Extra;
  const { day, plan } = handedOut(row, found);
  if (offer !== undefined && offer !== offerOf(plan))
    throw conflict("A better plan has been found since this offer.", [
      {
        path: "offer",
        code: "offer-passed",
        seen: offer,
        allowed: offerOf(plan),
        message: "Look at the quote again, and accept it as it is now.",
      },
    ]);
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
  const ids = rows.map(({ id }) => id);
  const rowFor = (pan: string): Line | undefined => originals.get(pan) ?? lineOf(pan, ids, originals);
  let place = Math.max(0, ...rows.map((row) => row.place));
  for (const pan of day.pans) {
    const known = rowFor(pan.id);
    const body = JSON.stringify({ ...pan, coating: coatings.has(pan.coating) ? pan.coating : coatingOf(known?.body) });
    await change.put("pan", pan.id, { body, place: known?.place ?? ++place, follows: "", state: "waiting", note: "" });
  }
  for (const pan of extra.finished) {
    const known = rowFor(pan);
    if (known === undefined) continue;
    await change.put("pan", pan, { body: pieceOf(known, pan), place: known.place, state: "finished", note: "" });
  }
  for (const { pan, why } of extra.onHold) {
    const known = rowFor(pan);
    if (known === undefined) continue;
    // It waits with the rest and is tried again with every plan, unless it was set aside by hand.
    const parts = { body: pieceOf(known, pan), place: known.place, state: "waiting", note: why, follows: "no" };
    await change.put("pan", pan, parts);
  }
  for (const row of rows)
    if (row.state === "waiting" && !stay.has(row.id) && !extra.finished.includes(row.id))
      await change.drop("pan", row.id);
}

type Line = Pick<EditedRow, "body" | "place">;

/** One piece of a line, with the line's ticket. */
function pieceOf(line: Line, piece: string): string {
  const { quantity: _alike, ...rest } = JSON.parse(line.body) as PanFile;
  return JSON.stringify({ ...rest, id: piece, ticket: rest.ticket ?? rest.id });
}

/** The line that a piece came from: the longest id that it begins with. */
function lineOf(piece: string, ids: readonly string[], rows: ReadonlyMap<string, Line>): Line | undefined {
  const line = ids.filter((id) => piece.startsWith(`${id}.`)).toSorted((a, b) => b.length - a.length)[0];
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
