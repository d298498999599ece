/** What was written down during a firing, and what an oven of given figures would have shown instead. */
import type { ThermalCycle } from "../shop.ts";
import { burnRun, heatUp } from "./burn-run.ts";
import { chamberAfterDoor, chamberAfterIdle } from "./chamber.ts";
import { rowAtUnload } from "./coast.ts";
import type { FiringDecision } from "./firing.ts";
import { loadHeat } from "./load-heat.ts";
import type { Member } from "./members.ts";
import { gasKWh, metalC } from "./row.ts";

/** Minutes from door closing; what was not read is null. */
export interface Reading {
  readonly minute: number;
  readonly chamberC: number | null;
  /** Metal of the one piece that was followed, before unloading. */
  readonly metalC: number | null;
  /** Gas burnt since the door closed, kWh gross. */
  readonly gasKWh: number | null;
}

/** One firing with its readings. After `doneAt` the oven stood shut with its fan off. */
export interface FiringLog {
  readonly ambientC: number;
  readonly members: readonly Member[];
  /** Index of the member whose metal was followed; null where none was. */
  readonly followed: number | null;
  readonly chamberAtOpenC: number;
  readonly decision: FiringDecision;
  readonly readings: readonly Reading[];
}

interface Instant {
  readonly chamberC: number;
  readonly metalC: number;
  readonly gasKWh: number;
}

/**
 * What the readings' instants would show in that oven, between whole minutes by straight lines; its metal is NaN after
 * unloading. Throws a RangeError for a reading before the door closed.
 */
export function readingsOf(cycle: ThermalCycle, log: FiringLog): Instant[] {
  const minutes = firingByMinute(cycle, log);
  const out = minutes.at(-1)!;
  return log.readings.map(({ minute }) => {
    if (minute < 0) throw new RangeError(`a reading at minute ${minute} is before the door closed`);
    const whole = Math.floor(minute);
    const [from, to] = [minutes[whole], minutes[whole + 1]];
    if (from === undefined || (to === undefined && minute > whole)) return afterUnloading(cycle, log, out, minute);
    return to === undefined ? from : between(from, to, minute - whole);
  });
}

function firingByMinute(cycle: ThermalCycle, log: FiringLog): Instant[] {
  const { setPointC, burnerOffMinutes, unloadMinutes } = log.decision;
  const heat = loadHeat(cycle, log.ambientC, log.members);
  const run = burnRun(heatUp(heat, log.chamberAtOpenC), setPointC - log.ambientC, burnerOffMinutes);
  return Array.from({ length: unloadMinutes + 1 }, (_, minute) => {
    const rows = rowAtUnload(run, Math.min(minute, burnerOffMinutes), minute);
    return {
      chamberC: log.ambientC + rows[0]!,
      metalC: log.followed === null ? NaN : metalC(heat, log.followed, rows[1 + log.followed]!),
      gasKWh: gasKWh(heat, rows, 0),
    };
  });
}

function afterUnloading(cycle: ThermalCycle, log: FiringLog, out: Instant, minute: number): Instant {
  const since = minute - log.decision.unloadMinutes;
  const open = Math.min(since, cycle.unloadMinutes);
  const doorC = chamberAfterDoor(cycle, log.ambientC, out.chamberC, open);
  return { ...out, metalC: NaN, chamberC: chamberAfterIdle(cycle, log.ambientC, doorC, since - open) };
}

function between(from: Instant, to: Instant, share: number): Instant {
  const mix = (one: number, other: number): number => one + share * (other - one);
  return {
    chamberC: mix(from.chamberC, to.chamberC),
    metalC: mix(from.metalC, to.metalC),
    gasKWh: mix(from.gasKWh, to.gasKWh),
  };
}
