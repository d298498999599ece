/** What an event does to a load of the plan in force: its instants as they happened, its state. */
import type { PlanLoad } from "../contract/plan.ts";
import { conflict, notFound } from "../http/failure.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import { overdueMarked } from "../shop/overdue.ts";
import type { PanFile } from "../shop/pieces.ts";
import { hasOpened, isDone, progressOf } from "../shop/progress.ts";
import { momentOf } from "../shop/stand.ts";
import { rowOf, rowsOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";
import { clockText } from "../plans/difference-words.ts";
import { outcomeNotes } from "./interrupted.ts";
import type { Happening } from "./pan-events.ts";
import { panNow, panRows } from "./pan-events.ts";

type Instant = "doorOpensAt" | "doorClosesAt" | "burnerOnAt" | "setPointAt" | "burnerOffAt" | "unloadAt" | "doneAt";
const inOrder: readonly Instant[] = [
  "doorOpensAt",
  "doorClosesAt",
  "burnerOnAt",
  "setPointAt",
  "burnerOffAt",
  "unloadAt",
  "doneAt",
];

export async function loadRow(
  { change }: Happening,
  id: string,
  states: readonly string[],
): Promise<{ row: EditedRow; load: PlanLoad }> {
  const row = await rowOf(change.trx, "load", id);
  if (row === undefined) throw notFound(`load ${id} in the plan in force`);
  if (!states.includes(row.state)) throw conflict(`${id} is ${row.state}: that cannot happen to it now.`);
  return { row, load: JSON.parse(row.body) as PlanLoad };
}

/** Instants from `first` on happen `minutes` later (or earlier), the pans' cooling with them. */
export function shifted(load: PlanLoad, first: Instant, minutes: number, time: ShopTime): PlanLoad {
  const move = (instant: string | null): string | null =>
    instant === null ? null : time.write(time.millis(instant) + minutes * MINUTE);
  const later = inOrder.slice(inOrder.indexOf(first));
  const moved = Object.fromEntries(later.map((name) => [name, move(load[name])]));
  const pans = load.pans.map((pan) => ({ ...pan, cooledAt: move(pan.cooledAt) ?? pan.cooledAt }));
  return { ...load, ...moved, pans };
}

const before = ["planned", "pinned"];
/** States of a load that is not over. */
export const OPEN = ["planned", "pinned", "firing"];

/** The report names the whole minute at which `instant` of the load really was. */
export async function happenedAt(
  happening: Happening,
  id: string,
  instant: "doorOpensAt" | "doorClosesAt" | "burnerOffAt" | "doneAt",
): Promise<string[]> {
  const { row, load } = await loadRow(happening, id, instant === "doorOpensAt" ? before : OPEN);
  const time = shopTime(happening.day);
  if (instant === "doorOpensAt") refuseWhereOccupied(happening, load);
  if (before.includes(row.state)) refuseBeforeEarlierCoat(happening, load);
  if (instant === "burnerOffAt") refuseUnlit(happening, load);
  const planned = load[instant];
  if (planned === null) throw conflict(`${id} has no such moment: its oven has a fixed cycle.`);
  const minutes = Math.round((happening.at - time.millis(planned)) / MINUTE);
  // Door work takes its fixed minutes, so a door closed late was opened late, and pans out late were unloaded late.
  const first = instant === "doneAt" ? "unloadAt" : instant === "burnerOffAt" ? "burnerOffAt" : "doorOpensAt";
  const body = noLaterThan(shifted(load, first, minutes, time), first, time);
  if (first !== "doorOpensAt" && time.millis(body[first] ?? body.doneAt) < time.millis(body.doorClosesAt))
    throw conflict(
      `${id} was closed at ${clockText(body.doorClosesAt)}: that cannot have been before. Check the time.`,
    );
  const state = instant === "doneAt" ? "fired" : "firing";
  await happening.change.put("load", row.id, { body: JSON.stringify({ ...body, state }), state });
  await pushOn(happening, body);
  return minutes === 0 || first === "doorOpensAt" ? [] : outcomeNotes(happening.current?.day ?? happening.day, body);
}

function refuseWhereOccupied({ current, day, at }: Happening, { id, oven }: PlanLoad): void {
  const moment = momentOf({ stored: day, now: at });
  const inside = current?.loads.find(
    (entry) => entry.load.oven === oven && entry.load.id !== id && hasOpened(entry, moment) && !isDone(entry, moment),
  );
  if (inside !== undefined)
    throw conflict(`${inside.load.id} is in ${oven} until ${clockText(inside.load.doneAt)}: report it out first.`);
}

/** A pan is in one oven at a time, and its coats are baked one after another. */
function refuseBeforeEarlierCoat({ current, day, at }: Happening, { id, pans }: PlanLoad): void {
  const moment = momentOf({ stored: day, now: at });
  for (const entry of current?.loads ?? []) {
    if (entry.load.id === id || !OPEN.includes(entry.state) || isDone(entry, moment)) continue;
    const pan = pans.find((own) =>
      entry.load.pans.some((place) => place.id === own.id && place.item === own.item && place.coat < own.coat),
    );
    if (pan !== undefined)
      throw conflict(`${entry.load.id} bakes an earlier coat of ${pan.id} and is not out: report it out first.`);
  }
}

function refuseUnlit({ day, at }: Happening, { id, burnerOnAt }: PlanLoad): void {
  if (burnerOnAt === null || at > shopTime(day).millis(burnerOnAt)) return;
  throw conflict(
    `The burner of ${id} is lit at ${clockText(burnerOnAt)}, so it was not off before. Check the time; where it never lit, report a bake interrupted.`,
  );
}

/** Pans that are out have no burner on over them: what should have come first came at the latest with it. */
function noLaterThan(load: PlanLoad, instant: Instant, time: ShopTime): PlanLoad {
  const cap = load[instant];
  if (cap === null) return load;
  const earlier = (["burnerOnAt", "setPointAt", "burnerOffAt"] as const).filter(
    (name) => inOrder.indexOf(name) < inOrder.indexOf(instant),
  );
  const capped = earlier.map((name) => {
    const planned = load[name];
    return [name, planned !== null && time.millis(planned) > time.millis(cap) ? cap : planned];
  });
  return { ...load, ...Object.fromEntries(capped) };
}

/** Not opened yet: all of it comes later, and its pans with it. Under way: what is still to come. */
export async function loadLate(happening: Happening, id: string, minutes: number): Promise<string> {
  const { row, load } = await loadRow(happening, id, OPEN);
  const time = shopTime(happening.day);
  const isBefore = row.state !== "firing" && time.millis(load.doorOpensAt) > happening.at;
  const nextUp = inOrder.find(
    (name) =>
      load[name] !== null && time.millis(load[name]) > happening.at && name !== "setPointAt" && name !== "burnerOnAt",
  );
  if (!isBefore && nextUp === undefined) throw conflict(`${id} is over already.`);
  const first: Instant = isBefore ? "doorOpensAt" : nextUp === "doneAt" ? "unloadAt" : (nextUp ?? "unloadAt");
  const body = shifted(load, first, minutes, time);
  const state = isBefore ? row.state : "firing";
  await happening.change.put("load", row.id, { body: JSON.stringify(body), state });
  await pushOn(happening, body);
  if (isBefore) await delayPans(happening, load, minutes);
  return isBefore
    ? `${id} opens ${minutes} min later; its pans wait as long.`
    : `${id} is in the oven and comes out ${minutes} min later: its pans soak longer, inspect them.`;
}

/** The pans of a late load are ready no sooner than its door opens now. */
async function delayPans(happening: Happening, load: PlanLoad, minutes: number): Promise<void> {
  const time = shopTime(happening.day);
  const opens = time.millis(load.doorOpensAt) + minutes * MINUTE;
  const follows = new Date(happening.at).toISOString();
  for (const { id } of load.pans)
    for (const row of await panRows(happening.change, id)) {
      if (isInOven(happening, row)) continue;
      const pan = panNow(happening, row);
      const least = time.millis(pan.readyAt) + minutes * MINUTE;
      const readyAt = time.write(Math.max(least, pan.sprayed === true ? opens : least));
      const body = JSON.stringify(overdueMarked({ ...pan, readyAt }, time));
      await happening.change.put("pan", row.id, { body, ...(row.follows === "no" ? {} : { follows }) });
    }
}

/** Its earlier coat is being baked: the delay of a later one says nothing yet. */
function isInOven(happening: Happening, row: EditedRow): boolean {
  const pan = JSON.parse(row.body) as PanFile;
  const moment = momentOf({ stored: happening.day, now: happening.at });
  return progressOf(pan, row.follows, happening.current, moment).kind === "in the oven";
}

/** What was to follow in the same oven cannot open before the one ahead is done, whatever the clock says. */
async function pushOn({ change, day }: Happening, ahead: PlanLoad): Promise<void> {
  const time = shopTime(day);
  let free = time.millis(ahead.doneAt);
  const rows = (await rowsOf(change.trx, "load"))
    .map((row) => ({ row, load: JSON.parse(row.body) as PlanLoad }))
    .filter(({ row, load }) => row.id !== ahead.id && load.oven === ahead.oven && before.includes(row.state))
    .toSorted((a, b) => time.millis(a.load.doorOpensAt) - time.millis(b.load.doorOpensAt));
  for (const { row, load } of rows) {
    const opens = time.millis(load.doorOpensAt);
    if (opens < time.millis(ahead.doorOpensAt) || opens >= free) continue;
    const body = shifted(load, "doorOpensAt", Math.ceil((free - opens) / MINUTE), time);
    await change.put("load", row.id, { body: JSON.stringify(body) });
    free = time.millis(body.doneAt);
  }
}
