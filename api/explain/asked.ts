/** What is asked about: two pans with the coats they need next, or a pan and a load of the plan in force. */
import type { Day, DayFile } from "../contract/day.ts";
import { readDay } from "../day/read-day.ts";
import { conflict, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { currentPlan } from "../shop/current.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import { dayByPiece } from "../shop/pieces.ts";
import { hasOpened } from "../shop/progress.ts";
import type { Current } from "../shop/stand.ts";
import { momentOf, standAt } from "../shop/stand.ts";
import type { AskedBake } from "../../solver/index.ts";

export interface Question {
  readonly day: Day;
  /** The pan asked about first. */
  readonly bakes: readonly AskedBake[];
  /** Index of the load's oven; null for two pans. */
  readonly oven: number | null;
}

/** Throws 404 for a name that neither the list nor the plan in force knows, 409 for a load that is over. */
export async function questionOf(app: App, one: string, other: string): Promise<Question> {
  const rows = await shopRows(app.store.db);
  const stored = dayOf(rows);
  if (stored === undefined) throw conflict("No shop is set up yet.");
  const current = await currentPlan(app.store.db);
  const standing = standAt(rows, current, app.clock.now());
  // As far as the pans are now; where they are not to be planned now, as they were written.
  const days = [...(standing.ok ? [standing.stand.day] : []), dayByPiece(stored)];
  const load = current?.loads.find((entry) => entry.load.id === other);
  if (load === undefined) return pairIn(days, one, other);
  const moment = momentOf({ stored, now: app.clock.now() });
  if (hasOpened(load, moment) || !["planned", "pinned"].includes(load.state))
    throw conflict(`${other} has been opened: nothing can be put in any more.`);
  return withLoad(days, one, load.load);
}

function readable(days: readonly DayFile[], ids: readonly string[]): Day | undefined {
  for (const day of days) {
    if (!ids.every((id) => lineOf(day, id) >= 0)) continue;
    const read = readDay(day);
    if (read.ok) return read.day;
  }
  return undefined;
}

function lineOf(day: Pick<DayFile, "pans">, id: string): number {
  const exact = day.pans.findIndex((pan) => pan.id === id);
  return exact >= 0 ? exact : day.pans.findIndex((pan) => pan.id.startsWith(`${id}.`));
}

function pairIn(days: readonly DayFile[], one: string, other: string): Question {
  const day = readable(days, [one, other]);
  if (day === undefined) {
    const unknown = [one, other].find((id) => days.every((any) => lineOf(any, id) < 0));
    throw notFound(`pan ${unknown ?? `${one} with ${other} to plan`}`);
  }
  const first = lineOf(day, one);
  const second = lineOf(day, other);
  // A line of alike pieces asked about with itself: two of its pieces.
  const twin = first === second ? day.pans.findIndex((pan, i) => i !== first && pan.id.startsWith(`${one}.`)) : second;
  if (twin < 0) throw conflict(`${one} is a single piece: name two pans.`);
  return { day, bakes: [nextBake(day, first), nextBake(day, twin)], oven: null };
}

function nextBake(day: Day, line: number): AskedBake {
  return { line, coat: day.pans[line]?.nextCoat ?? 1 };
}

function withLoad(days: readonly DayFile[], one: string, load: Current["loads"][number]["load"]): Question {
  if (load.pans.length === 0) throw conflict(`${load.id} is fired empty.`);
  const day = readable(days, [one, ...load.pans.map(({ id }) => id)]);
  if (day === undefined) {
    if (days.every((any) => lineOf(any, one) < 0)) throw notFound(`pan ${one}`);
    throw conflict(`${load.id} is no longer as it was planned: plan again first.`);
  }
  const bake = nextBake(day, lineOf(day, one));
  const pan = day.pans[bake.line];
  if (load.pans.some(({ id }) => id === pan?.id)) throw conflict(`${one} is in ${load.id} already.`);
  const others = load.pans.map(({ id, coat }) => ({ line: lineOf(day, id), coat }));
  return { day, bakes: [bake, ...others], oven: day.ovens.findIndex(({ id }) => id === load.oven) };
}
