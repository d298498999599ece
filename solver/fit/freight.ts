/** Pans of a request turned into what the load searches work on. */
import type { ShelfSpace } from "../shop.ts";
import type { PackPan } from "./footprint.ts";
import { floorOf, outlineArea, outlineOf } from "./outline.ts";
import type { Freight, Tray } from "./rack.ts";
import { fitsFloor } from "./shelf-bounds.ts";

/** Allowance for sums of masses, kg. */
export const massSlackKg = 1e-9;

/** `allowed` keeps of each pan's list the shelves that take it alone, by height, mass and size. */
export function freightOf(
  space: ShelfSpace,
  pans: readonly PackPan[],
  preference: readonly (readonly number[])[],
): Freight {
  const outlines = pans.map((pan) => outlineOf(pan.footprint, space.gapCm));
  const floors = space.shelves.map((shelf) => floorOf(shelf.widthCm, shelf.depthCm, space.gapCm));
  const allowed = pans.map((pan, i) =>
    preference[i]!.filter((at) => {
      const shelf = space.shelves[at]!;
      if (pan.heightCm > shelf.clearHeightCm || pan.massKg > shelf.maxKg + massSlackKg) return false;
      return fitsFloor(floors[at]!, outlines[i]!);
    }),
  );
  return { outlines, area: outlines.map(outlineArea), massKg: pans.map((pan) => pan.massKg), allowed };
}

/** The shelves, empty. */
export function traysOf(space: ShelfSpace): Tray[] {
  return space.shelves.map((shelf) => ({
    floor: floorOf(shelf.widthCm, shelf.depthCm, space.gapCm),
    maxKg: shelf.maxKg,
    members: [],
    centres: [],
  }));
}
