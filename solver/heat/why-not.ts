/** Why two pans share no firing: how far apart their metals warm, and how much room their windows leave. */
import type { ThermalCycle } from "../shop.ts";
import { simulateFiring } from "./firing.ts";
import type { Member } from "./members.ts";

/** Of the set-point where they miss each other by least. Minutes from door closing to burner off, door opened at once. */
export interface WindowMiss {
  /** Index of the member that is at temperature last, and of the one that is first. */
  readonly slow: number;
  readonly fast: number;
  readonly setPointC: number;
  /** How much later the slow metal is at temperature. */
  readonly lagMinutes: number;
  /** How much longer than the least soak of the slow one the quick one may stay. */
  readonly roomMinutes: number;
}

/** Bakes are tried for this long. */
const LONGEST_BURN_MINUTES = 240;

/** Undefined where no set-point brings both metals into their windows. */
export function whyNoFiring(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly [Member, Member],
): WindowMiss | undefined {
  let nearest: WindowMiss | undefined;
  for (let setPointC = cycle.setPointStepC; setPointC <= cycle.setPointMaxC; setPointC += cycle.setPointStepC) {
    const miss = missAt(cycle, ambientC, members, setPointC);
    if (miss === undefined) continue;
    if (nearest === undefined || miss.lagMinutes - miss.roomMinutes < nearest.lagMinutes - nearest.roomMinutes)
      nearest = miss;
  }
  return nearest;
}

function missAt(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly [Member, Member],
  setPointC: number,
): WindowMiss | undefined {
  const at = (minutes: number) => {
    const decision = { setPointC, burnerOffMinutes: minutes, unloadMinutes: minutes };
    return simulateFiring(cycle, ambientC, members, ambientC, decision).members;
  };
  const reached = at(LONGEST_BURN_MINUTES).map((bake) => bake.inWindowMinutes);
  const [one, other] = reached;
  if (one === null || one === undefined || other === null || other === undefined) return undefined;
  const [slow, fast] = one >= other ? [0, 1] : [1, 0];
  const mayStay = (minutes: number): boolean => {
    const bake = at(minutes)[fast]!;
    const { soakMostMinutes, highC } = members[fast]!;
    return bake.aboveLowMinutes <= soakMostMinutes && bake.peakC <= highC - cycle.guardC;
  };
  let latest = 0;
  let tooLate = LONGEST_BURN_MINUTES;
  while (tooLate - latest > 1) {
    const middle = (latest + tooLate) >> 1;
    if (mayStay(middle)) latest = middle;
    else tooLate = middle;
  }
  const margins = cycle.earlyMinutes + cycle.slackMinutes;
  const lagMinutes = reached[slow]! - reached[fast]!;
  return {
    slow,
    fast,
    setPointC,
    lagMinutes,
    roomMinutes: latest - reached[fast]! - members[slow]!.soakLeastMinutes - margins,
  };
}
