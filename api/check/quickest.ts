/**
 * The quickest firing of one pan alone that keeps every window: least minutes from door closing to door opening over
 * all shelves, set-points and burner-off minutes. Of equally quick ones either the one with the least gas may be asked
 * for, or the one that coasts least (and of those the one with the least gas): the definition of the habits leaves that
 * open, and where doors may open hot the two lie a few percent apart.
 */
import type { DayCoat } from "../contract/day.ts";
import type { Window } from "./cure-window.ts";
import { arrivalMinutes, windowOf } from "./cure-window.ts";
import type { Line } from "./day-view.ts";
import { tolerance } from "./fault.ts";
import { coasted, decayed } from "./firing.ts";
import { advance } from "./integrate.ts";
import type { Burn } from "./lone-burn.ts";
import { burnTo, fallingSetPoints, fullFireFrom, risingSetPoints } from "./lone-burn.ts";
import type { Metal, Run, ThermalCycle } from "./oven.ts";
import { chamberC, copyRun, firstInAt, gasKWh, guardedSoakAt, metalC, peakAt, soakAt } from "./oven.ts";
import { metalOf } from "./oven-history.ts";

export interface QuickFiring {
  readonly setPointC: number;
  readonly offsetC: number;
  readonly burnerOffMinute: number;
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
  readonly ofEquallyQuick: Preference;
  readonly reading: Reading;
}

export type Preference = "least gas" | "least coasting";

/** Windows and the door's limit as they are, or by as much as two integrations may lie apart easier or harder to keep. */
export type Reading = "as is" | "easier" | "harder";

const spared = { "as is": 0, easier: 1, harder: -1 } as const satisfies Record<Reading, number>;

const longestMinutes = 24 * 60;

/** Undefined where no firing from that chamber temperature keeps the windows. */
export function quickestFiring(asked: LonePan, chamberStartC: number): QuickFiring | undefined {
  const stated = windowOf(asked.line, asked.coat, asked.cycle);
  if (stated === undefined) return undefined;
  const { pan, window } = readAs(asked, stated);
  let best: QuickFiring | undefined;
  for (const offsetC of new Set(pan.offsetsC)) {
    const metal = metalOf(pan.line, pan.coat, pan.cycle, offsetC);
    const rise = fullFireFrom(pan.cycle, pan.ambientC, metal, chamberStartC);
    for (const setPointC of risingSetPoints(pan.cycle, metal, rise)) {
      const burn = burnTo(rise, setPointC, best?.minutes ?? longestMinutes);
      if (burn === undefined) break;
      best = quickestBurn({ pan, metal, window, burn }, best);
    }
    for (const setPointC of fallingSetPoints(pan.cycle, metal, rise)) {
      const burn = burnTo(rise, setPointC, longestMinutes);
      if (burn === undefined) break;
      best = quickestBurn({ pan, metal, window, burn }, best);
      // Nothing that was looked at had fallen to this set-point, so a lower one makes no difference.
      if (chamberC(burn.furthest()) > setPointC + 1e-6) break;
    }
  }
  return best;
}

function readAs(pan: LonePan, stated: Window): { readonly pan: LonePan; readonly window: Window } {
  const spare = spared[pan.reading];
  const { soakMinutes, temperatureC } = tolerance;
  const window = {
    ...stated,
    soakLeastMinutes: Math.max(arrivalMinutes, stated.soakLeastMinutes - spare * soakMinutes),
    soakMostMinutes: stated.soakMostMinutes + spare * soakMinutes,
    peakMostC: stated.peakMostC + spare * temperatureC,
  };
  return {
    window,
    pan: { ...pan, cycle: { ...pan.cycle, doorLimitC: pan.cycle.doorLimitC + spare * temperatureC } },
  };
}

interface Search {
  readonly pan: LonePan;
  readonly metal: Metal;
  readonly window: Window;
  readonly burn: Burn;
}

