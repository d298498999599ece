/** What an event does to a load of the plan in force: its instants as they happened, its state. */
import type { PlanLoad } from "../contract/plan.ts";
import type { Interruption } from "../contract/searching.ts";
import { conflict, notFound } from "../http/failure.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { PanFile } from "../shop/pieces.ts";
import { progressOf } from "../shop/progress.ts";
import { momentOf } from "../shop/stand.ts";
import type { Current } from "../shop/stand.ts";
import { rowOf, rowsOf } from "../store/change.ts";
import type { EditedRow } from "../store/tables.ts";
import { interruptionOf } from "./interrupted.ts";
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
export function shifted(load: PlanLoad, first: Instant, minutes: number, time: ReturnType<typeof shopTime>): PlanLoad {
  const move = (instant: string | null): string | null =>
    instant === null ? null : time.write(time.millis(instant) + minutes * MINUTE);
  const later = inOrder.slice(inOrder.indexOf(first));
  const moved = Object.fromEntries(later.map((name) => [name, move(load[name])]));
  const pans = load.pans.map((pan) => ({ ...pan, cooledAt: move(pan.cooledAt) ?? pan.cooledAt }));
  return { ...load, ...moved, pans };
}

const before = ["planned", "pinned"];
const open = ["planned", "pinned", "firing"];

/** The report names the whole minute at which `instant` of the load really was. */
export async function happenedAt(
  happening: Happening,
  id: string,
  instant: "doorOpensAt" | "doorClosesAt" | "burnerOffAt" | "doneAt",
): Promise<void> {
  const { row, load } = await loadRow(happening, id, instant === "doorOpensAt" ? before : open);
  const time = shopTime(happening.day);
  const planned = load[instant];
  if (planned === null) throw conflict(`${id} has no such moment: its oven has a fixed cycle.`);
  const minutes = Math.round((happening.at - time.millis(planned)) / MINUTE);
  // Door work takes its fixed minutes, so a door closed late was opened late, and pans out late were unloaded late.
  const first = instant === "doneAt" ? "unloadAt" : instant === "burnerOffAt" ? "burnerOffAt" : "doorOpensAt";
  const body = shifted(load, first, minutes, time);
  if (time.millis(body[first] ?? body.doneAt) < time.millis(previous(body, first)))
    throw conflict(`${id} cannot be that far before what came first: check the time.`);
  const state = instant === "doneAt" ? "fired" : "firing";
  await happening.change.put("load", row.id, { body: JSON.stringify({ ...body, state }), state });
  await pushOn(happening, body);
}

function previous(load: PlanLoad, instant: Instant): string {
  const earlier = inOrder.slice(0, inOrder.indexOf(instant)).flatMap((name) => load[name] ?? []);
  return earlier.at(-1) ?? load[instant] ?? load.doneAt;
}

/** Not opened yet: all of it comes later, and its pans with it. Under way: what is still to come. */
export async function loadLate(happening: Happening, id: string, minutes: number): Promise<string> {
  const { row, load } = await loadRow(happening, id, open);
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
      const body = JSON.stringify(overdueSafe({ ...pan, readyAt }, time));
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

/** Nobody believes a load that lost its burner: its pans follow the plan no longer but what they had by then. */
export async function loadInterrupted(
  happening: Happening,
  id: string,
  cause: string,
  current: Current | null,
): Promise<Interruption | undefined> {
  const { row, load } = await loadRow(happening, id, open);
  const time = shopTime(happening.day);
  if (time.millis(load.doorClosesAt) > happening.at) throw conflict(`${id} is not in the oven yet.`);
  const told = interruptionOf(current?.day ?? happening.day, load, happening.at);
  await happening.change.put("load", row.id, { state: "interrupted", note: cause });
  const whole = time.write(Math.ceil(happening.at / MINUTE) * MINUTE);
  for (const place of load.pans) {
    const pan = told?.pans.find((one) => one.pan === place.id);
    for (const panRow of await panRows(happening.change, place.id)) {
      const file = JSON.parse(panRow.body) as PanFile;
      const again = { ...file, nextCoat: place.coat, sprayed: true, prepMinutes: 0, readyAt: whole };
      const body = JSON.stringify(overdueSafe(again, time));
      const wait = pan !== undefined && (pan.advice === "inspect" || pan.advice === "strip");
      await happening.change.put("pan", panRow.id, {
        body,
        follows: "no",
        state: wait ? "on hold" : "waiting",
        note: wait ? pan.words : `interrupted: ${cause}`,
      });
    }
  }
  return told;
}

function overdueSafe(pan: PanFile, time: ReturnType<typeof shopTime>): PanFile {
  const promised = pan.promisedAt ?? null;
  return promised !== null && time.millis(promised) < time.millis(pan.readyAt) ? { ...pan, readyAt: promised } : pan;
}
