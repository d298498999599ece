/** One way to share a firing: which bakes, on which shelves, and what that means for the oven. Kept by a recipe book. */
import type { DayModel } from "../day/day-model.ts";
import type { FiringOption } from "../heat/options.ts";
import type { ThermalCycle } from "../shop.ts";
import type { Arrangement, Packing } from "./arrange.ts";
import { arrangements } from "./arrange.ts";
import { clashOf, needsCleanOven, soilsOven } from "./mixing.ts";

export interface Recipe extends Arrangement {
  readonly oven: number;
  /** Kind indices, ascending; `layout` and `memberOf` run along it. */
  readonly kinds: readonly number[];
  readonly massKg: number;
  readonly solventMl: number;
  readonly soils: boolean;
  readonly needsClean: boolean;
  /** Door-closed minutes in an oven with a fixed cycle, else null. */
  readonly cycleMinutes: number | null;
  /** Firings found so far, by width of the chamber-temperature bucket and bucket; undefined until one is asked for: few are. */
  firings: Map<number, Map<number, readonly FiringOption[]>> | undefined;
  /** The same at set-points that the search's lists pass over, in its buckets. */
  between: Map<string, readonly FiringOption[]> | undefined;
  /** The same of firings with a door that opens later than it could, in the search's buckets. */
  coasts: Map<string, FiringOption | null> | undefined;
  /** Other arrangements of the same bakes, which some chambers bake sooner or alone. */
  readonly others: readonly Recipe[];
}

/** Chambers a door may open on: a load that no firing bakes from any of them has no recipe. */
export function likelyStarts(cycle: ThermalCycle, ambientC: number): number[] {
  return [...new Set([Math.min(cycle.doorLimitC, 200), ambientC, Math.min(cycle.doorLimitC, 350)])];
}

/** Arrangements of the load on the shelves, the most promising first; whether one can be fired is asked afterwards. */
export function* recipesFor(
  day: DayModel,
  ovenIndex: number,
  kinds: readonly number[],
  packing: Packing,
): Generator<Recipe> {
  const oven = day.request.ovens[ovenIndex]!;
  const bakes = kinds.map((kind) => day.kinds[kind]!);
  const groups = bakes.map((bake) => bake.coat.mixGroup);
  const massKg = bakes.reduce((sum, bake) => sum + bake.line.massKg, 0);
  const solventMl = bakes.reduce((sum, bake) => sum + bake.solventMl, 0);
  if (bakes.some((bake) => !bake.ovens.includes(ovenIndex))) return;
  if (clashOf(day.request.mixing, groups) !== undefined) return;
  if (massKg > oven.maxLoadKg + TINY || solventMl > oven.maxSolventMl + TINY) return;
  for (const { layout, members, memberOf } of arrangements(oven, bakes, packing))
    yield {
      oven: ovenIndex,
      kinds,
      layout,
      members,
      memberOf,
      massKg,
      solventMl,
      soils: soilsOven(day.request.mixing, groups),
      needsClean: needsCleanOven(day.request.mixing, groups),
      cycleMinutes: oven.cycle.kind === "fixed" ? Math.max(...bakes.map((bake) => bake.coat.cycleMinutes ?? 0)) : null,
      firings: undefined,
      between: undefined,
      coasts: undefined,
      others: [],
    };
}

/** Layouts with the same answer heat alike. */
export function heatOf({ members, memberOf }: Recipe): string {
  return `${members.map(({ offsetC, count }) => `${offsetC}x${count}`).join()}/${memberOf.join()}`;
}

/** Sums of kg and mL carry rounding. */
const TINY = 1e-9;
