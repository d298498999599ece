/** Chooses from a pool the pans that fill one shelf best, and places them; used to build full loads. */
import type { Footprint, Spot } from "./footprint.ts";
import { bestSpot, standardRules } from "./greedy.ts";
import { emptyLaid, lay } from "./laid.ts";
import { floorOf, outlineOf, turnedOutline } from "./outline.ts";
import { bySize, spotOf } from "./shelf-fit.ts";

export interface ShelfFill {
  /** Indices into the pool, with `spots` in the same order. */
  readonly chosen: readonly number[];
  readonly spots: readonly Spot[];
  readonly value: number;
}

/** Largest total `value` found (default: area of the boxes, cm²) of pool pans that fit the shelf together. */
export function fillShelf(
  widthCm: number,
  depthCm: number,
  gapCm: number,
  pool: readonly Footprint[],
  effort: number,
  seed: number,
  value?: readonly number[],
): ShelfFill {
  const laid = emptyLaid(floorOf(widthCm, depthCm, gapCm));
  const outlines = pool.map((footprint) => outlineOf(footprint, gapCm));
  const chosen: number[] = [];
  const spots: Spot[] = [];
  let total = 0;
  for (const i of bySize(outlines)) {
    const outline = outlines[i]!;
    const centre = bestSpot(laid, outline, standardRules[0]!);
    if (!centre) continue;
    lay(laid, centre.turned ? turnedOutline(outline) : outline, centre.x, centre.y);
    chosen.push(i);
    spots.push(spotOf(centre, gapCm));
    total += value?.[i] ?? 4 * outline.coreX * outline.coreY;
  }
  return { chosen, spots, value: total };
}
