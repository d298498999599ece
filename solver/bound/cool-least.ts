/** How soon after it got into its window a pan can be cool enough to handle, in the oven or out of it, in any company. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import { minutesToHandle } from "../heat/cooling.ts";
import type { ThermalCycle } from "../shop.ts";

/** Minutes from door closing at which the metal got to `guardedC`, and how much longer it has to stay there at least. */
export interface Entry {
  readonly reached: number;
  readonly waits: number;
  readonly guardedC: number;
}

const STEP_MINUTES = 0.1;

/**
 * From the window's entry to the hand, unloading not counted: the best moment to take the pan out of an oven that cools as
 * fast as one can. At the entry the chamber is at least as warm as the metal. Cold company takes from it no more than its
 * share of all heat capacity: a hub that loses nothing stays above the mean of what it mixes with (return probability of
 * a reversible walk), and its losses slow to no less than exp(−loss·t/C).
 */
export function minutesToHand(
  day: DayModel,
  kind: BakeKind,
  ovenIndex: number,
  cycle: ThermalCycle,
  { reached, waits, guardedC }: Entry,
): number {
  const { ambientC, booth, ovens } = day.request;
  const { space } = ovens[ovenIndex]!;
  const offsetsC = space.kind === "shelves" ? space.shelves.map((shelf) => shelf.offsetC) : [0];
  const highest = Math.max(0, ...offsetsC);
  const lowest = Math.min(0, ...offsetsC);
  // A pan that was in its window when the door closed met that air at the middle of loading at the latest.
  const sinceEntered = reached > 0 ? 0 : cycle.loadMinutes / 2 / cycle.doorTauMinutes;
  const atEntry = Math.max(0, guardedC - highest - ambientC) * Math.exp(-sinceEntered);
  const hub = (atEntry * cycle.heatCapacityKJPerK) / (cycle.heatCapacityKJPerK + companyKJPerK(day, ovenIndex));
  const lossWPerK = cycle.wallLossWPerK + Math.max(cycle.exhaustWPerK, cycle.coastExhaustWPerK);
  const fall = (60 * lossWPerK) / (1000 * cycle.heatCapacityKJPerK);
  const decay = Math.exp((-60 * cycle.filmWPerM2K * kind.body.exchangeM2 * STEP_MINUTES) / kind.body.heatJPerK);
  let metal = guardedC - ambientC;
  let best = Infinity;
  for (let minute = waits; minute < best; minute += STEP_MINUTES) {
    const outside = minutesToHandle(kind.body, metal + ambientC, ambientC, booth.handleAtC, booth.coolFilmWPerM2K);
    best = Math.min(best, minute + outside);
    // The end of a step is its coolest instant; a door opens after any part of the step, so that the step is given away.
    const air = hub * Math.exp(-fall * (minute + STEP_MINUTES)) - highest + lowest;
    metal = Math.min(metal, air + (metal - air) * decay);
    if (outside === 0) break;
  }
  return Math.max(waits, best - STEP_MINUTES);
}

/** All pans an oven may hold, or all there are. */
function companyKJPerK(day: DayModel, oven: number): number {
  const kinds = day.kinds.filter((kind) => kind.ovens.includes(oven));
  const all = day.pans.reduce((sum, pan) => sum + day.request.lines[pan.line]!.massKg, 0);
  const kg = Math.min(all, day.request.ovens[oven]!.maxLoadKg);
  return (kg * Math.max(...kinds.map(({ line }) => line.specificHeatJPerKgK))) / 1000;
}
