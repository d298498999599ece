/** From burner off to unloading: the fan on, the heat off, until the door may open. */
import type { BurnRun } from "./burn-run.ts";
import { LONGEST_MINUTES, rowAt } from "./burn-run.ts";
import { glideMinute, peekMinute } from "./glide.ts";
import type { LoadHeat } from "./load-heat.ts";
import { coastedChamber } from "./load-heat.ts";
import { rowLength } from "./row.ts";

/** Rounding of a chamber that stands at the limit exactly, K. */
const TINY_K = 1e-9;

/**
 * The first whole minute from `notBefore` on at which the door may open after a burner off at `burnerOff`; Infinity where
 * the chamber stays too hot for a day. `guess`: minutes of coasting that may be about right.
 */
export function doorMinute(run: BurnRun, burnerOff: number, notBefore: number, guess: number): number {
  const { heat } = run.heatUp;
  const limit = heat.cycle.doorLimitC - heat.ambientC + TINY_K;
  const { rows, at } = rowAt(run, burnerOff);
  const least = Math.max(0, notBefore - burnerOff);
  let minutes = Math.max(guess, least);
  while (minutes > least && coastedChamber(heat, rows, at, minutes - 1) <= limit) minutes--;
  while (coastedChamber(heat, rows, at, minutes) > limit) {
    if (minutes >= LONGEST_MINUTES) return Infinity;
    minutes++;
  }
  return burnerOff + minutes;
}

let work = new Float64Array(64);

/** The row at `unload` after a burner off at `burnerOff`, at place 0 of the array given; overwritten by the next call. */
export function rowAtUnload(run: BurnRun, burnerOff: number, unload: number): Float64Array {
  const { heat } = run.heatUp;
  copyRow(heat, run, burnerOff);
  for (let minute = burnerOff; minute < unload; minute++) glideMinute(heat, heat.coast, work, 0, minute, 0);
  return work;
}

/** The same where only what the metal went through is asked: it stops where nothing can get into a window any more. */
export function talliesAtUnload(run: BurnRun, burnerOff: number, unload: number): Float64Array {
  const { heat } = run.heatUp;
  copyRow(heat, run, burnerOff);
  return talliesOn(heat, burnerOff, unload);
}

/** From the row that `talliesAtUnload` answered last, for unloading at `from`, on to a later unloading. */
export function talliesOn(heat: LoadHeat, from: number, unload: number): Float64Array {
  for (let minute = from; minute < unload && work[hottestNode(heat)]! >= heat.lowestLow; minute++)
    glideMinute(heat, heat.coast, work, 0, minute, 0);
  return work;
}

/** The same where only temperatures are asked, and the burner's heat. */
export function stateAtUnload(run: BurnRun, burnerOff: number, unload: number): Float64Array {
  const { heat } = run.heatUp;
  copyRow(heat, run, burnerOff);
  for (let minute = burnerOff; minute < unload; minute++) {
    const next = peekMinute(heat.coast, work, 0, 0);
    for (let node = 0; node <= heat.members.length; node++) work[node] = next[node]!;
  }
  return work;
}

/** Coasting, no node gets hotter than the hottest is. */
function hottestNode(heat: LoadHeat): number {
  let hottest = 0;
  for (let node = 1; node <= heat.members.length; node++) if (work[node]! > work[hottest]!) hottest = node;
  return hottest;
}

function copyRow(heat: LoadHeat, run: BurnRun, minute: number): void {
  const length = rowLength(heat.members.length);
  if (work.length < length) work = new Float64Array(2 * length);
  const { rows, at } = rowAt(run, minute);
  for (let index = 0; index < length; index++) work[index] = rows[at + index]!;
}
