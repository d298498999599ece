/** For one set-point: the earliest burner-off with which every window keeps, early and late ends included. */
import type { BurnRun } from "./burn-run.ts";
import { LONGEST_MINUTES, rowAt } from "./burn-run.ts";
import { doorMinute, talliesAtUnload } from "./coast.ts";
import { soakAt } from "./row.ts";
import { notOverbaked, peaksKept, soakLeft, soakToSpare } from "./windows.ts";

/** Whole minutes from door closing. */
export interface Timing {
  readonly burnerOff: number;
  readonly unload: number;
}

/** A firing that keeps every window. */
export interface SoundTiming extends Timing {
  /** Minutes above lowC that the member with fewest of them to spare has left at the late end. */
  readonly soakLeftLate: number;
}

/** What the last set-point's firing had, to begin the next search near its answer. */
export interface Guesses {
  /** Minutes from burner off to unloading, and how many of them the soak may do without the burner. */
  coastGuess: number;
  soakGuess: number;
}

interface Ask {
  readonly run: BurnRun;
  /** The door waits for people until then. */
  readonly unloadNotBefore: number;
  readonly guesses: Guesses;
}

/** Undefined where the burner cannot reach the set-point. */
export function firstBurnerOff(run: BurnRun): number | undefined {
  const { purgeMinutes } = run.heatUp.heat.cycle;
  if (run.startsAbove) return Math.ceil(purgeMinutes);
  return Number.isNaN(run.reachedAt) ? undefined : Math.ceil(run.reachedAt - TINY_MINUTES);
}

const TINY_MINUTES = 1e-9;

/** The quickest sound firing whose door opens at `unloadNotBefore` or later; undefined where none is. */
export function quickest(run: BurnRun, unloadNotBefore: number, guesses: Guesses): SoundTiming | undefined {
  const ask = { run, unloadNotBefore, guesses };
  const first = firstBurnerOff(ask.run);
  if (first === undefined || overbakedBy(ask.run, first)) return undefined;
  const falling = ask.run.startsAbove ? whileFalling(ask, first) : { next: first, found: undefined };
  if (falling.found !== undefined) return falling.found;
  const found = earliestSoaked(ask, falling.next);
  return found === undefined ? undefined : (soundLate(ask.run, found) ?? sparing(ask, found, falling.next));
}

/** As soon as the firing that overbakes, with the burner off sooner and the rest of the soak without it. */
function sparing(ask: Ask, { burnerOff, unload }: Timing, first: number): SoundTiming | undefined {
  if (burnerOff <= first) return undefined;
  const spared = earliestSoaked({ ...ask, unloadNotBefore: unload }, first);
  if (spared === undefined || spared.burnerOff >= burnerOff) return undefined;
  return soundLate(ask.run, spared);
}

/** Even with the door opened as the burner goes off: too long or too hot already. */
export function overbakedBy(run: BurnRun, burnerOff: number): boolean {
  const { heat } = run.heatUp;
  const { rows, at } = rowAt(run, burnerOff + heat.cycle.slackMinutes);
  return !notOverbaked(heat, rows, at);
}

/**
 * A chamber that falls to its set-point, or through it where the burner cannot hold it: a later burner-off is not always
 * more heat by the time the door opens, so each minute is tried until the chamber holds.
 */
function whileFalling(ask: Ask, first: number): { readonly next: number; readonly found: SoundTiming | undefined } {
  let found: SoundTiming | undefined;
  let minute = first;
  for (; minute <= first + LONGEST_FALL_MINUTES && minute < (found?.unload ?? Infinity); minute++) {
    const { rows, at } = rowAt(ask.run, minute);
    if (rows[at] === ask.run.setPoint || overbakedBy(ask.run, minute)) break;
    const timing = timed(ask, minute);
    if (timing === undefined || timing.unload >= (found?.unload ?? Infinity)) continue;
    const short = shortOfSoak(ask.run, timing);
    // Later, the door opens as soon after the burner or sooner, and no minute soaks by more than a minute.
    if (short > 0) minute += Math.ceil(short) - 1;
    else if (spareEarly(ask.run, timing) >= 0) found = soundLate(ask.run, timing) ?? found;
  }
  return { next: minute, found };
}

/** Minutes of soak missing at the early end even if all coasting were soak; none where negative. */
function shortOfSoak(run: BurnRun, { burnerOff, unload }: Timing): number {
  const { heat } = run.heatUp;
  const { rows, at } = rowAt(run, Math.max(0, burnerOff - heat.cycle.earlyMinutes));
  return burnerOff - unload - soakToSpare(heat, rows, at);
}

/** Nobody waits longer for an oven to fall to a cooler bake. */
const LONGEST_FALL_MINUTES = 240;

/** From `first` on, later is more heat: close in on the earliest burner-off that soaks enough at its early end. */
function earliestSoaked(ask: Ask, first: number): Timing | undefined {
  const last = soakedWithoutCoasting(ask.run, first);
  if (last === undefined) return undefined;
  const opens = timed(ask, last);
  let good = opens ?? lastThatOpens(ask, first, last);
  if (good === undefined) return undefined;
  let bad = first - 1;
  const guessed = opens !== undefined && ask.guesses.soakGuess >= 1;
  let spare = guessed ? ask.guesses.soakGuess : spareEarly(ask.run, good);
  if (spare < 0) return undefined;
  while (good.burnerOff - bad > 1) {
    // A minute of burner is about a minute of soak, so that the second or third probe is the answer.
    const probe: number =
      spare >= 0
        ? Math.max(bad + 1, good.burnerOff - Math.max(1, Math.floor(spare)))
        : Math.min(good.burnerOff - 1, bad + Math.ceil(-spare));
    const timing = timed(ask, probe);
    spare = timing === undefined ? -1 : spareEarly(ask.run, timing);
    if (timing !== undefined && spare >= 0) good = timing;
    else bad = probe;
  }
  ask.guesses.soakGuess = last - good.burnerOff;
  return good;
}

