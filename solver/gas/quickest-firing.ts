/**
 * The quickest sound firing of a habit: least minutes from door closing to door opening; of equally quick ones the one
 * that coasts least, as a hand does who waits at the burner, and of those the one with least gas.
 */
import { simulateFiring, windowsKept } from "../heat/firing.ts";
import type { Member } from "../heat/members.ts";
import type { FiringOption } from "../heat/options.ts";
import { firingOptions, firingUnloadedFrom } from "../heat/options.ts";
import type { ThermalCycle } from "../shop.ts";

/** Set-points this near the quickest one of `firingOptions` are looked at, K: beyond it none was ever quicker. */
const NEAR_K = 40;

export function quicker(one: FiringOption, other: FiringOption): boolean {
  if (one.unloadMinutes !== other.unloadMinutes) return one.unloadMinutes < other.unloadMinutes;
  if (one.burnerOffMinutes !== other.burnerOffMinutes) return one.burnerOffMinutes > other.burnerOffMinutes;
  return one.gasKWh < other.gasKWh;
}

/** Of one pan alone, as `members` says, from a chamber at `chamberC` when the door opens; undefined where none is sound. */
export function quickestAlone(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberC: number,
): FiringOption | undefined {
  const oven = { cycle, ambientC, members, chamberC };
  const options = firingOptions(cycle, ambientC, members, chamberC);
  if (options.length === 0) return undefined;
  const first = options.reduce((best, option) => (quicker(option, best) ? option : best));
  const near = setPointsNear(cycle, first.setPointC);
  let minutes = first.unloadMinutes;
  // A hotter set-point with the burner off early may be quicker still: the soak ends while the chamber falls.
  for (const setPointC of near)
    for (;;) {
      const sooner = firingUnloadedFrom(cycle, ambientC, members, chamberC, setPointC, minutes - 1);
      if (sooner === undefined || sooner.unloadMinutes >= minutes) break;
      minutes = sooner.unloadMinutes;
    }
  const equal = near.flatMap((setPointC) => {
    const firing = firingUnloadedFrom(cycle, ambientC, members, chamberC, setPointC, minutes);
    return firing?.unloadMinutes === minutes ? [burningLongest(oven, firing)] : [];
  });
  return [...equal, first].reduce((best, option) => (quicker(option, best) ? option : best));
}

function setPointsNear({ setPointMaxC, setPointStepC }: ThermalCycle, middleC: number): number[] {
  const steps = Math.floor(NEAR_K / setPointStepC);
  const near = Array.from({ length: 2 * steps + 1 }, (_, index) => middleC + (index - steps) * setPointStepC);
  return near.filter((setPointC) => setPointC > 0 && setPointC <= setPointMaxC);
}

interface LoneOven {
  readonly cycle: ThermalCycle;
  readonly ambientC: number;
  readonly members: readonly Member[];
  readonly chamberC: number;
}

/** The same set-point and unloading with the burner off as late as the windows and the door allow. */
function burningLongest({ cycle, ambientC, members, chamberC }: LoneOven, firing: FiringOption): FiringOption {
  let longest = firing;
  for (let off = firing.burnerOffMinutes + 1; off <= firing.unloadMinutes; off++) {
    const decision = { setPointC: firing.setPointC, burnerOffMinutes: off, unloadMinutes: firing.unloadMinutes };
    const { chamberAtUnloadC, chamberAtDoneC, gasKWh } = simulateFiring(cycle, ambientC, members, chamberC, decision);
    const kept = (shift: number): boolean => windowsKept(cycle, ambientC, members, chamberC, decision, shift);
    if (chamberAtUnloadC > cycle.doorLimitC || !kept(-cycle.earlyMinutes) || !kept(cycle.slackMinutes)) break;
    longest = { ...longest, burnerOffMinutes: off, gasKWh, chamberAtDoneC };
  }
  return longest;
}
