/** Which mix groups may share a firing, and which soil the oven for others. Asked while recipes are made. */
import type { DayModel } from "../day/day-model.ts";
import type { Mixing, ThermalCycle } from "../shop.ts";

/** The first two groups that may not stand in one firing, or undefined when all may. */
export function clashOf(mixing: Mixing, groups: readonly string[]): readonly [string, string] | undefined {
  const distinct = [...new Set(groups)];
  if (mixing.rule === "same-group" && distinct.length > 1) return [distinct[0]!, distinct[1]!];
  return mixing.neverTogether.find(([one, other]) =>
    one === other
      ? groups.filter((group) => group === one).length > 1
      : distinct.includes(one) && distinct.includes(other),
  );
}

/** True when a load of these groups leaves the oven in need of a clean burn before some other groups. */
export function soilsOven(mixing: Mixing, groups: readonly string[]): boolean {
  return mixing.cleanBurn !== null && groups.some((group) => mixing.cleanBurn!.after.includes(group));
}

/** An oven's clean burn is set to its next step up, °C; undefined where the shop has none or this oven never gets so hot. */
export function cleanBurnSetPointC({ cleanBurn }: Mixing, cycle: ThermalCycle): number | undefined {
  if (cleanBurn === null) return undefined;
  const { setPointStepC, setPointMaxC } = cycle;
  const setPointC = Math.ceil(cleanBurn.setPointC / setPointStepC - TINY) * setPointStepC;
  return setPointC <= setPointMaxC + TINY ? setPointC : undefined;
}

/** True when a load of these groups may not stand in a soiled oven. */
export function needsCleanOven(mixing: Mixing, groups: readonly string[]): boolean {
  return mixing.cleanBurn !== null && groups.some((group) => mixing.cleanBurn!.before.includes(group));
}

/** True when a load of these bakes leaves a soiled oven and a clean one as they are: a clean burn that is owed may come before it or after. */
export function mayBurnBefore({ request: { mixing }, bakes: all, kinds }: DayModel, bakes: readonly number[]): boolean {
  if (mixing.cleanBurn === null) return false;
  const groups = bakes.map((bake) => kinds[all[bake]!.kind]!.coat.mixGroup);
  return !soilsOven(mixing, groups) && !needsCleanOven(mixing, groups);
}

/** Steps that are no binary fraction carry rounding. */
const TINY = 1e-6;