/** A chamber that only its load cools stays too hot after a later burner-off: the last after which the door does open. */
function lastThatOpens(ask: Ask, first: number, last: number): Timing | undefined {
  let opens = timed(ask, first);
  let shut = last;
  while (opens !== undefined && shut - opens.burnerOff > 1) {
    const middle = (opens.burnerOff + shut) >> 1;
    const timing = timed(ask, middle);
    if (timing === undefined) shut = middle;
    else opens = timing;
  }
  return opens;
}

/** A burner-off whose early end has soaked enough before any coasting; undefined where there is none. */
function soakedWithoutCoasting(run: BurnRun, first: number): number | undefined {
  const { heat } = run.heatUp;
  const early = heat.cycle.earlyMinutes;
  for (let burnerOff = first; burnerOff <= LONGEST_MINUTES; burnerOff++) {
    const minute = Math.max(0, burnerOff - early);
    const { rows, at } = rowAt(run, minute);
    const spare = soakToSpare(heat, rows, at);
    if (spare >= 0) return burnerOff;
    if ((run.startsAbove || minute > run.branch) && neverSoaks(run, rows, at)) return undefined;
    // No member gains more than a minute a minute.
    burnerOff += Math.max(0, Math.ceil(-spare) - 1);
  }
  return undefined;
}

/** A member that is short of soak and below its window, in a chamber that is and will stay below it. */
export function neverSoaks(run: BurnRun, rows: Float64Array, at: number): boolean {
  const { guardedNode, members } = run.heatUp.heat;
  const hottest = Math.max(rows[at]!, run.setPoint);
  for (let member = 0; member < guardedNode.length; member++) {
    const guarded = guardedNode[member]!;
    const below = hottest <= guarded && rows[at + 1 + member]! < guarded;
    if (below && rows[soakAt(at, members.length, member)]! < members[member]!.soakLeastMinutes) return true;
  }
  return false;
}

/** The door opened as soon as it may be. */
function timed(ask: Ask, burnerOff: number): Timing | undefined {
  const unload = doorMinute(ask.run, burnerOff, ask.unloadNotBefore, ask.guesses.coastGuess);
  if (unload === Infinity) return undefined;
  ask.guesses.coastGuess = Math.max(0, unload - burnerOff);
  return { burnerOff, unload };
}

function spareEarly(run: BurnRun, timing: Timing): number {
  const { heat } = run.heatUp;
  const burnerOff = Math.max(0, timing.burnerOff - heat.cycle.earlyMinutes);
  const unload = Math.max(burnerOff, timing.unload - heat.cycle.earlyMinutes);
  return soakToSpare(heat, talliesAtUnload(run, burnerOff, unload), 0);
}

function soundLate(run: BurnRun, timing: Timing): SoundTiming | undefined {
  const { burnerOff, unload } = timing;
  const soakLeftLate = leftLate(run, timing, run.heatUp.heat.cycle.slackMinutes);
  if (run.startsAbove && !keepsThroughout(run, timing)) return undefined;
  return soakLeftLate >= 0 ? { burnerOff, unload, soakLeftLate } : undefined;
}

/** In a falling chamber the two ends do not vouch for what lies between. */
function keepsThroughout(run: BurnRun, { burnerOff, unload }: Timing): boolean {
  const { heat } = run.heatUp;
  const { earlyMinutes, slackMinutes } = heat.cycle;
  for (let shift = -Math.min(earlyMinutes, burnerOff); shift <= slackMinutes; shift++) {
    const rows = talliesAtUnload(run, burnerOff + shift, unload + shift);
    if (soakToSpare(heat, rows, 0) < 0 || !notOverbaked(heat, rows, 0)) return false;
  }
  return true;
}

/** Minutes above lowC left when everything happens `minutes` later; negative too where metal gets too hot. */
function leftLate(run: BurnRun, { burnerOff, unload }: Timing, minutes: number): number {
  const { heat } = run.heatUp;
  const late = talliesAtUnload(run, burnerOff + minutes, unload + minutes);
  return peaksKept(heat, late, 0) ? soakLeft(heat, late, 0) : -1;
}

/** More slack than this makes no difference to anyone. */
const MOST_SLACK = 60;

/** Whole minutes, at most 60, that a sound firing could run later; at least the cycle's own slack. */
export function slackOf(run: BurnRun, timing: SoundTiming): number {
  const { slackMinutes } = run.heatUp.heat.cycle;
  let good = slackMinutes;
  const hoped = slackMinutes + Math.floor(timing.soakLeftLate);
  // Where a minute more is a minute more above lowC, hope is also the limit.
  let bad = everyMinuteCounts(run, timing.burnerOff + slackMinutes) ? Math.min(hoped, MOST_SLACK) + 1 : MOST_SLACK + 1;
  let probe = Math.min(hoped, MOST_SLACK);
  while (bad - good > 1) {
    if (probe > good) {
      if (leftLate(run, timing, probe) >= 0) good = probe;
      else bad = probe;
    }
    probe = good === probe ? good + 1 : (good + bad) >> 1;
  }
  return good;
}

/** With the chamber at its set-point and all metal above lowC, a later burner-off only adds. */
function everyMinuteCounts(run: BurnRun, burnerOff: number): boolean {
  if (run.startsAbove) return false;
  const { lowNode } = run.heatUp.heat;
  const { rows, at } = rowAt(run, burnerOff);
  return lowNode.every((low, member) => rows[at + 1 + member]! >= low);
}
