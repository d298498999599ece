/** Searches as the file keeps them and as the service tells of them. */
import { randomBytes } from "node:crypto";
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { SearchAnswer } from "../contract/searching.ts";
import { Refusal, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import type { OnHold } from "../shop/equipment.ts";
import { writeInstant } from "../day/instants.ts";
import type { Current, SetAside, Stand } from "../shop/stand.ts";
import type { Trx } from "../store/change.ts";
import { revisionOf } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { PlanRow } from "../store/tables.ts";
import { version } from "../version.ts";
import { differenceOf } from "./difference.ts";
import { handedOut } from "./handed-out.ts";
import type { SearchOptions } from "./messages.ts";

/** What a search keeps beside its day: how the shop stood, the plan in force then, the rush job asked about. */
export interface Extra {
  readonly asOf: number;
  readonly onHold: readonly OnHold[];
  /** Files of older versions have none. */
  readonly setAside?: readonly SetAside[];
  readonly finished: readonly string[];
  readonly soFar: readonly {
    readonly load: string;
    readonly oven: string;
    readonly state: string;
    readonly doorOpensAt: string;
    readonly doneAt: string;
    readonly pans: readonly string[];
  }[];
  /** Of older versions, which moved promises on: the true ones, by ticket. */
  readonly overdue?: Readonly<Record<string, string>>;
  /** Loads that were pinned when it was asked for. */
  readonly pinned: readonly string[];
  /** The plan compared with, its loads as they were then. */
  readonly before: Current | null;
  readonly quote: { readonly pans: DayFile["pans"]; readonly marginMinutes: number } | null;
}

export interface NewSearch {
  readonly kind: PlanRow["kind"];
  readonly day: DayFile;
  readonly options: SearchOptions;
  readonly extra: Extra;
}

export async function addSearch({ clock }: Pick<App, "clock">, trx: Trx, search: NewSearch): Promise<string> {
  const id = `p-${randomBytes(6).toString("hex")}`;
  const { kind, day, options, extra } = search;
  await trx
    .insertInto("plan")
    .values({
      id,
      kind,
      state: "queued",
      made_at: new Date(clock.now()).toISOString(),
      revision: await revisionOf(trx),
      replaces: extra.before?.id ?? null,
      day: JSON.stringify(day),
      request: JSON.stringify(options),
      version,
      plan: null,
      cost: null,
      bound: null,
      seconds: 0,
      faults: null,
      extra: JSON.stringify(extra),
      accepted_at: null,
      course: null,
    })
    .execute();
  return id;
}

export function extraOf(stand: Stand, before: Current | null, quote: Extra["quote"] = null): Extra {
  const { asOf, onHold, setAside, finished } = stand;
  const pinned = pinnedIn(stand.day);
  const soFar = stand.soFar.map(({ load, state }) => ({
    load: load.id,
    oven: load.oven,
    state: state === "fired" ? "fired" : Date.parse(load.doneAt) <= asOf ? "fired" : "firing",
    doorOpensAt: load.doorOpensAt,
    doneAt: load.doneAt,
    pans: load.pans.map(({ id }) => id),
  }));
  return {
    asOf,
    onHold,
    setAside,
    finished,
    soFar,
    pinned,
    before: before === null ? null : withoutCurves(before),
    quote,
  };
}

function pinnedIn(day: DayFile): string[] {
  return (day.held ?? []).flatMap(({ id, state }) => (state === "pinned" ? [id] : []));
}

/** Nothing compares curves, and they are most of a plan. */
function withoutCurves(current: Current): Current {
  const bare = <L extends { readonly curve: unknown }>(load: L): L => ({ ...load, curve: [] });
  const loads = current.loads.map(({ load, state }) => ({ load: bare(load), state }));
  return { ...current, plan: { ...current.plan, loads: current.plan.loads.map(bare) }, loads };
}

export async function planRow(db: Db | Trx, id: string): Promise<PlanRow> {
  const [row] = await db.selectFrom("plan").selectAll().where("id", "=", id).execute();
  if (row === undefined && id === "in-force")
    throw new Refusal(404, "Not found", "No plan is in force. Ask for one with POST /plans, then accept it.");
  if (row === undefined) throw notFound(`plan ${id}`);
  return row;
}

/** The plan of a row that may be handed out. */
export function fileOf(row: PlanRow): PlanFile | null {
  return row.plan === null ? null : (JSON.parse(row.plan) as PlanFile);
}

/** As the API tells it. */
export function courseText({ course }: Pick<PlanRow, "course">): string | null {
  return course === null ? null : Buffer.from(course).toString("base64");
}

export function searchAnswer(row: PlanRow, inForce: string | null): SearchAnswer {
  const file = fileOf(row);
  const out = file === null ? null : handedOut(row, file);
  const day = out?.day ?? (JSON.parse(row.day) as DayFile);
  const plan = out?.plan ?? null;
  const extra = JSON.parse(row.extra) as Extra;
  const zone = day.timeZone;
  const written = (instant: string): string => writeInstant(Date.parse(instant), zone);
  return {
    id: row.id,
    kind: row.kind,
    state: row.state,
    madeAt: written(row.made_at),
    replaces: row.replaces,
    inForce: inForce === row.id,
    acceptedAt: row.accepted_at === null ? null : written(row.accepted_at),
    cost: plan?.cost.total ?? null,
    bestPossibleCost: plan?.search.bestPossibleCost ?? null,
    seconds: row.seconds,
    plan,
    difference: plan === null ? null : difference(plan, day, extra),
    onHold: [
      ...extra.onHold,
      ...(extra.setAside ?? []).filter(({ state }) => state === "on hold").map(({ pan, why }) => ({ pan, why })),
    ],
    soFar: extra.soFar.map((fact) => ({ ...fact, pans: [...fact.pans] })),
    lostPins: extra.pinned.filter((id) => !pinnedIn(day).includes(id)),
    problem: problemOf(row, plan),
  };
}

/** A plan of this search as it is handed out, and what it changes; null where there was no plan in force. */
export function toldOf(
  row: Pick<PlanRow, "day" | "extra">,
  found: PlanFile,
): Pick<SearchAnswer, "difference"> & { readonly plan: PlanFile } {
  const { day, plan } = handedOut(row, found);
  return { plan, difference: difference(plan, day, JSON.parse(row.extra) as Extra) };
}

function difference(plan: PlanFile, day: DayFile, extra: Extra): SearchAnswer["difference"] {
  if (extra.before === null) return null;
  const { asOf, onHold, setAside = [], finished, overdue = {} } = extra;
  const brokenOff = extra.before.loads.filter(({ state }) => state === "interrupted" || state === "dropped");
  const begun = new Set([...extra.soFar.map(({ load }) => load), ...brokenOff.map(({ load }) => load.id)]);
  return differenceOf(extra.before, { plan, day, asOf, onHold, setAside, finished, begun, overdue });
}

function problemOf({ state, faults }: PlanRow, plan: PlanFile | null): string | null {
  if (plan !== null || state === "queued" || state === "searching") return null;
  if (faults !== null)
    return "The plan found did not pass the check, so it is not handed out. It is kept to look into.";
  return state === "failed"
    ? "The search failed. Its day is kept to look into."
    : "The search ended before it had a plan.";
}

export async function inForceId(db: Db | Trx): Promise<string | null> {
  const [shop] = await db.selectFrom("shop").select("in_force").execute();
  return shop?.in_force ?? null;
}

export async function answerOf(app: App, id: string): Promise<SearchAnswer> {
  return searchAnswer(await planRow(app.store.db, id), await inForceId(app.store.db));
}
