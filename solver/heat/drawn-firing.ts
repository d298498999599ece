/** A firing to be drawn: the chamber and every metal minute by minute, and what each bake makes of its window. */
import type { ThermalCycle } from "../shop.ts";
import { burnRun, heatUp } from "./burn-run.ts";
import { doorMinute, rowAtUnload } from "./coast.ts";
import type { FiringDecision, MemberBake } from "./firing.ts";
import { simulateFiring } from "./firing.ts";
import { loadHeat } from "./load-heat.ts";
import type { Member } from "./members.ts";
import { firingOptions } from "./options.ts";
import { metalC, rounded } from "./row.ts";
import { whyNoFiring } from "./why-not.ts";

/** From an oven that starts at room temperature, as if it were fired first thing. Minutes from door closing. */
export interface DrawnFiring {
  readonly decision: FiringDecision;
  readonly bakes: readonly (MemberBake & { readonly kept: boolean })[];
  /** A point a minute until the door opens; metals in the order of the members. */
  readonly points: readonly {
    readonly minute: number;
    readonly chamberC: number;
    readonly metalC: readonly number[];
  }[];
}

/** The quickest firing that keeps every window, else the one that comes nearest to it. */
export function nearestFiring(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): DrawnFiring {
  return drawn(cycle, ambientC, members, ambientC, nearestDecision(cycle, ambientC, members));
}

/** The burner for as long as the slowest of `members` needs it, however long the others may stay. */
function nearestDecision(cycle: ThermalCycle, ambientC: number, members: readonly Member[]): FiringDecision {
  const [quickest] = firingOptions(cycle, ambientC, members, ambientC);
  if (quickest !== undefined) return quickest;
  const miss = members.length > 1 ? whyNoFiring(cycle, ambientC, members) : undefined;
  if (miss !== undefined) return untilDoor(cycle, ambientC, members, miss.setPointC, Math.ceil(miss.needsUntilMinute));
  const steps = Math.floor(cycle.setPointMaxC / cycle.setPointStepC);
  return untilDoor(cycle, ambientC, members, steps * cycle.setPointStepC, HOPELESS_BURN_MINUTES);
}

/** Where some metal never gets there, this much is enough to see it. */
const HOPELESS_BURN_MINUTES = 90;
/** A door that stays too hot is drawn this long after the burner went off. */
const LONGEST_COAST_MINUTES = 180;

function untilDoor(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  setPointC: number,
  burnerOffMinutes: number,
): FiringDecision {
  const run = burnRun(heatUp(loadHeat(cycle, ambientC, members), ambientC), setPointC - ambientC, burnerOffMinutes);
  const opens = doorMinute(run, burnerOffMinutes, burnerOffMinutes, 0);
  return { setPointC, burnerOffMinutes, unloadMinutes: Math.min(opens, burnerOffMinutes + LONGEST_COAST_MINUTES) };
}

/** `chamberAtOpenC`: when the door opens to put the load in. */
export function drawn(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  chamberAtOpenC: number,
  decision: FiringDecision,
): DrawnFiring {
  const { setPointC, burnerOffMinutes, unloadMinutes } = decision;
  const shifted = (minutes: number): readonly MemberBake[] => {
    const off = Math.max(0, burnerOffMinutes + minutes);
    const moved = { setPointC, burnerOffMinutes: off, unloadMinutes: Math.max(off, unloadMinutes + minutes) };
    return simulateFiring(cycle, ambientC, members, chamberAtOpenC, moved).members;
  };
  const [early, late] = [shifted(-cycle.earlyMinutes), shifted(cycle.slackMinutes)];
  const bakes = shifted(0).map((bake, index) => {
    const { soakLeastMinutes, soakMostMinutes, highC } = members[index]!;
    const soaked = early[index]!.soakMinutes >= soakLeastMinutes - TINY;
    const { aboveLowMinutes, peakC } = late[index]!;
    return {
      ...bake,
      kept: soaked && aboveLowMinutes <= soakMostMinutes + TINY && peakC <= highC - cycle.guardC + TINY,
    };
  });
  const heat = loadHeat(cycle, ambientC, members);
  const run = burnRun(heatUp(heat, chamberAtOpenC), setPointC - ambientC, burnerOffMinutes);
  const points = Array.from({ length: unloadMinutes + 1 }, (_, minute) => {
    const rows = rowAtUnload(run, Math.min(minute, burnerOffMinutes), minute);
    const metals = members.map((_metal, index) => metalC(heat, index, rows[1 + index]!));
    return { minute, chamberC: rounded(ambientC + rows[0]!), metalC: metals };
  });
  return { decision: { setPointC, burnerOffMinutes, unloadMinutes }, bakes, points };
}

const TINY = 1e-6;
