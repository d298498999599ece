/** Can these pans share one load, and where does each stand? Called by load forming and the search. */
import type { ShelfSpace } from "../shop.ts";
import type { PackPan, Place } from "./footprint.ts";
import { bestSpot, standardRules } from "./greedy.ts";
import { emptyLaid, lay, type Laid } from "./laid.ts";
import { boxArea, floorOf, outlineOf, turnedOutline } from "./outline.ts";
import { fitsFloor } from "./shelf-bounds.ts";
import { spotOf } from "./shelf-fit.ts";

export interface LoadFit {
  /** In the order of the pans. */
  readonly places: readonly Place[];
}

export interface NoFit {
  readonly places: undefined;
  /** True: no layout exists. False: none was found within the effort. */
  readonly proven: boolean;
  readonly why: "height" | "shelf-mass" | "single" | "area" | "search";
}

/**
 * Places for all pans of a load on an oven's shelves: gap, clear heights and shelf masses kept. `preference[i]` lists
 * the shelf indices pan i may use, best first. `effort` bounds the search beyond greedy.
 */
export function packLoad(
  space: ShelfSpace,
  pans: readonly PackPan[],
  preference: readonly (readonly number[])[],
  effort: number,
  seed: number,
): LoadFit | NoFit {
  const order = pans.map((_, i) => i).sort((i, j) => area(space, pans[j]!) - area(space, pans[i]!) || i - j);
  const places: Place[] = [];
  const laidPans: PackPan[] = [];
  const laidPlaces: Place[] = [];
  for (const i of order) {
    const place = addToLayout(space, laidPans, laidPlaces, pans[i]!, preference[i]!);
    if (!place) return { places: undefined, proven: false, why: "search" };
    places[i] = place;
    laidPans.push(pans[i]!);
    laidPlaces.push(place);
  }
  return { places };
}

function area(space: ShelfSpace, pan: PackPan): number {
  return boxArea(outlineOf(pan.footprint, space.gapCm));
}

/** A place for one more pan among pans that stay where they are; undefined where no shelf of its list has one. */
export function addToLayout(
  space: ShelfSpace,
  pans: readonly PackPan[],
  places: readonly Place[],
  pan: PackPan,
  preference: readonly number[],
): Place | undefined {
  const outline = outlineOf(pan.footprint, space.gapCm);
  for (const index of preference) {
    const shelf = space.shelves[index]!;
    if (pan.heightCm > shelf.clearHeightCm) continue;
    if (massOn(pans, places, index) + pan.massKg > shelf.maxKg + 1e-9) continue;
    const laid = laidOn(space, pans, places, index);
    if (!fitsFloor(laid.floor, outline)) continue;
    const centre = bestSpot(laid, outline, standardRules[0]!);
    if (centre) return { shelf: index, ...spotOf(centre, space.gapCm) };
  }
  return undefined;
}

function massOn(pans: readonly PackPan[], places: readonly Place[], shelf: number): number {
  let mass = 0;
  for (let i = 0; i < pans.length; i++) if (places[i]!.shelf === shelf) mass += pans[i]!.massKg;
  return mass;
}

function laidOn(space: ShelfSpace, pans: readonly PackPan[], places: readonly Place[], index: number): Laid {
  const shelf = space.shelves[index]!;
  const laid = emptyLaid(floorOf(shelf.widthCm, shelf.depthCm, space.gapCm));
  for (let i = 0; i < pans.length; i++) {
    const place = places[i]!;
    if (place.shelf !== index) continue;
    const outline = outlineOf(pans[i]!.footprint, space.gapCm);
    const shift = space.gapCm / 2;
    lay(laid, place.turned ? turnedOutline(outline) : outline, place.xCm - shift, place.yCm - shift);
  }
  return laid;
}
