/** What an event does to ovens, shelves, the bottle and the booth. */
import type { DayFile } from "../contract/day.ts";
import type { HappenedOf } from "../contract/happened.ts";
import { conflict, notFound } from "../http/failure.ts";
import { NO_SPRAYER, ovenNote } from "../shop/equipment.ts";
import { rowOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";
import type { Happening } from "./pan-events.ts";

type OvenFile = DayFile["ovens"][number];

async function ovenRow({ change }: Happening, id: string): Promise<EditedRow> {
  const row = await rowOf(change.trx, "oven", id);
  if (row === undefined) throw notFound(`oven ${id}`);
  return row;
}

export async function ovenOut(happening: Happening, event: HappenedOf<"oven-out">): Promise<void> {
  const row = await ovenRow(happening, event.oven);
  const note = JSON.stringify({ ...ovenNote(row.note), why: event.cause, until: event.until ?? null });
  await happening.change.put("oven", row.id, { state: "out of use", note });
}

export async function ovenBack(happening: Happening, event: HappenedOf<"oven-back">): Promise<void> {
  const row = await ovenRow(happening, event.oven);
  await happening.change.put("oven", row.id, {
    state: "in use",
    note: JSON.stringify({ ...ovenNote(row.note), why: "", until: null }),
  });
}

export async function shelf(
  happening: Happening,
  event: HappenedOf<"shelf-out"> | HappenedOf<"shelf-back">,
): Promise<void> {
  const row = await ovenRow(happening, event.oven);
  const { space } = JSON.parse(row.body) as OvenFile;
  const known = space.kind === "shelves" && space.shelves.some(({ id }) => id === event.shelf);
  if (!known) throw notFound(`shelf ${event.shelf} in ${event.oven}`);
  const note = ovenNote(row.note);
  const others = note.shelvesOut.filter((id) => id !== event.shelf);
  const shelvesOut = event.kind === "shelf-out" ? [...others, event.shelf] : others;
  await happening.change.put("oven", row.id, { note: JSON.stringify({ ...note, shelvesOut }) });
}

/** From now on the firings empty this bottle. A reading keeps the draw as it was where it does not say. */
export async function gasLeft(
  { change, at }: Happening,
  event: HappenedOf<"bottle-changed"> | HappenedOf<"gas-left">,
): Promise<void> {
  const row = await rowOf(change.trx, "setting", "gas");
  if (row === undefined) throw conflict("The day says nothing about gas: set its kind and calorific value first.");
  const { unitsLeft, maxDrawKW } = event;
  const draw = maxDrawKW === undefined ? {} : { maxDrawKW };
  const gas = { ...(JSON.parse(row.body) as object), unitsLeft, ...draw };
  await change.put("setting", "gas", { body: JSON.stringify(gas), follows: new Date(at).toISOString() });
}

/** In a day file no sprayers means no limit; an empty booth is a note beside it. */
export async function sprayersChanged({ change }: Happening, event: HappenedOf<"sprayers-changed">): Promise<void> {
  const row = await rowOf(change.trx, "setting", "booth");
  const booth = row === undefined ? {} : (JSON.parse(row.body) as object);
  if (event.sprayers === 0) await change.put("setting", "booth", { body: JSON.stringify(booth), note: NO_SPRAYER });
  else await change.put("setting", "booth", { body: JSON.stringify({ ...booth, sprayers: event.sprayers }), note: "" });
}
