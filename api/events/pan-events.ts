/** What an event does to a pan's row. */
import type { DayFile } from "../contract/day.ts";
import type { HappenedOf } from "../contract/happened.ts";
import { conflict, notFound } from "../http/failure.ts";
import { pieceNames } from "../shop/pieces.ts";
import type { PanFile } from "../shop/pieces.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import { overdueMarked } from "../shop/overdue.ts";
import { progressOf } from "../shop/progress.ts";
import { momentOf } from "../shop/stand.ts";
import type { Current } from "../shop/stand.ts";
import type { Change } from "../store/change.ts";
import { rowOf, rowsOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";

export interface Happening {
  readonly change: Change;
  readonly day: DayFile;
  /** When it happened, milliseconds. */
  readonly at: number;
  readonly current: Current | null;
}

/** The pan as far as it is when the report comes. Throws while it is in the oven: first the load comes out. */
export function panNow({ day, at, current }: Happening, row: EditedRow): PanFile {
  const pan = JSON.parse(row.body) as PanFile;
  if (row.state !== "waiting") return pan;
  const progress = progressOf(pan, row.follows, current, momentOf({ stored: day, now: at }));
  if (progress.kind === "in the oven")
    throw conflict(`${pan.id} is in the oven with ${progress.load}: report that load first.`);
  return progress.kind === "finished" ? pan : progress.pan;
}

/** Alike pieces part where the plan in force already tells them apart. */
async function toldApart({ change, current }: Happening, id: string): Promise<EditedRow[]> {
  const rows = await panRows(change, id);
  const quantity = (JSON.parse(rows[0]?.body ?? "{}") as PanFile).quantity ?? 1;
  if (rows[0] === undefined || quantity === 1 || current === null) return rows;
  const names = await part(change, rows[0]);
  return (await Promise.all(names.map((name) => rowOf(change.trx, "pan", name)))).flatMap((row) => row ?? []);
}

/** The rows a report speaks of: a pan, a piece of a line (which then parts into its pieces), or a whole line. */
export async function panRows(change: Change, id: string): Promise<EditedRow[]> {
  const row = await rowOf(change.trx, "pan", id);
  if (row !== undefined) return [row];
  const line = await lineWithPiece(change, id);
  if (line === undefined) throw notFound(`pan ${id}`);
  await part(change, line);
  const piece = await rowOf(change.trx, "pan", id);
  return piece === undefined ? [] : [piece];
}

async function lineWithPiece(change: Change, piece: string): Promise<EditedRow | undefined> {
  const rows = (await rowsOf(change.trx, "pan")).filter(({ state }) => state === "waiting");
  const names = pieceNames(rows.map(({ body }) => JSON.parse(body) as PanFile));
  const line = [...names].find(([, pieces]) => pieces.includes(piece))?.[0];
  return rows.find(({ body }) => (JSON.parse(body) as PanFile).id === line);
}

/** A line of alike pans becomes one row a piece, each as the line was. */
async function part(change: Change, line: EditedRow): Promise<readonly string[]> {
  const rows = (await rowsOf(change.trx, "pan")).filter(({ state }) => state === "waiting");
  const pan = JSON.parse(line.body) as PanFile;
  const pieces = pieceNames(rows.map(({ body }) => JSON.parse(body) as PanFile)).get(pan.id) ?? [];
  await change.drop("pan", line.id);
  const { quantity: _alike, ...rest } = pan;
  for (const id of pieces) {
    const body = JSON.stringify({ ...rest, id, ticket: pan.ticket ?? pan.id });
    await change.put("pan", id, { body, place: line.place, state: line.state, follows: line.follows, note: line.note });
  }
  return pieces;
}

export async function panReady(happening: Happening, event: HappenedOf<"pan-ready">): Promise<void> {
  const { change, day, at } = happening;
  const time = shopTime(day);
  for (const row of await toldApart(happening, event.pan)) {
    if (!["waiting", "on hold"].includes(row.state)) throw conflict(`${event.pan} is ${row.state}.`);
    const pan = panNow(happening, row);
    const { prepMinutes, sprayed } = event;
    const nextCoat = event.nextCoat ?? pan.nextCoat ?? 1;
    const coats = day.coatings.find(({ id }) => id === pan.coating)?.coats.length ?? 0;
    const state = nextCoat === coats + 1 ? "finished" : "waiting";
    const body = JSON.stringify(
      overdueMarked(
        { ...pan, readyAt: wholeMinute(at, time), prepMinutes, sprayed, ...(nextCoat === 1 ? {} : { nextCoat }) },
        time,
      ),
    );
    const follows = event.nextCoat === undefined ? new Date(at).toISOString() : "no";
    await change.put("pan", row.id, { body, state, note: "", follows });
  }
}

export async function panFailed(happening: Happening, event: HappenedOf<"pan-failed">): Promise<void> {
  const { change, day, at } = happening;
  const time = shopTime(day);
  for (const row of await toldApart(happening, event.pan)) {
    if (["withdrawn", "handed over"].includes(row.state)) throw conflict(`${event.pan} is ${row.state}.`);
    const pan = panNow(happening, row);
    const coating = event.coating ?? pan.coating;
    const again = { ...pan, coating, nextCoat: event.nextCoat, sprayed: false, prepMinutes: event.stripMinutes };
    const body = JSON.stringify(overdueMarked({ ...again, readyAt: wholeMinute(at, time) }, time));
    await change.put("pan", row.id, { body, state: "waiting", note: `failed: ${event.cause}`, follows: "no" });
  }
}

function wholeMinute(at: number, time: ShopTime): string {
  return time.write(Math.ceil(at / MINUTE) * MINUTE);
}

/** Planning leaves it out, as far as it is now, until it is reported ready. */
export async function panHeld(happening: Happening, event: HappenedOf<"pan-held">): Promise<void> {
  for (const row of await toldApart(happening, event.pan)) {
    if (row.state !== "waiting") throw conflict(`${event.pan} is ${row.state}.`);
    const body = JSON.stringify(panNow(happening, row));
    await happening.change.put("pan", row.id, { body, state: "on hold", note: event.note, follows: "no" });
  }
}

export async function panWithdrawn(happening: Happening, event: HappenedOf<"pan-withdrawn">): Promise<void> {
  const { change } = happening;
  for (const row of await toldApart(happening, event.pan)) {
    if (row.state === "handed over") throw conflict(`${event.pan} is handed over already.`);
    panNow(happening, row);
    await change.put("pan", row.id, { state: "withdrawn", note: event.note });
  }
}

export async function handedOver(happening: Happening, event: HappenedOf<"ticket-handed-over">): Promise<void> {
  const { change } = happening;
  const rows = (await rowsOf(change.trx, "pan")).filter(({ body, state }) => {
    const pan = JSON.parse(body) as PanFile;
    return (pan.ticket ?? pan.id) === event.ticket && state !== "withdrawn";
  });
  if (rows.length === 0) throw notFound(`ticket ${event.ticket}`);
  for (const row of rows) panNow(happening, row);
  for (const row of rows) await change.put("pan", row.id, { state: "handed over", note: event.note });
}
