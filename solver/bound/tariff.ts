/** What a lone bake of each kind takes at least in each oven, where the heat that it finds in the chamber and leaves there counts. */
import type { DayModel } from "../day/day-model.ts";
import { chamberAfterDoor } from "../heat/chamber.ts";
import type { ThermalCycle } from "../shop.ts";
import type { LoneBakes, Span } from "./lone-bakes.ts";
import type { LooseFiring } from "./loose-firing.ts";

/** What an oven's gas and its minutes, door opening to done, cost. Everything else is in that unit. */
export interface Rates {
  readonly perKWh: number;
  readonly perMinute: number;
}

export const GAS: Rates = { perKWh: 1, perMinute: 0 };
export const OVEN_TIME: Rates = { perKWh: 0, perMinute: 1 };

/**
 * What the heat of a chamber counts for. Never less for a warmer chamber, and never more for warming it up than that costs with
 * nothing lost: so neither cooling nor heating an empty chamber is ever a gain.
 */
export type HeatWorth = (oven: number, chamberC: number) => number;

/** Cost per kind that the day bakes, and oven; Infinity where it is never baked there. None below 0. */
export interface Tariff {
  readonly rates: Rates;
  readonly worth: HeatWorth;
  /** Less the worth of what it leaves in the chamber, plus that of what it found there. */
  readonly spent: ReadonlyMap<number, readonly number[]>;
  /** Plus the worth of what it found, whatever it leaves there. */
  readonly needed: ReadonlyMap<number, readonly number[]>;
}

/** Gas it takes to warm the empty chamber from the room to `chamberC`, kWh. */
export function storedKWh(cycle: ThermalCycle, ambientC: number, chamberC: number): number {
  return (cycle.heatCapacityKJPerK * Math.max(0, chamberC - ambientC)) / 3600 / cycle.efficiency;
}

/** Full fire under the empty chamber with nothing lost, purge aside. */
export function heatingCost({ perKWh, perMinute }: Rates, cycle: ThermalCycle, kelvin: number): number {
  return storedKWh(cycle, 0, kelvin) * (perKWh + (perMinute * 60) / cycle.burnerKW);
}

/** Heat counts as what made it. */
export function plainWorth({ request }: DayModel, rates: Rates): HeatWorth {
  return (oven, chamberC) => {
    const { cycle } = request.ovens[oven]!;
    return cycle.kind === "fixed" ? 0 : heatingCost(rates, cycle, Math.max(0, chamberC - request.ambientC));
  };
}

export function tariffOf(lone: LoneBakes, rates: Rates, worth: HeatWorth): Tariff {
  const { ovens } = lone.sets.day.request;
  const each = (weigh: (oven: number) => Weigh): Map<number, number[]> =>
    new Map(
      lone.kinds.map((kind) => [
        kind,
        ovens.map((_, oven) => closeLook(lone, kind, oven, lone.spans(kind, oven), weigh(oven)).cost),
      ]),
    );
  return {
    rates,
    worth,
    spent: each((oven) => spentBy(lone, rates, worth, oven)),
    needed: each((oven) => neededBy(lone, rates, worth, oven)),
  };
}

/** What a firing from a chamber of at least `coolC` costs. */
export type Weigh = (firing: LooseFiring, coolC: number) => number;

export function firingCost(
  { sets }: LoneBakes,
  { perKWh, perMinute }: Rates,
  oven: number,
): (one: LooseFiring) => number {
  const { loadMinutes, unloadMinutes } = sets.day.request.ovens[oven]!.cycle;
  return ({ gasKWh, closedMinutes }) => perKWh * gasKWh + perMinute * (loadMinutes + closedMinutes + unloadMinutes);
}

/**
 * The chamber counts as so warm when a lone bake is done, °C. Company gives heat back while the chamber coasts; what that is
 * worth took more gas before, but no more minutes. Where minutes count, a chamber is left as warm as the set-point and the door
 * allow.
 */
export function leftC({ sets }: LoneBakes, { perMinute }: Rates, oven: number): (one: LooseFiring) => number {
  const { ambientC, ovens } = sets.day.request;
  const { cycle } = ovens[oven]!;
  if (perMinute === 0 || cycle.kind === "fixed") return ({ hotC }) => hotC;
  const { doorLimitC, unloadMinutes } = cycle;
  return ({ hotC, setPointC }) =>
    Math.max(hotC, chamberAfterDoor(cycle, ambientC, Math.min(doorLimitC, setPointC), unloadMinutes));
}

export function spentBy(lone: LoneBakes, rates: Rates, worth: HeatWorth, oven: number): Weigh {
  const cost = firingCost(lone, rates, oven);
  const endsAt = leftC(lone, rates, oven);
  return (firing, coolC) => cost(firing) + worth(oven, coolC) - worth(oven, endsAt(firing));
}

function neededBy(lone: LoneBakes, rates: Rates, worth: HeatWorth, oven: number): Weigh {
  const cost = firingCost(lone, rates, oven);
  return (firing, coolC) => cost(firing) + worth(oven, coolC);
}

/**
 * The least over all chambers, and the spans that said so. What a span of chambers makes uncertain is what it holds between its
 * ends, so that the span with the least is halved until it is narrow.
 */
export function closeLook(
  lone: LoneBakes,
  kind: number,
  oven: number,
  from: readonly Span[],
  weigh: Weigh,
): { readonly cost: number; readonly spans: readonly Span[] } {
  const weighed = (span: Span): { readonly span: Span; readonly cost: number } => ({
    span,
    cost: Math.min(Infinity, ...span.firings.map((firing) => Math.max(0, weigh(firing, span.coolC)))),
  });
  const open = from.map(weighed);
  for (;;) {
    const at = open.reduce((best, { cost }, i) => (cost < (open[best]?.cost ?? Infinity) ? i : best), -1);
    const least = open[at];
    const halves = least === undefined || least.cost <= 0 ? [] : lone.halves(kind, oven, least.span);
    if (halves.length === 0) return { cost: least?.cost ?? Infinity, spans: open.map(({ span }) => span) };
    open.splice(at, 1, ...halves.map(weighed));
  }
}
