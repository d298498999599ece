/** One firing with what was read at it, minute by minute from its door's closing. */
import type { Day } from "../contract/day.ts";
import type { PlanLoad } from "../contract/plan.ts";
import { toRequest } from "../day/to-solver.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { LoggedFiring } from "../../solver/index.ts";

/** A reading of this oven; `at` in milliseconds. */
export interface ReadAt {
  readonly at: number;
  readonly pan: string | null;
  readonly chamberC: number | null;
  readonly metalC: number | null;
  readonly meterUnits: number | null;
}

export interface FiredLoad {
  readonly day: Day;
  readonly load: PlanLoad;
  /** Loads of the same oven before and after it that day. */
  readonly before: PlanLoad | undefined;
  readonly next: PlanLoad | undefined;
}

/** A shut oven tells its wall for so long; what is read later is of another day. */
const longestIdle = 12 * 60 * MINUTE;
/** The chamber as read so shortly before the door opened, after the load before was out, is the chamber at door opening. */
const atDoor = 5 * MINUTE;

/** Undefined where nothing was read, or where it was no bake in a thermal cycle. */
export function loggedFiring(fired: FiredLoad, all: readonly ReadAt[]): LoggedFiring | undefined {
  const { day, load, before, next } = fired;
  if (load.kind !== "bake" || load.setPointC === null || load.burnerOffAt === null || load.chamberStartC === null)
    return undefined;
  const time = shopTime(day);
  const [opens, closes, off, unload] = [load.doorOpensAt, load.doorClosesAt, load.burnerOffAt, load.unloadAt].map(
    (instant) => time.millis(instant),
  ) as [number, number, number, number];
  const until = Math.min(
    time.millis(load.doneAt) + longestIdle,
    next === undefined ? Infinity : time.millis(next.doorOpensAt) - next.ventMinutes * MINUTE,
  );
  const inside = all.filter(({ at }) => at >= closes && at < until);
  const meter = gasSince(fired, all, time);
  const placed = placedPans(day, load);
  if (placed === undefined) return undefined;
  const readings = inside.map(({ at, pan, chamberC, metalC, meterUnits }) => {
    const place = pan === null || at > unload ? -1 : load.pans.findIndex(({ id }) => id === pan);
    return {
      minute: (at - closes) / MINUTE,
      chamberC,
      metalC: place < 0 ? null : metalC,
      pan: place < 0 ? null : place,
      gasKWh: meterUnits === null ? null : meter(meterUnits),
    };
  });
  const told = readings.filter((one) => [one.chamberC, one.metalC, one.gasKWh].some((figure) => figure !== null));
  if (told.length === 0) return undefined;
  const shutSince = Math.max(opens - atDoor, before === undefined ? -Infinity : time.millis(before.doneAt));
  const atOpen = all.findLast(({ at, chamberC }) => chamberC !== null && at <= opens && at >= shutSince);
  const minutes = (instant: number): number => Math.max(0, Math.round((instant - closes) / MINUTE));
  return {
    request: toRequest(day),
    pans: placed,
    chamberAtOpenC: atOpen?.chamberC ?? load.chamberStartC,
    decision: { setPointC: load.setPointC, burnerOffMinutes: minutes(off), unloadMinutes: minutes(unload) },
    readings: told,
  };
}

/** Undefined where a pan or its shelf is no longer known. */
function placedPans(day: Day, load: PlanLoad): LoggedFiring["pans"] | undefined {
  const space = day.ovens.find(({ id }) => id === load.oven)?.space;
  const places = load.pans.map(({ id, shelf }) => {
    const line = day.pans.findIndex((pan) => pan.id === id);
    const found = space?.kind === "shelves" ? space.shelves.find((one) => one.id === shelf) : undefined;
    return line < 0 || found === undefined ? undefined : { line, offsetC: found.offsetC };
  });
  return places.some((place) => place === undefined) ? undefined : places.flatMap((place) => place ?? []);
}

/** Gas since the door closed, kWh, for a level of meter or bottle; null without a level between the burner's last two lightings. */
function gasSince(
  { day, load, before }: FiredLoad,
  all: readonly ReadAt[],
  time: ShopTime,
): (units: number) => number | null {
  const lit = time.millis(load.burnerOnAt ?? load.doorClosesAt);
  const lastOff = before?.burnerOffAt ? time.millis(before.burnerOffAt) : lit - longestIdle;
  const start = all.findLast(({ at, meterUnits }) => meterUnits !== null && at <= lit && at >= lastOff)?.meterUnits;
  const { unitsLeft, grossKWhPerUnit } = day.gas;
  // A bottle serves every oven: with more than one its level tells no single firing's gas.
  if (start === undefined || start === null || (unitsLeft !== null && day.ovens.length > 1)) return () => null;
  return (units) => {
    const used = unitsLeft === null ? units - start : start - units;
    return used < 0 ? null : used * grossKWhPerUnit;
  };
}
