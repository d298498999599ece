/** One firing of one load as decided: what its chamber, its metal and its gas meter do. */

import type { CurvePoint } from "../firing-plan.ts";
import type { ThermalCycle } from "../shop.ts";
import type { BurnRun } from "./burn-run.ts";
import { burnRun, heatUp } from "./burn-run.ts";
import { chamberAfterDoor } from "./chamber.ts";
import { rowAtUnload } from "./coast.ts";
import type { LoadHeat } from "./load-heat.ts";
import { loadHeat } from "./load-heat.ts";
import type { Member } from "./members.ts";
import { aboveLowAt, firstInAt, gasKWh, metalC, peakAt, rounded, soakAt } from "./row.ts";
import { notOverbaked, soakToSpare } from "./windows.ts";

/** One firing as decided: whole minutes from door closing. */
export interface FiringDecision {
  readonly setPointC: number;
  readonly burnerOffMinutes: number;
  readonly unloadMinutes: number;
}

/** One member's bake, minutes counted from door closing to door opening. */
export interface MemberBake {
  /** When its metal first reaches lowC + guardC; null where it never does. */
  readonly inWindowMinutes: number | null;
  /** Minutes at or above lowC + guardC. */
  readonly soakMinutes: number;
  /** Minutes at or above lowC. */
  readonly aboveLowMinutes: number;
  readonly peakC: number;
  readonly metalAtUnloadC: number;
}

/** Minutes from door closing; gas in kWh gross. */
export interface Firing {
  /** Null where the chamber starts above the set-point and only falls, or never reaches it. */
  readonly setPointAtMinutes: number | null;
  /** True also where the chamber is above the set-point when the purge ends. */
  readonly reachedSetPoint: boolean;
  readonly gasKWh: number;
  readonly chamberAtUnloadC: number;
  readonly chamberAtDoneC: number;
  /** In the order of the members given. */
  readonly members: readonly MemberBake[];
}

/** The nominal firing from a chamber at `chamberAtOpenC` when the door opens (after any vent). */
export function simulateFiring(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  decision: FiringDecision,
): Firing {
  const heat = loadHeat(cycle, ambientC, members);
  const run = decidedRun(heat, chamberAtOpenC, decision);
  const { burnerOffMinutes, unloadMinutes } = decision;
  const rows = rowAtUnload(run, Math.min(burnerOffMinutes, unloadMinutes), unloadMinutes);
  const reachedAt = run.reachedAt <= burnerOffMinutes ? run.reachedAt : null;
  const chamberAtUnloadC = rounded(ambientC + rows[0]!);
  return {
    setPointAtMinutes: reachedAt,
    reachedSetPoint: (run.startsAbove && burnerOffMinutes >= cycle.purgeMinutes) || reachedAt !== null,
    gasKWh: gasKWh(heat, rows, 0),
    chamberAtUnloadC,
    chamberAtDoneC: chamberAfterDoor(cycle, ambientC, chamberAtUnloadC, cycle.unloadMinutes),
    members: members.map((_, member) => bakeOf(heat, rows, member)),
  };
}

/** A point a minute from door closing (minute 0) to unloading. */
export function firingCurve(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  decision: FiringDecision,
): CurvePoint[] {
  const heat = loadHeat(cycle, ambientC, members);
  const run = decidedRun(heat, chamberAtOpenC, decision);
  const points: CurvePoint[] = [];
  for (let minute = 0; minute <= decision.unloadMinutes; minute++) {
    const rows = rowAtUnload(run, Math.min(minute, decision.burnerOffMinutes), minute);
    points.push(pointOf(heat, rows, minute));
  }
  return points;
}

/** All three windows of every member, with the burner off, and everything after it, `shiftMinutes` (whole) later. */
export function windowsKept(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  decision: FiringDecision,
  shiftMinutes: number,
): boolean {
  const heat = loadHeat(cycle, ambientC, members);
  const burnerOffMinutes = Math.max(0, decision.burnerOffMinutes + shiftMinutes);
  const unloadMinutes = Math.max(burnerOffMinutes, decision.unloadMinutes + shiftMinutes);
  const run = decidedRun(heat, chamberAtOpenC, { ...decision, burnerOffMinutes });
  const rows = rowAtUnload(run, burnerOffMinutes, unloadMinutes);
  return soakToSpare(heat, rows, 0) >= 0 && notOverbaked(heat, rows, 0);
}

function decidedRun(heat: LoadHeat, chamberAtOpenC: number, decision: FiringDecision): BurnRun {
  const { setPointC, burnerOffMinutes, unloadMinutes } = decision;
  if (!Number.isInteger(burnerOffMinutes) || !Number.isInteger(unloadMinutes))
    throw new RangeError(`a firing is decided in whole minutes, not ${burnerOffMinutes} and ${unloadMinutes}`);
  return burnRun(heatUp(heat, chamberAtOpenC), setPointC - heat.ambientC, burnerOffMinutes);
}

function bakeOf(heat: LoadHeat, rows: Float64Array, member: number): MemberBake {
  const n = heat.members.length;
  const firstIn = rows[firstInAt(0, n, member)]!;
  return {
    inWindowMinutes: firstIn === Infinity ? null : firstIn,
    soakMinutes: rows[soakAt(0, n, member)]!,
    aboveLowMinutes: rows[aboveLowAt(0, n, member)]!,
    peakC: metalC(heat, member, rows[peakAt(0, n, member)]!),
    metalAtUnloadC: metalC(heat, member, rows[1 + member]!),
  };
}

function pointOf(heat: LoadHeat, rows: Float64Array, minute: number): CurvePoint {
  const chamberC = rounded(heat.ambientC + rows[0]!);
  if (heat.members.length === 0) return { minute, chamberC, slowestC: chamberC, fastestC: chamberC };
  const metals = heat.members.map((_, member) => metalC(heat, member, rows[1 + member]!));
  return { minute, chamberC, slowestC: Math.min(...metals), fastestC: Math.max(...metals) };
}
