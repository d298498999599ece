/**
 * The quickest firing of one pan alone that keeps every window: least minutes from door closing to door opening over
 * all shelves, set-points and burner-off minutes, and of equally quick ones the one with the least gas.
 */
import type { DayCoat } from "../contract/day.ts";
import type { Window } from "./cure-window.ts";
import { windowOf } from "./cure-window.ts";
import type { Line } from "./day-view.ts";
import { coasted, decayed, loaded } from "./firing.ts";
import { advance } from "./integrate.ts";
import type { Metal, Run, ThermalCycle } from "./oven.ts";
import { chamberC, chamberOf, copyRun, gasKWh, metalC } from "./oven.ts";
import { metalOf } from "./oven-history.ts";

export interface QuickFiring {
  /** Whole minutes from door closing to door opening. */
  readonly minutes: number;
  readonly gasKWh: number;
  readonly chamberDoneC: number;
}

export interface LonePan {
  readonly cycle: ThermalCycle;
  readonly ambientC: number;
  readonly line: Line;
  readonly coat: DayCoat;
  /** Offsets of the shelves it may stand on, °C. */
  readonly offsetsC: readonly number[];
}

const stepSeconds = 15;
const longestMinutes = 24 * 60;

/** Undefined where no firing from that chamber temperature keeps the windows. */
export function quickestFiring(pan: LonePan, chamberStartC: number): QuickFiring | undefined {
  const window = windowOf(pan.line, pan.coat, pan.cycle);
  if (window === undefined) return undefined;
  let best: QuickFiring | undefined;
  for (const offsetC of new Set(pan.offsetsC)) {
    const metal = metalOf(pan.line, pan.coat, pan.cycle, offsetC);
    const rise = fullFireFrom(pan, metal, chamberStartC);
    for (const setPointC of setPoints(pan.cycle, metal, rise)) {
      const burn = burnTo(rise, setPointC, best?.minutes ?? longestMinutes);
      if (burn === undefined) break;
      best = quickestBurn({ pan, metal, window, burn }, best);
    }
  }
  return best;
}

/** A pan under full fire: the runs at burner on and at every whole minute after it, grown as asked for. */
interface Rise {
  readonly burnerOnMinute: number;
  readonly runs: Run[];
}

function fullFireFrom(pan: LonePan, metal: Metal, chamberStartC: number): Rise {
  const chamber = chamberOf(pan.cycle, pan.ambientC, [metal], stepSeconds);
  const run = loaded(chamber, chamberStartC, pan.cycle.loadMinutes);
  advance(run, { kind: "purge" }, pan.cycle.purgeMinutes * 60);
  return { burnerOnMinute: pan.cycle.purgeMinutes, runs: [run] };
}

/** Multiples of the step, from the first that can bring the metal into its window. */
function setPoints(cycle: ThermalCycle, metal: Metal, rise: Rise): number[] {
  const startsAt = rise.runs[0];
  const alreadyHot = startsAt !== undefined && chamberC(startsAt) > metal.guardedLowC - metal.offsetC;
  const lowest = alreadyHot ? cycle.setPointStepC : metal.guardedLowC - metal.offsetC;
  const first = Math.ceil(lowest / cycle.setPointStepC - 1e-9);
  const last = Math.floor(cycle.setPointMaxC / cycle.setPointStepC + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * cycle.setPointStepC);
}

/** A burn to one set-point: the run at any whole minute, and the first minute at which the burner may go off. */
interface Burn {
  readonly firstOffMinute: number;
  readonly at: (minute: number) => Run;
}

