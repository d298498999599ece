/**
 * Told without simulating a firing: some members must get too hot in any firing that bakes the others. Pans of a load meet one
 * chamber, so that quick metal runs ahead of slow metal, and slow metal trails quick metal by no more than its lag.
 */
import type { ThermalCycle } from "../shop.ts";
import type { Member } from "./members.ts";
import { ratePerMinute } from "./load-heat.ts";

/** Rounding of tables and of the minutes before the door closes, K. */
export const HAIR_K = 0.5;

/**
 * True where no firing keeps every window of every member, whatever the chamber; false says nothing. A chamber that a cold load
 * pulls down far below where it was when the door closed may let quick metal soak in two pieces: that is not looked at.
 */
export function overbakesSome(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): boolean {
  return members.some((hot) => members.some((other) => other !== hot && overbakes(cycle, ambientC, hot, other)));
}

/** The same of two: `other` gets too hot in any firing that bakes `hot` with its least soak in one piece. */
export function overbakes(cycle: ThermalCycle, ambientC: number, hot: Member, other: Member): boolean {
  return spareK(cycle, ambientC, hot, other) < -HAIR_K;
}

/** So much cooler than it may be is `other` at most when it is hottest in a firing that bakes `hot`, K; below 0 it gets too hot. */
export function spareK(cycle: ThermalCycle, ambientC: number, hot: Member, other: Member): number {
  return other.highC - cycle.guardC - hottestAtLeastC(cycle, ambientC, hot, other);
}

/** The same of two on whichever of their shelves they stand; both lists name one pan, once per shelf. Empty ones say nothing. */
export function overbakesAnywhere(
  cycle: ThermalCycle,
  ambientC: number,
  hot: readonly Member[],
  other: readonly Member[],
): boolean {
  const isAnything = hot.length > 0 && other.length > 0;
  return isAnything && hot.every((one) => other.every((beside) => overbakes(cycle, ambientC, one, beside)));
}

/**
 * A temperature in °C that `other` reaches in any firing that soaks `hot` long enough. With rates k of the lumped equation
 * dT/dt = k·(air − T) from room temperature: where k of `other` is the higher one, T of `hot` is a weighted mean of what T of
 * `other` was until then. Else T of `other` is r·T of `hot` plus (1 − r) times a mean of what that was, r the ratio of the rates,
 * weighted by exp(−k·age): the soak gives 1 − exp(−k·soak) of it, and before it `hot` was no cooler than a room on its shelf. A
 * shelf cooler than that of `hot` takes off the difference at most.
 */
function hottestAtLeastC(cycle: ThermalCycle, ambientC: number, hot: Member, other: Member): number {
  const rate = ratePerMinute(cycle, other);
  const ratio = Math.min(1, rate / ratePerMinute(cycle, hot));
  const soaked = 1 - Math.exp(-rate * hot.soakLeastMinutes);
  const soakRise = hot.lowC + cycle.guardC - ambientC;
  const meanRise = soaked * soakRise + (1 - soaked) * Math.min(0, hot.offsetC);
  return ambientC + ratio * soakRise + (1 - ratio) * meanRise - Math.max(0, hot.offsetC - other.offsetC);
}
