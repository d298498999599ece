/** The three ways to ask for a plan: the day as written, the rest of it anew, and a job that is not taken yet. */
import type { z } from "zod";
import type { DayFile } from "../contract/day.ts";
import type { Interruption, planAskSchema, quoteAskSchema, replanAskSchema } from "../contract/searching.ts";
import { applyHappened } from "../events/apply.ts";
import { badInput, conflict } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { currentPlan } from "../shop/current.ts";
import { dayOf, shopRows } from "../shop/day-rows.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import { shopTime } from "../shop/instants.ts";
import { dayByPiece } from "../shop/pieces.ts";
import type { PanFile } from "../shop/pieces.ts";
import { setAsideIn, standAt } from "../shop/stand.ts";
import type { Current, Stand } from "../shop/stand.ts";
import type { Change } from "../store/change.ts";
import type { SearchOptions } from "./messages.ts";
import { highestNumber } from "./number-loads.ts";
import { addSearch, extraOf } from "./searches.ts";

type PlanAsk = z.output<typeof planAskSchema>;
type ReplanAsk = z.output<typeof replanAskSchema>;
type QuoteAsk = z.output<typeof quoteAskSchema>;

function optionsOf(
  ask: Pick<PlanAsk, "seed" | "seconds" | "steps" | "gapPercent">,
  used: Iterable<string> = [],
): SearchOptions {
  const { seed, seconds, steps = null, gapPercent } = ask;
  return { seed, seconds, steps, gapPercent, numberFrom: highestNumber(used) };
}

export async function askPlan(app: App, change: Change, ask: PlanAsk): Promise<string> {
  const rows = await shopRows(change.trx);
  const day = dayOf(rows);
  if (day === undefined) throw conflict("No shop is set up yet: put a day file first.");
  const current = await currentPlan(change.trx);
  if (ask.from === "now" || current !== null || !isWhole(rows)) {
    const now = ask.from === "now" ? app.clock.now() : shopTime(day).millis(day.planFrom);
    const stand = standOr409(rows, current, now);
    const options = optionsOf(ask, usedNumbers(rows, stand));
    return addSearch(app, change.trx, { kind: "plan", day: stand.day, options, extra: extraOf(stand, current) });
  }
  const extra = {
    asOf: shopTime(day).millis(day.planFrom),
    onHold: [],
    setAside: setAsideIn(rows),
    finished: [],
    soFar: [],
    pinned: [],
    before: null,
    quote: null,
  };
  return addSearch(app, change.trx, { kind: "plan", day: dayByPiece(day), options: optionsOf(ask), extra });
}

/** Nothing is out of use, so the day is planned as it was written. */
function isWhole(rows: ShopRows): boolean {
  const booth = rows.settings.find(({ id }) => id === "booth");
  return rows.ovens.every(({ state, note }) => state === "in use" && note === "") && (booth?.note ?? "") === "";
}

function standOr409(rows: ShopRows, current: Current | null, now: number): Stand {
  const standing = standAt(rows, current, now);
  if (!standing.ok) throw conflict(standing.why, standing.problems);
  return standing.stand;
}

/** Loads to come give their numbers back; those over or under way, held or broken off keep theirs. */
function usedNumbers(rows: ShopRows, stand: Stand): string[] {
  const facts = rows.loads.filter(({ state }) => state !== "planned").map(({ id }) => id);
  return [...facts, ...stand.soFar.map(({ load }) => load.id), ...(stand.day.held ?? []).map(({ id }) => id)];
}

export interface Replanned {
  readonly id: string;
  readonly recorded: readonly number[];
  readonly interrupted: readonly Interruption[];
  readonly notes: readonly string[];
}

export async function askReplan(app: App, change: Change, ask: ReplanAsk): Promise<Replanned> {
  const now = nowOf(app, dayOf(await shopRows(change.trx)), ask.now);
  const recorded: number[] = [];
  const interrupted: Interruption[] = [];
  const notes: string[] = [];
  for (const event of ask.happened) {
    const applied = await applyHappened(app, change, event.who === "" ? { ...event, who: ask.who } : event, now);
    recorded.push(applied.event);
    interrupted.push(...applied.interrupted);
    notes.push(...applied.notes);
  }
  const rows = await shopRows(change.trx);
  const current = await currentPlan(change.trx);
  const stand = standOr409(rows, current, now);
  const options = optionsOf(ask, usedNumbers(rows, stand));
  const id = await addSearch(app, change.trx, {
    kind: "replan",
    day: stand.day,
    options,
    extra: extraOf(stand, current),
  });
  return { id, recorded, interrupted, notes };
}

function nowOf(app: App, day: DayFile | undefined, asked: string | undefined): number {
  if (day === undefined) throw conflict("No shop is set up yet: put a day file first.");
  const now = asked === undefined ? app.clock.now() : shopTime(day).millis(asked);
  if (!Number.isFinite(now)) throw badInput(`The clock change skips or repeats ${asked}: write it with its offset.`);
  return now;
}

/** The job joins the list for this search only. Its wish, or none, makes it as early as the others' promises allow. */
export async function askQuote(app: App, change: Change, ask: QuoteAsk, written: DayFile["pans"]): Promise<string> {
  const rows = await shopRows(change.trx);
  const day = dayOf(rows);
  const now = nowOf(app, day, ask.now);
  const current = await currentPlan(change.trx);
  const taken = new Set(rows.pans.map(({ id }) => id));
  const twice = written.find(({ id }) => taken.has(id.trim()));
  if (twice !== undefined) throw conflict(`${twice.id} is in the list already: give the new job other ids.`);
  const tickets = new Set(rows.pans.map(({ id, body }) => (JSON.parse(body) as PanFile).ticket ?? id));
  const joined = written.find((pan) => tickets.has((pan.ticket ?? pan.id).trim()));
  if (joined !== undefined)
    throw conflict(`${joined.ticket ?? joined.id} is a ticket already: give the new job a ticket of its own.`);
  if (current === null && rows.pans.some(({ state }) => state === "waiting"))
    throw conflict("No plan is in force to compare with: plan the day and accept the plan, then ask again.");
  const place = 1 + Math.max(0, ...rows.pans.map((row) => row.place));
  const job = written.map((pan) =>
    rushed(pan, shopTime(day as DayFile), Math.max(now, shopTime(day as DayFile).millis((day as DayFile).planFrom))),
  );
  const added = job.map((pan, i) => ({
    id: pan.id,
    place: place + i,
    body: JSON.stringify(pan),
    state: "waiting",
    note: "",
    follows: "no",
    version: 1,
  }));
  const stand = standOr409({ ...rows, pans: [...rows.pans, ...added] }, current, now);
  const refused = stand.onHold.filter(({ pan }) => job.some(({ id }) => pan === id || pan.startsWith(`${id}.`)));
  if (refused.length > 0) throw badInput(refused.map(({ pan, why }) => `${pan}: ${why}`).join(" "));
  const options = optionsOf(ask, usedNumbers(rows, stand));
  const extra = extraOf(stand, current, { pans: written, marginMinutes: ask.marginMinutes });
  return addSearch(app, change.trx, { kind: "quote", day: stand.day, options, extra });
}

/** Without a wish it is wanted as soon as it can be: from the moment it is ready for work, every minute counts. */
function rushed(pan: PanFile, time: ReturnType<typeof shopTime>, now: number): PanFile {
  const ready = Math.max(time.millis(pan.readyAt), now);
  return { ...pan, priority: "rush", promisedAt: pan.promisedAt ?? time.write(Math.ceil(ready / 60_000) * 60_000) };
}
