/** Which load a clean burn is owed to: others may stand between, and whoever skips it should know what it spoils. */
import type { DayFile } from "./day.ts";
import type { PlanLoad } from "./plan.ts";

interface Firing extends Pick<PlanLoad, "id" | "oven" | "kind"> {
  readonly pans: readonly Pick<PlanLoad["pans"][number], "id" | "coat">[];
}

/** The id of the first load after it in its oven that may not go into a soiled one; undefined where there is none. */
export function burnOwedTo(
  { mixing, coatings, pans }: Pick<DayFile, "mixing" | "coatings" | "pans">,
  loads: readonly Firing[],
  burn: Firing,
): string | undefined {
  if (burn.kind !== "clean burn") return undefined;
  const before = mixing?.cleanBurn?.before ?? [];
  const isSpoilt = (pan: Firing["pans"][number]): boolean => {
    const line = pans.find(({ id }) => id === pan.id);
    const coats = coatings.find(({ id }) => id === line?.coating)?.coats ?? [];
    return before.includes(coats[pan.coat - 1]?.mixGroup ?? "");
  };
  const from = loads.findIndex(({ id }) => id === burn.id);
  return loads.slice(from + 1).find(({ oven, pans: own }) => oven === burn.oven && own.some(isSpoilt))?.id;
}