function quickestBurn(search: Search, known: QuickFiring | undefined): QuickFiring | undefined {
  const { pan, metal, window, burn } = search;
  const { cycle } = pan;
  let best = known;
  if (soonestSoaked(search, best?.minutes ?? longestMinutes) === undefined) return best;
  for (let off = burn.firstOffMinute; off <= (best?.minutes ?? longestMinutes); off++) {
    const late = burn.at(off + cycle.slackMinutes);
    if (!keepsLateEnd(late, window)) break;
    const soaking = coastUntilSoaked(search, off);
    if (soaking === undefined) continue;
    const opened = coastUntilDoor(search, off, soaking, best?.minutes ?? longestMinutes);
    if (opened === undefined) continue;
    const coast = opened.minute - off;
    if (!keepsLateEnd(coasted(late, off + cycle.slackMinutes + coast), window)) continue;
    const chamberDoneC = decayed(pan.ambientC, chamberC(opened.run), cycle.unloadMinutes / cycle.doorTauMinutes);
    const found = {
      setPointC: burn.setPointC,
      offsetC: metal.offsetC,
      burnerOffMinute: off,
      minutes: opened.minute,
      gasKWh: gasKWh(burn.at(off)),
      chamberDoneC,
    };
    if (best === undefined || isBetter(best, found, pan.ofEquallyQuick)) best = found;
  }
  return best;
}

function isBetter(best: QuickFiring, other: QuickFiring, preference: Preference): boolean {
  if (other.minutes !== best.minutes) return other.minutes < best.minutes;
  const later = other.burnerOffMinute - best.burnerOffMinute;
  if (preference === "least coasting" && later !== 0) return later > 0;
  return other.gasKWh < best.gasKWh;
}

/** The soonest minute with soak enough had the burner never gone off; undefined where it is not within `withinMinutes`. */
function soonestSoaked({ pan, window, burn }: Search, withinMinutes: number): number | undefined {
  for (let minute = burn.firstOffMinute; minute <= withinMinutes; minute++) {
    const run = burn.at(minute);
    const enteredSecond = run.tally[firstInAt(0)] ?? Number.NaN;
    if (Number.isNaN(enteredSecond)) {
      if (minute > burn.firstOffMinute && !(metalC(run, 0) > metalC(burn.at(minute - 1), 0) + 0.01)) return undefined;
      continue;
    }
    const soonest = enteredSecond / 60 + window.soakLeastMinutes + pan.cycle.earlyMinutes;
    return soonest <= withinMinutes + 0.01 ? soonest : undefined;
  }
  return undefined;
}

function keepsLateEnd(run: Run, window: Window): boolean {
  return (run.tally[soakAt(0)] ?? 0) <= window.soakMostMinutes * 60 && (run.tally[peakAt(0)] ?? 0) <= window.peakMostC;
}

/** Minutes of coasting until the early end has soaked enough; undefined where the metal falls out of its window first. */
function coastUntilSoaked({ pan, metal, window, burn }: Search, off: number): number | undefined {
  const early = off - pan.cycle.earlyMinutes;
  const run = copyRun(burn.at(early));
  const from = Math.max(early, run.seconds / 60);
  for (let minutes = 0; minutes < longestMinutes; minutes++) {
    if (hasSoaked(run, window)) return minutes;
    const before = metalC(run, 0);
    advance(run, { kind: "coast" }, Math.max(from, early + minutes + 1) * 60);
    const falls = metalC(run, 0) < metal.guardedLowC && metalC(run, 0) < before;
    if (falls) return hasSoaked(run, window) ? minutes + 1 : undefined;
  }
  return undefined;
}

function hasSoaked(run: Run, window: Window): boolean {
  return (run.tally[guardedSoakAt(0)] ?? 0) >= window.soakLeastMinutes * 60;
}

/** The first whole minute after `soaking` minutes of coasting at which the door may open; undefined after `withinMinutes`. */
function coastUntilDoor(
  { pan, burn }: Search,
  off: number,
  soaking: number,
  withinMinutes: number,
): { readonly minute: number; readonly run: Run } | undefined {
  if (off + soaking > withinMinutes) return undefined;
  const run = coasted(burn.at(off), off + soaking);
  for (let minute = off + soaking; minute <= withinMinutes; minute++) {
    if (chamberC(run) <= pan.cycle.doorLimitC) return { minute, run };
    advance(run, { kind: "coast" }, (minute + 1) * 60);
  }
  return undefined;
}
