/** Can these footprints lie on one shelf, and where? Greedy first, then a search bounded by effort. */
import { fitFloor } from "./fill-floor.ts";
import type { Footprint, Spot } from "./footprint.ts";
import type { Centre } from "./greedy.ts";
import { floorOf, outlineOf } from "./outline.ts";
import { seededDice } from "./seeded.ts";

export type { Place, Spot } from "./footprint.ts";
export { cannotFitShelf } from "./shelf-bounds.ts";

/**
 * Places for all footprints on one shelf, keeping the gap to every edge and between pans; undefined where none was
 * found. `effort` is the number of search steps allowed beyond greedy (0: greedy only). Deterministic in all arguments.
 */
export function fitShelf(
  widthCm: number,
  depthCm: number,
  gapCm: number,
  footprints: readonly Footprint[],
  effort: number,
  seed: number,
): Spot[] | undefined {
  const floor = floorOf(widthCm, depthCm, gapCm);
  const outlines = footprints.map((footprint) => outlineOf(footprint, gapCm));
  const centres = fitFloor(floor, outlines, { left: effort }, seededDice(seed));
  return centres?.map((centre) => spotOf(centre, gapCm));
}

/** From the floor's frame to the shelf's, rounded to 1e-8 cm. */
export function spotOf(centre: Centre, gapCm: number): Spot {
  return {
    xCm: Math.round((centre.x + gapCm / 2) * 1e8) / 1e8,
    yCm: Math.round((centre.y + gapCm / 2) * 1e8) / 1e8,
    turned: centre.turned,
  };
}
