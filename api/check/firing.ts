/** One firing followed from its door opening to its door shut again, and how it would go with the burner off at another minute. */
import type { Chamber, Metal, Run, ThermalCycle } from "./oven.ts";
import {
  chamberC,
  chamberOf,
  copyRun,
  firstInAt,
  gasKWh,
  guardedSoakAt,
  metalC,
  peakAt,
  soakAt,
  startRun,
} from "./oven.ts";
import { advance } from "./integrate.ts";

/** The decided minutes, counted from the door closing; a firing without door work has loadMinutes and unloadMinutes 0. */
export interface FiringTimes {
  readonly loadMinutes: number;
  readonly burnerOnMinute: number;
  readonly burnerOffMinute: number;
  readonly unloadMinute: number;
  readonly unloadMinutes: number;
  readonly setPointC: number;
}

/** What the pans of the load went through between door closing and door opening. */
export interface Outcome {
  readonly guardedSoakMinutes: readonly number[];
  readonly soakMinutes: readonly number[];
  readonly peakC: readonly number[];
  readonly unloadMetalC: readonly number[];
  readonly unloadChamberC: number;
}

export interface Trace {
  readonly times: FiringTimes;
  readonly chamberStartC: number;
  /** Minute from door closing at which the chamber first met the set-point; null where it never did. */
  readonly reachedMinute: number | null;
  readonly burnerOnChamberC: number;
  readonly hottestBurningC: number;
  /** Minutes of burning with the chamber no more than half a degree below the set-point. */
  readonly heldMinutes: number;
  readonly gasKWh: number;
  readonly nominal: Outcome;
  /** Minute of first reaching metalLowC + guardC, per pan; null where it never does. */
  readonly inWindowMinutes: readonly (number | null)[];
  /** Chamber, then each pan, at every whole minute from door closing to unloading. */
  readonly minuteStates: readonly Float64Array[];
  readonly chamberDoneC: number;
  /** The same firing with the burner off, and all after it, this many minutes later (negative: earlier). */
  readonly shifted: (minutes: number) => Outcome;
}

/** Longer firings are no firings; the limit keeps a spoiled file from running for ever. */
const longestMinutes = 3 * 24 * 60;

export function firingCanBeFollowed(times: FiringTimes): boolean {
  const { burnerOnMinute, burnerOffMinute, unloadMinute } = times;
  const ordered = 0 <= burnerOnMinute && burnerOnMinute <= burnerOffMinute && burnerOffMinute <= unloadMinute;
  return ordered && unloadMinute <= longestMinutes && Number.isFinite(times.setPointC);
}

/** Follows a firing for which `firingCanBeFollowed` holds. */
export function followFiring(
  oven: { readonly cycle: ThermalCycle; readonly ambientC: number; readonly stepSeconds: number },
  metals: readonly Metal[],
  times: FiringTimes,
  chamberStartC: number,
): Trace {
  const chamber = chamberOf(oven.cycle, oven.ambientC, metals, oven.stepSeconds);
  const run = loaded(chamber, chamberStartC, times.loadMinutes);
  const minuteStates: Float64Array[] = [run.state.slice(0, -1)];
  const note = (): number => minuteStates.push(run.state.slice(0, -1));
  minuteByMinute(run, { kind: "purge" }, times.burnerOnMinute, note);
  const burnerOnChamberC = chamberC(run);
  const burning: Run[] = [copyRun(run)];
  const burn = { kind: "burn", setPointC: times.setPointC } as const;
  minuteByMinute(run, burn, times.burnerOffMinute, () => {
    note();
    burning.push(copyRun(run));
  });
  const off = copyRun(run);
  minuteByMinute(run, { kind: "coast" }, times.unloadMinute, note);
  const shifted = shiftedFrom({ burning, off, times });
  return {
    times,
    chamberStartC,
    reachedMinute: Number.isNaN(off.reachedAt) ? null : off.reachedAt / 60,
    burnerOnChamberC,
    hottestBurningC: off.hottestBurningC,
    heldMinutes: off.heldSeconds / 60,
    gasKWh: gasKWh(off),
    nominal: outcomeOf(run),
    inWindowMinutes: tallied(run, firstInAt).map((second) => (Number.isNaN(second) ? null : second / 60)),
    minuteStates,
    chamberDoneC: decayed(chamber.ambientC, chamberC(run), times.unloadMinutes / oven.cycle.doorTauMinutes),
    shifted,
  };
}

/** The door has just closed: the chamber fell while it stood open, the pans came in half-way. */
export function loaded(chamber: Chamber, chamberStartC: number, loadMinutes: number): Run {
  const half = (loadMinutes * 60) / 2;
  const enteredC = decayed(chamber.ambientC, chamberStartC, half / chamber.doorTauSeconds);
  const run = startRun(chamber, enteredC, -half);
  advance(run, { kind: "door" }, 0);
  return run;
}

/** Burner off now: fan on until `untilMinute`. Leaves `run` alone. */
export function coasted(run: Run, untilMinute: number): Run {
  const copy = copyRun(run);
  advance(copy, { kind: "coast" }, untilMinute * 60);
  return copy;
}

/** First-order decay towards the room over a number of time constants. */
export function decayed(ambientC: number, fromC: number, timeConstants: number): number {
  return timeConstants === 0 ? fromC : ambientC + (fromC - ambientC) * Math.exp(-timeConstants);
}

function minuteByMinute(
  run: Run,
  phase: Parameters<typeof advance>[1],
  untilMinute: number,
  onMinute: () => void,
): void {
  for (let minute = Math.floor(run.seconds / 60 + 1e-9) + 1; minute <= untilMinute + 1e-9; minute++) {
    advance(run, phase, minute * 60);
    onMinute();
  }
  advance(run, phase, untilMinute * 60);
}

function outcomeOf(run: Run): Outcome {
  return {
    guardedSoakMinutes: tallied(run, guardedSoakAt).map((seconds) => seconds / 60),
    soakMinutes: tallied(run, soakAt).map((seconds) => seconds / 60),
    peakC: tallied(run, peakAt),
    unloadMetalC: run.chamber.metals.map((_, index) => metalC(run, index)),
    unloadChamberC: chamberC(run),
  };
}

function tallied(run: Run, at: (index: number) => number): number[] {
  return run.chamber.metals.map((_, index) => run.tally[at(index)] ?? Number.NaN);
}

/** `burning` holds the run at burner on and at every whole minute after it; later minutes are burnt when asked for. */
function shiftedFrom(kept: { burning: readonly Run[]; off: Run; times: FiringTimes }): (minutes: number) => Outcome {
  const { burning, off, times } = kept;
  const later: Run[] = [off];
  const burn = { kind: "burn", setPointC: times.setPointC } as const;
  return (minutes) => {
    let from = off;
    if (minutes < 0) {
      const offMinute = times.burnerOffMinute + minutes;
      from = burning.findLast((run) => run.seconds <= offMinute * 60 + 1e-6) ?? burning[0] ?? off;
    }
    while (later.length <= minutes) {
      const next = copyRun(later.at(-1) ?? off);
      advance(next, burn, next.seconds + 60);
      later.push(next);
    }
    if (minutes > 0) from = later[minutes] ?? off;
    return outcomeOf(coasted(from, Math.max(from.seconds / 60, times.unloadMinute + minutes)));
  };
}
