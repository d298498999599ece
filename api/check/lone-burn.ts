/** The burns that one pan alone may get from one chamber: full fire to any set-point, shared up to there, and what follows. */
import { loaded } from "./firing.ts";
import { advance } from "./integrate.ts";
import type { Metal, Run, ThermalCycle } from "./oven.ts";
import { chamberC, chamberOf, copyRun } from "./oven.ts";

/** Longer than in production checks: this search is the heavy part, and single pans are smooth. */
const stepSeconds = 20;

/** A pan under full fire: the runs at burner on and at every whole minute after it, grown as asked for. */
export interface Rise {
  readonly burnerOnMinute: number;
  readonly runs: Run[];
}

export function fullFireFrom(cycle: ThermalCycle, ambientC: number, metal: Metal, chamberStartC: number): Rise {
  const chamber = chamberOf(cycle, ambientC, [metal], stepSeconds);
  const run = loaded(chamber, chamberStartC, cycle.loadMinutes);
  advance(run, { kind: "purge" }, cycle.purgeMinutes * 60);
  return { burnerOnMinute: cycle.purgeMinutes, runs: [run] };
}

/** Set-points above the chamber that can bring the metal into its window, lowest first. */
export function risingSetPoints(cycle: ThermalCycle, metal: Metal, rise: Rise): number[] {
  const lowestC = metal.guardedLowC - metal.offsetC;
  return multiples(cycle).filter((setPointC) => setPointC >= lowestC && setPointC > chamberAtBurnerOn(rise));
}

/** Set-points that the chamber starts above, highest first; none where it is too cool for the window already. */
export function fallingSetPoints(cycle: ThermalCycle, metal: Metal, rise: Rise): number[] {
  const startsAtC = chamberAtBurnerOn(rise);
  if (startsAtC <= metal.guardedLowC - metal.offsetC) return [];
  return multiples(cycle)
    .filter((setPointC) => setPointC <= startsAtC)
    .toReversed();
}

function multiples({ setPointStepC, setPointMaxC }: ThermalCycle): number[] {
  const count = Math.floor(setPointMaxC / setPointStepC + 1e-9);
  return Array.from({ length: Math.max(0, count) }, (_, index) => (index + 1) * setPointStepC);
}

function chamberAtBurnerOn(rise: Rise): number {
  const run = rise.runs[0];
  return run === undefined ? -Infinity : chamberC(run);
}

/** A burn to one set-point: the run at any whole minute, and the first minute at which the burner may go off. */
export interface Burn {
  readonly setPointC: number;
  readonly firstOffMinute: number;
  readonly at: (minute: number) => Run;
  /** The run at the latest minute asked for so far. */
  readonly furthest: () => Run;
}

/** Undefined where the chamber gets there only after `withinMinutes`, or never. */
export function burnTo(rise: Rise, setPointC: number, withinMinutes: number): Burn | undefined {
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
  return { setPointC, firstOffMinute: reachedMinute, at, furthest: () => own.at(-1) ?? runs[below] ?? runs[0]! };
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
