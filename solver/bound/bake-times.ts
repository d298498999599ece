/** The least time one pan's bake can take in one oven, whatever shares the load with it. Asked by bound/chains.ts. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import { minutesToHand } from "./cool-least.ts";
import { chamberAfterDoor } from "../heat/chamber.ts";
import type { Oven, ThermalCycle } from "../shop.ts";

/** Minutes no firing of a load with this pan undercuts. */
export interface BakeTimes {
  readonly oven: number;
  readonly loadMinutes: number;
  readonly unloadMinutes: number;
  readonly attended: boolean;
  /** Door closed, whole minutes. */
  readonly closedMinutes: number;
  /** Door closing to the pan being cool enough to handle. */
  readonly handleMinutes: number;
}

/** A checker may disagree about a soak by a quarter of a minute: that much is given away, and a hair for rounding. */
const SOAK_TOLERANCE_MINUTES = 0.26;
const STEP_MINUTES = 0.05;
const LONGEST_MINUTES = 1440;

/** Undefined where the pan never gets into its window in this oven. */
export function bakeTimes(day: DayModel, kind: BakeKind, ovenIndex: number): BakeTimes | undefined {
  const oven = day.request.ovens[ovenIndex]!;
  const { cycle, attended } = oven;
  const { loadMinutes, unloadMinutes } = cycle;
  const fixed = { oven: ovenIndex, loadMinutes, unloadMinutes, attended };
  if (cycle.kind === "fixed") {
    const closedMinutes = kind.coat.cycleMinutes ?? 0;
    return { ...fixed, closedMinutes, handleMinutes: closedMinutes + unloadMinutes };
  }
  const { soakLeastMinutes, metalLowC } = kind.coat.window!;
  const offsetsC = oven.space.kind === "shelves" ? oven.space.shelves.map((shelf) => shelf.offsetC) : [0];
  const air = airEnvelope(day, oven, cycle, offsetsC);
  const guardedC = metalLowC + cycle.guardC;
  const reached = minutesToReach(day, kind, cycle, air, Math.max(...offsetsC), guardedC);
  if (reached === undefined) return undefined;
  const soaked = Math.max(0, reached + soakLeastMinutes - SOAK_TOLERANCE_MINUTES);
  const closedMinutes = Math.ceil(soaked + cycle.earlyMinutes);
  const entry = { reached, waits: soaked - reached, guardedC };
  const cooled = Math.max(soaked, reached + minutesToHand(day, kind, ovenIndex, cycle, entry));
  return { ...fixed, closedMinutes, handleMinutes: unloadMinutes + Math.max(closedMinutes, cooled) };
}

/** Chamber above the room, K, that no firing exceeds: its value when pans enter, at closing, and its ceiling. */
interface AirEnvelope {
  readonly enters: number;
  readonly closes: number;
  readonly ceiling: number;
}

/**
 * The chamber starts at the hottest at which a door opens. No chamber exceeds its hottest set-point or its start, for pans
 * never give back more than the chamber gave them. Pans bring at most the warmth of the air they entered in, so that the
 * warmest of all pans stands for them at closing.
 */
function airEnvelope(day: DayModel, oven: Oven, cycle: ThermalCycle, offsetsC: readonly number[]): AirEnvelope {
  const { ambientC } = day.request;
  const ceilingC = ceilingOf(day, cycle);
  const opensC = Math.min(cycle.doorLimitC, ceilingC);
  const enters = chamberAfterDoor(cycle, ambientC, opensC, cycle.loadMinutes / 2) - ambientC;
  const chamber = chamberAfterDoor(cycle, ambientC, opensC, cycle.loadMinutes) - ambientC;
  const coolest = Math.max(0, ...offsetsC.map((offset) => -offset));
  const half = cycle.loadMinutes / 2;
  const index = day.request.ovens.indexOf(oven);
  const fastest = Math.max(
    0,
    ...day.kinds.filter((kind) => kind.ovens.includes(index)).map((kind) => rateOf(kind, cycle)),
  );
  const warmest = coolest + enters * (1 - Math.exp(-fastest * half));
  return { enters, closes: Math.max(chamber, Math.min(warmest, enters + coolest), 0), ceiling: ceilingC - ambientC };
}

function rateOf({ body }: BakeKind, cycle: ThermalCycle): number {
  return (60 * cycle.filmWPerM2K * body.exchangeM2) / body.heatJPerK;
}

/**
 * When the metal first meets `guardedC`. Company only draws heat from a chamber that does not fall, so that the empty chamber
 * under full fire, kept from falling while it is purged, is never cooler than the real one; metal in warmer air is warmer.
 */
function minutesToReach(
  day: DayModel,
  kind: BakeKind,
  cycle: ThermalCycle,
  air: AirEnvelope,
  offsetC: number,
  guardedC: number,
): number | undefined {
  const { ambientC } = day.request;
  const rate = rateOf(kind, cycle);
  const goal = guardedC - ambientC - 1e-6;
  const half = cycle.loadMinutes / 2;
  const ceiling = Math.max(air.ceiling, air.closes);
  let metal = Math.max(0, (air.enters + offsetC) * (1 - Math.exp(-rate * half)));
  if (metal >= goal) return 0;
  const lossWPerK = cycle.wallLossWPerK + cycle.exhaustWPerK;
  const limit = lossWPerK > 0 ? (1000 * cycle.burnerKW * cycle.efficiency) / lossWPerK : Infinity;
  const heatingRate = (60 * lossWPerK) / (1000 * cycle.heatCapacityKJPerK);
  const kelvinPerMinute = (60 * cycle.burnerKW * cycle.efficiency) / cycle.heatCapacityKJPerK;
  const chamberAt = (minute: number): number => {
    const fired = Math.max(0, minute - cycle.purgeMinutes);
    const free =
      limit === Infinity
        ? air.closes + kelvinPerMinute * fired
        : limit - (limit - air.closes) * Math.exp(-heatingRate * fired);
    return Math.min(ceiling, Math.max(air.closes, free));
  };
  const decay = Math.exp(-rate * STEP_MINUTES);
  for (let step = 1; step * STEP_MINUTES <= LONGEST_MINUTES; step++) {
    // The end of the step is its warmest instant.
    const target = chamberAt(step * STEP_MINUTES) + offsetC;
    metal = target - (target - metal) * decay;
    if (metal >= goal) return (step - 1) * STEP_MINUTES;
    if (target >= ceiling + offsetC && target <= goal) return undefined;
  }
  return undefined;
}

/** The span of what an oven's pans can meet: hottest chamber at a door's opening, K above the room, and shelf offsets. */
export function bakingRange(day: DayModel, ovenIndex: number, cycle: ThermalCycle): BakingRange {
  const { space } = day.request.ovens[ovenIndex]!;
  const offsetsC = space.kind === "shelves" ? space.shelves.map((shelf) => shelf.offsetC) : [0];
  return {
    hottestOpen: Math.min(cycle.doorLimitC, ceilingOf(day, cycle)) - day.request.ambientC,
    highestOffsetC: Math.max(...offsetsC),
    lowestOffsetC: Math.min(...offsetsC),
  };
}

export interface BakingRange {
  readonly hottestOpen: number;
  readonly highestOffsetC: number;
  readonly lowestOffsetC: number;
}

function ceilingOf(day: DayModel, cycle: ThermalCycle): number {
  const setPointsC = day.request.held.map((load) => load.setPointC ?? -Infinity);
  return Math.max(cycle.setPointMaxC, cycle.startC, ...setPointsC);
}
