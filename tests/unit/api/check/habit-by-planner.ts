/** "One pan per firing" by the planner's own search of sound firings: a second opinion on the checker's. */
import type { PlanFile } from "../../../../api/contract/plan.ts";
import type { FiringOption } from "../../../../solver/heat/options.ts";
import { firingOptions } from "../../../../solver/heat/options.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";

/** kWh of the members fired one by one, each on the shelf that is quickest, from the chamber the one before leaves. */
export function onePanByPlanner(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  offsetsC: readonly number[],
  startC: number,
): number {
  let chamberC = startC;
  return members.reduce((kWh, member) => {
    const options = offsetsC.flatMap((offsetC) => firingOptions(cycle, ambientC, [{ ...member, offsetC }], chamberC));
    const quickest = options.reduce((best, option) => (isQuicker(option, best) ? option : best));
    chamberC = quickest.chamberAtDoneC;
    return kWh + quickest.gasKWh;
  }, 0);
}

function isQuicker(option: FiringOption, best: FiringOption): boolean {
  const minutes = option.unloadMinutes - best.unloadMinutes;
  return minutes < 0 || (minutes === 0 && option.gasKWh < best.gasKWh);
}

/** What a plan file says of a habit. */
export function saving(
  habit: PlanFile["gas"]["comparedWith"][number]["habit"],
  firings: number,
  kWh: number,
  plan: { readonly kWh: number; readonly gasPerKWh: number },
): PlanFile["gas"]["comparedWith"][number] {
  const savedKWh = kWh - plan.kWh;
  return { habit, firings, kWh, savedKWh, savedCost: savedKWh * plan.gasPerKWh };
}
