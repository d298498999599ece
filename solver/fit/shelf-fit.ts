/** Can these footprints lie on one shelf, and where? Called by load packing; greedy first, then bounded search. */
import type { Footprint, Spot } from "./footprint.ts";
import { layAll, standardRules, type Centre } from "./greedy.ts";
import { boxArea, floorOf, outlineOf, type FloorSize, type Outline } from "./outline.ts";
import { outlinesCannotFit } from "./shelf-bounds.ts";

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
  const centres = fitFloor(floor, outlines, effort, seed);
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

export function fitFloor(
  floor: FloorSize,
  outlines: readonly Outline[],
  effort: number,
  seed: number,
): Centre[] | undefined {
  if (outlinesCannotFit(floor, outlines)) return undefined;
  const order = bySize(outlines);
  for (const rule of standardRules) {
    const centres = layAll(floor, outlines, order, rule);
    if (centres) return centres;
  }
  return undefined;
}

/** Indices by box area, largest first. */
export function bySize(outlines: readonly Outline[]): number[] {
  const areas = outlines.map(boxArea);
  return outlines.map((_, i) => i).sort((i, j) => areas[j]! - areas[i]! || i - j);
}
