/** Why pans share no firing: one needs the burner for longer than another may stay. */
import type { ThermalCycle } from "../shop.ts";
import { simulateFiring } from "./firing.ts";
import type { Member } from "./members.ts";

/**
 * Of the set-point where they miss each other by least. Minutes from door closing, the door opened as the burner goes
 * off; the margins for going off early and late are in them.
 */
export interface WindowMiss {
  /** Index of the member that needs the burner longest, and of the one that must be out first. */
  readonly slow: number;
  readonly fast: number;
  readonly setPointC: number;
  /** How much later the slow metal is at temperature; negative where it is there first and soaks longer. */
  readonly lagMinutes: number;
  /** Until then the slow one needs the burner for its least soak. */
  readonly needsUntilMinute: number;
  /** Until then the quick one may stay; 0 or more. */
  readonly staysUntilMinute: number;
}

/** Bakes are tried for this long. */
const LONGEST_BURN_MINUTES = 240;

/** Undefined where no set-point brings every metal to its window. Two members at least. */
export function whyNoFiring(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): WindowMiss | undefined {
  let nearest: WindowMiss | undefined;
  for (let setPointC = cycle.setPointStepC; setPointC <= cycle.setPointMaxC; setPointC += cycle.setPointStepC) {
    const miss = missAt(cycle, ambientC, members, setPointC);
    if (miss !== undefined && (nearest === undefined || missedBy(miss) < missedBy(nearest))) nearest = miss;
  }
  return nearest;
}

/** Minutes by which they miss each other; 0 or less: by this reckoning they do not. */
export function missedBy({ needsUntilMinute, staysUntilMinute }: WindowMiss): number {
  return needsUntilMinute - staysUntilMinute;
}

function missAt(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  setPointC: number,
): WindowMiss | undefined {
  const at = (minutes: number) => {
    const decision = { setPointC, burnerOffMinutes: minutes, unloadMinutes: minutes };
    return simulateFiring(cycle, ambientC, members, ambientC, decision).members;
  };
  const reached = at(LONGEST_BURN_MINUTES).flatMap(({ inWindowMinutes }) => inWindowMinutes ?? []);
  if (reached.length < members.length) return undefined;
  const needs = members.map((member, index) => reached[index]! + member.soakLeastMinutes + cycle.earlyMinutes);
  const stays = members.map((member, index) => {
    const mayStay = (minutes: number): boolean => {
      const bake = at(minutes)[index]!;
      return bake.aboveLowMinutes <= member.soakMostMinutes && bake.peakC <= member.highC - cycle.guardC;
    };
    return Math.max(0, lastMinute(mayStay) - cycle.slackMinutes);
  });
  let worst: WindowMiss | undefined;
  for (let slow = 0; slow < members.length; slow++)
    for (let fast = 0; fast < members.length; fast++) {
      if (slow === fast) continue;
      const [needsUntilMinute, staysUntilMinute] = [needs[slow]!, stays[fast]!];
      const lagMinutes = reached[slow]! - reached[fast]!;
      const miss = { slow, fast, setPointC, lagMinutes, needsUntilMinute, staysUntilMinute };
      if (worst === undefined || missedBy(miss) > missedBy(worst)) worst = miss;
    }
  return worst;
}

function lastMinute(mayStay: (minutes: number) => boolean): number {
  let latest = 0;
  let tooLate = LONGEST_BURN_MINUTES;
  while (tooLate - latest > 1) {
    const middle = (latest + tooLate) >> 1;
    if (mayStay(middle)) latest = middle;
    else tooLate = middle;
  }
  return latest;
}
