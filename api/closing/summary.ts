/** The day in figures: fired, failed by cause, gas foreseen and measured, saved. */
import { daySchema } from "../contract/day.ts";
import type { DayFile } from "../contract/day.ts";
import type { DaySummary } from "../contract/closed-day.ts";
import type { ShopRows } from "../shop/day-rows.ts";
import { shopTime } from "../shop/instants.ts";
import type { Moment } from "../shop/progress.ts";
import type { Trx } from "../store/change.ts";
import type { Db } from "../store/database.ts";
import type { Fired } from "./fired.ts";
import { dayOfAll, firedLoads, plansInForce } from "./fired.ts";
import type { Level } from "./measured-gas.ts";
import { measuredGas } from "./measured-gas.ts";
import { savedBy } from "./saved.ts";

export interface DaySoFar {
  readonly rows: ShopRows;
  readonly day: DayFile;
  readonly moment: Moment;
  readonly pansFinished: number;
  /** Number of its first event, and the instant (milliseconds) at which the day before was closed. */
  readonly firstEvent: number;
  readonly since: number;
}

export async function summaryOf(db: Db | Trx, soFar: DaySoFar): Promise<DaySummary> {
  const { rows, day, moment, firstEvent, pansFinished } = soFar;
  const fired = firedLoads(rows, moment);
  const events = await eventsSince(db, firstEvent);
  const failures = failuresOf(events);
  // A day file put in its place ended whatever was planned before it.
  const begun = events.findLast(({ kind }) => kind === "day-put")?.id ?? firstEvent;
  const plans = await plansInForce(db, begun, Number.MAX_SAFE_INTEGER);
  const all = dayOfAll(day, plans);
  const gasKWh = fired.reduce((sum, { load }) => sum + load.gasKWh, 0);
  const bakes = fired.reduce((sum, { load }) => sum + load.pans.length, 0);
  const gas = daySchema.in.shape.gas.parse(day.gas);
  const by = gas.unitsLeft === null ? ("meter" as const) : ("bottle" as const);
  const levels = [...(await levelsRead(db, soFar)), ...(by === "bottle" ? bottlesChanged(events, soFar) : [])];
  const measured = measuredGas(levels, fired, { by, ...gas }, shopTime(day));
  return {
    pansFinished,
    pansFailed: failures.reduce((sum, { pans }) => sum + pans, 0),
    bakes,
    loads: fired.length,
    gasKWh,
    kWhPerPan: bakes === 0 ? null : gasKWh / bakes,
    measuredGas: measured,
    measuredKWhPerPan: measured === null || bakes === 0 ? null : measured.kWh / bakes,
    failures,
    fired: fired.map(firedLine(moment)),
    saved: all === undefined ? [] : savedBy(all, fired),
  };
}

function firedLine({ time }: Moment): (fired: Fired) => DaySummary["fired"][number] {
  return ({ load, state }) => ({
    load: load.id,
    oven: load.oven,
    kind: load.kind,
    state,
    setPointC: load.setPointC,
    doorOpensAt: time.write(time.millis(load.doorOpensAt)),
    doneAt: time.write(time.millis(load.doneAt)),
    pans: load.pans.length,
    gasKWh: load.gasKWh,
  });
}

interface Said {
  readonly id: number;
  readonly kind: string;
  readonly at: string;
  readonly body: string;
}

/** What was said and not taken back. */
async function eventsSince(db: Db | Trx, first: number): Promise<Said[]> {
  const rows = await db
    .selectFrom("event")
    .select(["id", "kind", "at", "body", "undoes"])
    .where("id", ">=", first)
    .orderBy("id")
    .execute();
  const undone = new Set(rows.map(({ undoes }) => undoes));
  return rows.filter(({ id }) => !undone.has(id));
}

function failuresOf(events: readonly Said[]): { cause: string; pans: number }[] {
  const counts = new Map<string, number>();
  for (const { kind, body } of events) {
    if (kind !== "pan-failed") continue;
    const { cause } = JSON.parse(body) as { cause: string };
    counts.set(cause, (counts.get(cause) ?? 0) + 1);
  }
  return [...counts].map(([cause, pans]) => ({ cause, pans }));
}

async function levelsRead(db: Db | Trx, { day, since }: DaySoFar): Promise<Level[]> {
  const { millis } = shopTime(day);
  const rows = await db.selectFrom("reading").select(["at", "oven", "body"]).execute();
  return rows.flatMap(({ at, oven, body }) => {
    const { meterUnits } = JSON.parse(body) as { meterUnits?: number };
    const instant = millis(at);
    return meterUnits === undefined || !(instant > since)
      ? []
      : [{ at: instant, oven, units: meterUnits, fresh: false }];
  });
}

function bottlesChanged(events: readonly Said[], { day }: DaySoFar): Level[] {
  const { millis } = shopTime(day);
  return events.flatMap(({ kind, at, body }) => {
    if (kind !== "bottle-changed") return [];
    const said = JSON.parse(body) as { at?: string; unitsLeft: number | null };
    if (said.unitsLeft === null) return [];
    return [{ at: millis(said.at ?? at), oven: "", units: said.unitsLeft, fresh: true }];
  });
}
