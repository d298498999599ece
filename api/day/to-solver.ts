/** A day that `readDay` has accepted -> the solver's request: zone and clock change become minutes, ids become indices. */
import type { Day, DayCoat, DayHeldLoad, DayOven, DayPan } from "../contract/day.ts";
import type { PlanRequest } from "../../solver/index.ts";
import { dayClock } from "./origin.ts";
import type { DayClock } from "./origin.ts";

type Oven = PlanRequest["ovens"][number];
type Coat = PlanRequest["coatings"][number]["coats"][number];
type Line = PlanRequest["lines"][number];
type HeldLoad = PlanRequest["held"][number];

/** When work goes on where the day does not say: the next morning. */
const NIGHT_MINUTES = 14 * 60;

export function toRequest(day: Day): PlanRequest {
  const clock = dayClock(day);
  const staffed = day.staffed
    .map(({ from, to }) => ({ from: clock.toMinute(from), to: clock.toMinute(to) }))
    .toSorted((a, b) => a.from - b.from);
  const horizon = staffed.at(-1)?.to ?? 0;
  return {
    planFromMinute: clock.toMinute(day.planFrom),
    staffed,
    nextOpenMinute: day.nextOpen === null ? horizon + NIGHT_MINUTES : clock.toMinute(day.nextOpen),
    ambientC: day.ambientC,
    prices: { gasPerKWh: day.prices.gasPerKWh, crewPerHour: day.prices.crewPerHour, movePerPan: day.prices.movePerPan },
    gas: day.gas,
    benches: day.prep.benches,
    booth: day.booth,
    finishMinutes: day.finishMinutes,
    mixing: day.mixing,
    coatings: day.coatings.map(({ id, name, coats }) => ({ id, name, coats: coats.map((coat) => toCoat(day, coat)) })),
    ovens: day.ovens.map((oven) => toOven(clock, oven)),
    lines: day.pans.map((pan) => toLine(day, clock, pan)),
    held: day.held.map((load) => toHeld(day, clock, load)).toSorted((a, b) => a.doorOpens - b.doorOpens),
    inForce: toInForce(day, clock),
    inForceLoads: toInForceLoads(day, clock),
  };
}

/** A coat that need not soak must get to its metal temperature all the same. */
const ARRIVAL_MINUTES = 0.05;

function toCoat(day: Day, coat: DayCoat): Coat {
  const { bake, ...rest } = coat;
  const { metalLowC, metalHighC, soakLeastMinutes, soakMostMinutes, cycleMinutes } = bake;
  const whole = metalLowC !== null && metalHighC !== null && soakLeastMinutes !== null && soakMostMinutes !== null;
  return {
    ...rest,
    ovens: coat.ovens?.map((id) => indexOf(day.ovens, id)) ?? null,
    window: whole
      ? { metalLowC, metalHighC, soakLeastMinutes: Math.max(ARRIVAL_MINUTES, soakLeastMinutes), soakMostMinutes }
      : null,
    cycleMinutes,
  };
}

function toOven(clock: DayClock, { outUntil, ...oven }: DayOven): Oven {
  const { space } = oven;
  return {
    ...oven,
    ...(outUntil === null ? {} : { outUntilMinute: clock.toMinute(outUntil) }),
    space:
      space.kind === "area"
        ? space
        : { ...space, shelves: space.shelves.map((shelf) => ({ ...shelf, maxKg: shelf.maxKg ?? Infinity })) },
    maxLoadKg: oven.maxLoadKg ?? Infinity,
    maxSolventMl: oven.maxSolventMl ?? Infinity,
  };
}

function toLine(day: Day, clock: DayClock, pan: DayPan): Line {
  const byPriority = pan.priority === "rush" ? day.prices.rushLatePerPanHour : day.prices.latePerPanHour;
  const material = day.materials[pan.material];
  if (!material) throw new Error(`material ${pan.material} passed the checks but is not there`);
  return {
    id: pan.id,
    ticket: pan.ticket,
    quantity: pan.quantity,
    coating: indexOf(day.coatings, pan.coating),
    nextCoat: pan.nextCoat,
    sprayed: pan.sprayed,
    readyMinute: Math.ceil(clock.toMinute(pan.readyAt)),
    prepMinutes: pan.prepMinutes,
    promisedMinute: pan.promisedAt === null ? null : clock.toMinute(pan.promisedAt),
    latePerHour: pan.latePerHour ?? byPriority,
    leftOverCost: pan.leftOverCost ?? day.prices.leftOverPerPan,
    shape: pan.shape,
    heightCm: pan.heightCm,
    massKg: pan.massKg,
    specificHeatJPerKgK: material.specificHeatJPerKgK,
    metalLimitC: pan.metalLimitC ?? Infinity,
  };
}

function toHeld(day: Day, clock: DayClock, load: DayHeldLoad): HeldLoad {
  const oven = indexOf(day.ovens, load.oven);
  const fixed = day.ovens[oven]?.cycle.kind === "fixed";
  const space = day.ovens[oven]?.space;
  const shelves = space?.kind === "shelves" ? space.shelves : [];
  return {
    id: load.id,
    oven,
    kind: load.kind,
    state: load.state,
    setPointC: fixed ? null : load.setPointC,
    ventMinutes: load.ventMinutes,
    doorOpens: clock.toMinute(load.doorOpensAt),
    doorCloses: clock.toMinute(load.doorClosesAt),
    burnerOff: fixed || load.burnerOffAt === null ? null : clock.toMinute(load.burnerOffAt),
    unload: clock.toMinute(load.unloadAt),
    done: clock.toMinute(load.doneAt),
    pans: load.pans.map(({ id, item, coat, shelf, xCm, yCm, turned }) => ({
      line: indexOf(day.pans, id),
      item,
      coat,
      shelf: shelf === null ? null : indexOf(shelves, shelf),
      xCm,
      yCm,
      turned,
    })),
  };
}

/** Pans withdrawn since then have nothing left to move. */
function toInForce(day: Day, clock: DayClock): PlanRequest["inForce"] {
  return day.inForce.flatMap(({ id, item, doorOpensAt }) => {
    const line = day.pans.findIndex((pan) => pan.id === id);
    return line < 0 ? [] : [{ line, item, doorOpens: clock.toMinute(doorOpensAt) }];
  });
}

/** Ovens and pans of the plan in force that this day has no more are left out. */
function toInForceLoads(day: Day, clock: DayClock): NonNullable<PlanRequest["inForceLoads"]> {
  return day.inForceLoads.flatMap((load) => {
    const oven = day.ovens.findIndex(({ id }) => id === load.oven);
    const pans = load.pans.flatMap(({ id, item, coat }) => {
      const line = day.pans.findIndex((pan) => pan.id === id);
      return line < 0 ? [] : [{ line, item, coat }];
    });
    if (oven < 0 || pans.length === 0) return [];
    return [{ oven, setPointC: load.setPointC ?? 0, doorOpens: Math.ceil(clock.toMinute(load.doorOpensAt)), pans }];
  });
}

function indexOf(list: readonly { readonly id: string }[], id: string): number {
  const index = list.findIndex((entry) => entry.id === id);
  if (index < 0) throw new Error(`${id} passed the checks but is not there`);
  return index;
}
