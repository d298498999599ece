/** Which firings bake a load soundly: stage 2 asks whether any does, the sequence asks for all worth choosing from. */

import type { ThermalCycle } from "../shop.ts";
import type { BurnRun } from "./burn-run.ts";
import { burnRun, fallsAlike, heatUp, LONGEST_MINUTES } from "./burn-run.ts";
import { chamberAfterDoor } from "./chamber.ts";
import { stateAtUnload } from "./coast.ts";
import type { LoadHeat } from "./load-heat.ts";
import { loadHeat } from "./load-heat.ts";
import type { Member } from "./members.ts";
import type { SoundTiming } from "./quickest.ts";
import { firstBurnerOff, overbakedBy, quickest, slackOf } from "./quickest.ts";
import { gasKWh, metalC, rounded } from "./row.ts";

/** A firing that keeps every window of every member. Whole minutes from door closing; gas in kWh gross. */
export interface FiringOption {
  readonly setPointC: number;
  readonly burnerOffMinutes: number;
  readonly unloadMinutes: number;
  readonly gasKWh: number;
  readonly chamberAtDoneC: number;
  /** Per member, in their order. */
  readonly metalAtUnloadC: readonly number[];
  /** How many whole minutes later the burner could go off with every window kept, 60 at most. */
  readonly slackMinutes: number;
}

/**
 * For every set-point (a multiple of the step within `limit`) the quickest firing that keeps every window of every
 * member, from earlyMinutes before to slackMinutes after, unloaded at the first whole minute the door may open. Quickest
 * first, then least gas; without those that another beats in both and leaves the chamber within `limit.alikeChamberK` of.
 */
export function firingOptions(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  limit: SetPointLimit = {},
): FiringOption[] {
  const options: FiringOption[] = [];
  for (const { run, setPointC, timing } of soundFirings(cycle, ambientC, members, chamberAtOpenC, limit))
    options.push(optionOf(run, setPointC, timing));
  return undominated(options.sort(quickerFirst), limit.alikeChamberK ?? ALIKE_CHAMBER_K);
}

/** Whether there is any such firing. */
export function isFireable(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  limit: SetPointLimit = {},
): boolean {
  return soundFirings(cycle, ambientC, members, chamberAtOpenC, limit).next().done !== true;
}

interface SoundFiring {
  readonly run: BurnRun;
  readonly setPointC: number;
  readonly timing: SoundTiming;
}

/** Per set-point its quickest firing, lowest set-point first; see `firingOptions`. */
function* soundFirings(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  limit: SetPointLimit,
): Generator<SoundFiring, void> {
  const heat = loadHeat(cycle, ambientC, members);
  const up = heatUp(heat, chamberAtOpenC);
  const guesses = { coastGuess: 0, soakGuess: 0 };
  let before: BurnRun | undefined;
  for (const setPointC of setPoints(heat, chamberAtOpenC, limit)) {
    // The lower set-point had the same firing, or none.
    if (before !== undefined && fallsAlike(before, setPointC - ambientC)) continue;
    const run = burnRun(up, setPointC - ambientC, LONGEST_MINUTES);
    const first = firstBurnerOff(run);
    // Higher set-points take longer to reach and overbake sooner.
    if (first === undefined || (overbakedBy(run, first) && !run.startsAbove)) break;
    before = run;
    const timing = quickest(run, 0, guesses);
    if (timing !== undefined) yield { run, setPointC, timing };
  }
}

/** Set-points in °C, both ends included. */
export interface SetPointLimit {
  readonly lowSetPointC?: number;
  readonly highSetPointC?: number;
  /** Default: the cycle's own. */
  readonly setPointStepC?: number;
  /** Firings that leave the chamber so near each other are worth one choice, K. Default 5. */
  readonly alikeChamberK?: number;
}

/**
 * The firing at one set-point with the earliest burner-off among those unloaded at the first whole minute from
 * `unloadNotBefore` (minutes from door closing) on at which the door may open, and that keep every window. Undefined
 * where none does.
 */
export function firingUnloadedFrom(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  setPointC: number,
  unloadNotBefore: number,
): FiringOption | undefined {
  const heat = loadHeat(cycle, ambientC, members);
  const run = burnRun(heatUp(heat, chamberAtOpenC), setPointC - ambientC, LONGEST_MINUTES);
  const timing = quickest(run, Math.ceil(unloadNotBefore), { coastGuess: 0, soakGuess: 0 });
  return timing === undefined ? undefined : optionOf(run, setPointC, timing);
}

/** Set-points at which every member could get into its window, lowest first. */
function setPoints(heat: LoadHeat, chamberAtOpenC: number, limit: SetPointLimit): number[] {
  const { cycle, ambientC } = heat;
  const step = limit.setPointStepC ?? cycle.setPointStepC;
  const highC = Math.min(cycle.setPointMaxC, limit.highSetPointC ?? Infinity);
  let lowC = Math.max(ambientC, limit.lowSetPointC ?? -Infinity);
  const neededC = heat.guardedNode.reduce((most, node) => Math.max(most, node + ambientC), -Infinity);
  // Metal never gets hotter than its shelf's air has been.
  if (chamberAtOpenC <= neededC) lowC = Math.max(lowC, neededC);
  const found: number[] = [];
  for (let index = Math.ceil(lowC / step - TINY); index * step <= highC + TINY; index++) found.push(index * step);
  return found;
}

const TINY = 1e-9;

function optionOf(run: BurnRun, setPointC: number, timing: SoundTiming): FiringOption {
  const { heat } = run.heatUp;
  const { cycle, ambientC, members } = heat;
  const slackMinutes = slackOf(run, timing);
  const rows = stateAtUnload(run, timing.burnerOff, timing.unload);
  return {
    setPointC,
    burnerOffMinutes: timing.burnerOff,
    unloadMinutes: timing.unload,
    gasKWh: gasKWh(heat, rows, 0),
    chamberAtDoneC: chamberAfterDoor(cycle, ambientC, rounded(ambientC + rows[0]!), cycle.unloadMinutes),
    metalAtUnloadC: members.map((_, member) => metalC(heat, member, rows[1 + member]!)),
    slackMinutes,
  };
}

function quickerFirst(one: FiringOption, other: FiringOption): number {
  return one.unloadMinutes - other.unloadMinutes || one.gasKWh - other.gasKWh || one.setPointC - other.setPointC;
}

/** Of `SetPointLimit.alikeChamberK`. */
const ALIKE_CHAMBER_K = 5;

function undominated(options: readonly FiringOption[], alikeChamberK: number): FiringOption[] {
  const kept: FiringOption[] = [];
  for (const option of options) {
    const beaten = kept.some(
      (better) =>
        better.gasKWh <= option.gasKWh && Math.abs(better.chamberAtDoneC - option.chamberAtDoneC) <= alikeChamberK,
    );
    if (!beaten) kept.push(option);
  }
  return kept;
}
