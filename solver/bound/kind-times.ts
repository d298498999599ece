/** How long a lone bake of each kind takes at least in each oven, from any chamber it can meet. The exact search's floor uses it. */
import type { DayModel } from "../day/day-model.ts";
import { cleanBurnSetPointC } from "../loads/mixing.ts";
import type { FixedCycle, ThermalCycle } from "../shop.ts";
import type { LoneBakes, Span } from "./lone-bakes.ts";
import { heatingCost, OVEN_TIME } from "./tariff.ts";

/** Minutes. Infinity where the kind is never baked in that oven. */
export interface KindTimes {
  /** Door opening to done. */
  readonly doneMinutes: number;
  /** The same from a chamber that an earlier firing can leave, or that is heated up first with the minutes that takes. */
  readonly packedMinutes: number;
  /** Door opening to the hand. */
  readonly handMinutes: number;
  /** Done to the hand; a pan that waits in the oven for the sake of it counts from when it could have been done. */
  readonly coolMinutes: number;
}

const NEVER: KindTimes = {
  doneMinutes: Infinity,
  packedMinutes: Infinity,
  handMinutes: Infinity,
  coolMinutes: Infinity,
};

/** Per kind that the day bakes, and oven. `startC`: chamber of each oven when its facts are over, °C. */
export function kindTimes(lone: LoneBakes, startC: Float64Array): ReadonlyMap<number, readonly KindTimes[]> {
  const { day } = lone.sets;
  const times = new Map<number, KindTimes[]>(lone.kinds.map((kind) => [kind, day.request.ovens.map(() => NEVER)]));
  day.request.ovens.forEach(({ cycle }, oven) => {
    const own = lone.kinds.filter((kind) => day.kinds[kind]!.ovens.includes(oven));
    const seen = own.map((kind) => lone.spans(kind, oven));
    const { mixing } = day.request;
    const ends = seen.flat().flatMap(({ firings }) => firings.map(({ hotC }) => hotC));
    const burntC = cycle.kind === "thermal" ? cleanBurnSetPointC(mixing, cycle) : undefined;
    const leftC = Math.max(startC[oven]!, burntC ?? -Infinity, ...ends);
    own.forEach((kind, at) => (times.get(kind)![oven] = timesOf(day, oven, seen[at]!, leftC)));
  });
  return times;
}

function timesOf(day: DayModel, oven: number, seen: readonly Span[], leftC: number): KindTimes {
  const { cycle } = day.request.ovens[oven]!;
  const { loadMinutes, unloadMinutes } = cycle;
  const most = Math.max(leftC, ...seen.flatMap(({ firings }) => firings.map(({ setPointC }) => setPointC)));
  let times = NEVER;
  for (const { coolC, firings } of seen) {
    if (coolC > most) continue;
    for (const firing of firings) {
      const doneMinutes = loadMinutes + firing.closedMinutes + unloadMinutes;
      times = {
        doneMinutes: Math.min(times.doneMinutes, doneMinutes),
        packedMinutes: Math.min(times.packedMinutes, doneMinutes + heatingMinutes(cycle, coolC - leftC)),
        handMinutes: Math.min(times.handMinutes, doneMinutes + firing.handMinutes[0]!),
        coolMinutes: Math.min(times.coolMinutes, firing.restMinutes[0]!),
      };
    }
  }
  return times;
}

function heatingMinutes(cycle: ThermalCycle | FixedCycle, kelvin: number): number {
  return cycle.kind === "fixed" || kelvin <= 0 ? 0 : cycle.purgeMinutes + heatingCost(OVEN_TIME, cycle, kelvin);
}
