/** Takes a report from the shop: changes what it changes and writes it to the log. */
import type { Happened } from "../contract/happened.ts";
import type { Interruption } from "../contract/searching.ts";
import { badInput, conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { currentPlan } from "../shop/current.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { record, soundDay } from "../shop/edit.ts";
import { shopTime } from "../shop/instants.ts";
import { hasOpened, isDone } from "../shop/progress.ts";
import { momentOf } from "../shop/stand.ts";
import type { Current } from "../shop/stand.ts";
import type { PlanLoad } from "../contract/plan.ts";
import type { Change } from "../store/change.ts";
import { rowsOf } from "../store/change.ts";
import { happenedAt, loadLate, loadRow } from "./load-events.ts";
import { loadInterrupted, takenOut } from "./lost-loads.ts";
import type { Happening } from "./pan-events.ts";
import { handedOver, panFailed, panHeld, panReady, panWithdrawn } from "./pan-events.ts";
import { gasLeft, ovenBack, ovenOut, shelf, sprayersChanged } from "./shop-events.ts";

export interface Applied {
  readonly event: number;
  readonly interrupted: readonly Interruption[];
  readonly notes: readonly string[];
}

export async function applyHappened(app: App, change: Change, event: Happened, now: number): Promise<Applied> {
  const day = dayOf(await shopRows(change.trx));
  if (day === undefined) throw conflict("No shop is set up yet: put a day file first.");
  const at = event.at === undefined ? now : shopTime(day).millis(event.at);
  if (!Number.isFinite(at)) throw badInput(`The clock change skips or repeats ${event.at}: write it with its offset.`);
  const current = await currentPlan(change.trx);
  const told = await effect({ change, day, at, current }, event, current);
  await soundDay(change);
  const logged = await record(app, change, {
    who: event.who,
    kind: event.kind,
    subject: subjectOf(event),
    body: event,
  });
  return { event: logged, ...told };
}

type Told = Omit<Applied, "event">;
const quiet: Told = { interrupted: [], notes: [] };

async function effect(happening: Happening, event: Happened, current: Current | null): Promise<Told> {
  switch (event.kind) {
    case "pan-ready":
      return done(panReady(happening, event));
    case "pan-failed":
      return done(panFailed(happening, event));
    case "pan-held":
      return done(panHeld(happening, event));
    case "pan-withdrawn":
      return done(panWithdrawn(happening, event));
    case "ticket-handed-over":
      return done(handedOver(happening, event));
    case "load-opened":
      return { ...quiet, notes: await happenedAt(happening, event.load, "doorOpensAt") };
    case "load-closed":
      return { ...quiet, notes: await happenedAt(happening, event.load, "doorClosesAt") };
    case "burner-off":
      return { ...quiet, notes: await happenedAt(happening, event.load, "burnerOffAt") };
    case "load-out":
      return { ...quiet, notes: await happenedAt(happening, event.load, "doneAt") };
    case "load-late":
      return { ...quiet, notes: [await loadLate(happening, event.load, event.minutes)] };
    case "load-interrupted":
      return interrupted(happening, event.load, event.cause, current);
    case "load-pinned":
    case "load-unpinned":
      return done(pin(happening, event.load, event.kind === "load-pinned"));
    default:
      return shopEffect(happening, event, current);
  }
}

type ShopEvent = Extract<
  Happened,
  { kind: "oven-out" | "oven-back" | "shelf-out" | "shelf-back" | "bottle-changed" | "gas-left" | "sprayers-changed" }
>;

async function shopEffect(happening: Happening, event: ShopEvent, current: Current | null): Promise<Told> {
  switch (event.kind) {
    case "oven-out":
      await ovenOut(happening, event);
      return lostWithOven(happening, event.oven, event.cause || "oven out of use", current);
    case "oven-back":
      return done(ovenBack(happening, event));
    case "shelf-out":
    case "shelf-back":
      return done(shelf(happening, event));
    case "bottle-changed":
    case "gas-left":
      return done(gasLeft(happening, event));
    case "sprayers-changed":
      return done(sprayersChanged(happening, event));
  }
}

async function done(work: Promise<void>): Promise<Told> {
  await work;
  return quiet;
}

async function interrupted(happening: Happening, load: string, cause: string, current: Current | null): Promise<Told> {
  const told = await loadInterrupted(happening, load, cause, current);
  const notes =
    told === undefined ? [`${load}: nobody knows how warm its pans were. Measure, inspect, bake again or strip.`] : [];
  return { interrupted: told === undefined ? [] : [told], notes };
}

/** What stood closed in an oven that goes out of use lost its burner with it; what was still being put in comes out. */
async function lostWithOven(happening: Happening, oven: string, cause: string, current: Current | null): Promise<Told> {
  const moment = momentOf({ stored: happening.day, now: happening.at });
  const inside = current?.loads.find(
    (entry) => entry.load.oven === oven && hasOpened(entry, moment) && !isDone(entry, moment),
  );
  if (inside === undefined) return quiet;
  const { id, doorClosesAt } = inside.load;
  if (moment.time.millis(doorClosesAt) <= happening.at) return interrupted(happening, id, cause, current);
  await takenOut(happening, id);
  return {
    ...quiet,
    notes: [`${id} was not closed yet: its pans come out as they went in, their coats still to bake.`],
  };
}

/** A preheat belongs to the bake it stands before: pinned together, let go together. */
async function pin(happening: Happening, load: string, on: boolean): Promise<void> {
  const { load: asked } = await loadRow(happening, load, on ? ["planned"] : ["pinned"]);
  const state = on ? "pinned" : "planned";
  const ofOven = (await rowsOf(happening.change.trx, "load"))
    .map((row) => ({ row, file: JSON.parse(row.body) as PlanLoad }))
    .filter(({ row, file }) => file.oven === asked.oven && ["planned", "pinned"].includes(row.state))
    .toSorted((a, b) => Date.parse(a.file.doorOpensAt) - Date.parse(b.file.doorOpensAt));
  const at = ofOven.findIndex(({ row }) => row.id === load);
  let [first, last] = [at, at];
  while (first > 0 && ofOven[first - 1]?.file.kind !== "bake") first--;
  while (last < ofOven.length - 1 && ofOven[last]?.file.kind !== "bake") last++;
  for (const { row, file } of ofOven.slice(first, last + 1))
    await happening.change.put("load", row.id, { state, body: JSON.stringify({ ...file, state }) });
}

function subjectOf(event: Happened): string {
  if ("pan" in event) return event.pan;
  if ("load" in event) return event.load;
  if ("ticket" in event) return event.ticket;
  if ("shelf" in event) return `${event.oven}/${event.shelf}`;
  if ("oven" in event) return event.oven;
  return event.kind === "sprayers-changed" ? "booth" : "gas";
}