/** Undefined where the chamber gets there only after `withinMinutes`, or never. */
function burnTo(rise: Rise, setPointC: number, withinMinutes: number): Burn | undefined {
  const { runs, burnerOnMinute } = rise;
  const firstWhole = Math.floor(burnerOnMinute) + 1;
  const phase = { kind: "burn", setPointC } as const;
  let below = 0;
  for (; ; below++) {
    const next = runs[below + 1] ?? grow(rise, firstWhole + below);
    if (chamberC(next) >= setPointC || isAbove(runs[0], setPointC)) break;
    if (firstWhole + below > withinMinutes) return undefined;
  }
  const own: Run[] = [];
  const at = (minute: number): Run => {
    const index = minute < firstWhole ? 0 : minute - firstWhole + 1;
    const risen = runs[index];
    if (index <= below && risen !== undefined) return risen;
    while (own.length < index - below) {
      const next = copyRun(own.at(-1) ?? runs[below] ?? runs[0]!);
      advance(next, phase, (firstWhole + below + own.length) * 60);
      own.push(next);
    }
    return own[index - below - 1]!;
  };
  const reachedMinute = isAbove(runs[0], setPointC) ? Math.ceil(burnerOnMinute - 1e-9) : firstWhole + below;
  return { firstOffMinute: reachedMinute, at };
}

function isAbove(run: Run | undefined, setPointC: number): boolean {
  return run !== undefined && chamberC(run) >= setPointC;
}

function grow(rise: Rise, minute: number): Run {
  const next = copyRun(rise.runs.at(-1)!);
  advance(next, { kind: "burn", setPointC: Infinity }, minute * 60);
  rise.runs.push(next);
  return next;
}

interface Search {
  readonly pan: LonePan;
  readonly metal: Metal;
  readonly window: Window;
  readonly burn: Burn;
}

function quickestBurn(search: Search, known: QuickFiring | undefined): QuickFiring | undefined {
  const { pan, window, burn } = search;
  const { cycle } = pan;
  let best = known;
  for (let off = burn.firstOffMinute; off <= (best?.minutes ?? longestMinutes); off++) {
    const late = burn.at(off + cycle.slackMinutes);
    if (!keepsLateEnd(late, window)) break;
    const soaking = coastUntilSoaked(search, off);
    if (soaking === undefined) continue;
    const opened = coastUntilDoor(search, off, soaking, best?.minutes ?? longestMinutes);
    if (opened === undefined) continue;
    const coast = opened.minute - off;
    if (!keepsLateEnd(coasted(late, off + cycle.slackMinutes + coast), window)) continue;
    const gas = gasKWh(burn.at(off));
    if (best !== undefined && (opened.minute > best.minutes || (opened.minute === best.minutes && gas >= best.gasKWh)))
      continue;
    const chamberDoneC = decayed(pan.ambientC, chamberC(opened.run), cycle.unloadMinutes / cycle.doorTauMinutes);
    best = { minutes: opened.minute, gasKWh: gas, chamberDoneC };
  }
  return best;
}

function keepsLateEnd(run: Run, window: Window): boolean {
  return (run.soak[0] ?? 0) <= window.soakMostMinutes * 60 && (run.peakC[0] ?? 0) <= window.peakMostC;
}

/** Minutes of coasting until the early end has soaked enough; undefined where the metal falls out of its window first. */
function coastUntilSoaked({ pan, metal, window, burn }: Search, off: number): number | undefined {
  const early = off - pan.cycle.earlyMinutes;
  let run = burn.at(early);
  const from = Math.max(early, run.seconds / 60);
  for (let minutes = 0; minutes < longestMinutes; minutes++) {
    if ((run.guardedSoak[0] ?? 0) >= window.soakLeastMinutes * 60) return minutes;
    const before = metalC(run, 0);
    run = coasted(run, Math.max(from, early + minutes + 1));
    if (metalC(run, 0) < metal.guardedLowC && metalC(run, 0) < before) {
      return (run.guardedSoak[0] ?? 0) >= window.soakLeastMinutes * 60 ? minutes + 1 : undefined;
    }
  }
  return undefined;
}

/** The first whole minute after `soaking` minutes of coasting at which the door may open; undefined after `withinMinutes`. */
function coastUntilDoor(
  { pan, burn }: Search,
  off: number,
  soaking: number,
  withinMinutes: number,
): { readonly minute: number; readonly run: Run } | undefined {
  let run = coasted(burn.at(off), off + soaking);
  for (let minute = off + soaking; minute <= withinMinutes; minute++) {
    if (chamberC(run) <= pan.cycle.doorLimitC) return { minute, run };
    run = coasted(run, minute + 1);
  }
  return undefined;
}
