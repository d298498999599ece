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
  const until = event.until === undefined ? "" : ` Expected back: ${event.until}.`;
  const note = JSON.stringify({ ...ovenNote(row.note), why: `${event.cause}${until}`.trim() });
  await happening.change.put("oven", row.id, { state: "out of use", note });
}

export async function ovenBack(happening: Happening, event: HappenedOf<"oven-back">): Promise<void> {
  const row = await ovenRow(happening, event.oven);
  await happening.change.put("oven", row.id, {
    state: "in use",
    note: JSON.stringify({ ...ovenNote(row.note), why: "" }),
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

export async function bottleChanged({ change }: Happening, event: HappenedOf<"bottle-changed">): Promise<void> {
  const row = await rowOf(change.trx, "setting", "gas");
  if (row === undefined) throw conflict("The day says nothing about gas: set its kind and calorific value first.");
  const gas = { ...(JSON.parse(row.body) as object), unitsLeft: event.unitsLeft, maxDrawKW: event.maxDrawKW };
  await change.put("setting", "gas", { body: JSON.stringify(gas) });
}

/** In a day file no sprayers means no limit; an empty booth is a note beside it. */
export async function sprayersChanged({ change }: Happening, event: HappenedOf<"sprayers-changed">): Promise<void> {
  const row = await rowOf(change.trx, "setting", "booth");
  const booth = row === undefined ? {} : (JSON.parse(row.body) as object);
  if (event.sprayers === 0) await change.put("setting", "booth", { body: JSON.stringify(booth), note: NO_SPRAYER });
  else await change.put("setting", "booth", { body: JSON.stringify({ ...booth, sprayers: event.sprayers }), note: "" });
}
