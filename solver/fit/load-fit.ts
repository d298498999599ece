/** Can these pans share one load, and where does each stand? Called by load forming and the search. */
import type { Shelf, ShelfSpace } from "../shop.ts";
import type { PackPan, Place } from "./footprint.ts";
import { freightOf, massSlackKg, traysOf } from "./freight.ts";
import { bestSpot, standardRules } from "./greedy.ts";
import { emptyLaid, lay, type Laid } from "./laid.ts";
import { whyOverfull } from "./load-bounds.ts";
import { layGreedily } from "./load-greedy.ts";
import { withShare } from "./budget.ts";
import { dealLoad } from "./deal-load.ts";
import { hopRack } from "./hop.ts";
import { floorOf, isDisc, outlineOf, turnedOutline } from "./outline.ts";
import { emptyPool } from "./pool-search.ts";
import type { Rack, Tray } from "./rack.ts";
import { seededDice } from "./seeded.ts";
import { fitsFloor } from "./shelf-bounds.ts";
import { spotOf } from "./shelf-fit.ts";

/** What is tried before any effort is spent: greedy orders, or those and a deal by what is known of single shelves. */
export type Laying = "quick" | "dealt";

export interface LoadFit {
  /** In the order of the pans. */
  readonly places: readonly Place[];
}

export interface NoFit {
  readonly places: undefined;
  /** True: no layout exists. False: none was found within the effort. */
  readonly proven: boolean;
  /** "height", "shelf-mass" and "single" name a pan no shelf of its list takes; "shelf-mass" also all together. */
  readonly why: "height" | "shelf-mass" | "single" | "area" | "search";
}

/**
 * Places for all pans of a load on an oven's shelves: gap, clear heights and shelf masses kept. `preference[i]` lists
 * the shelf indices pan i may use, best first. `effort` bounds the search beyond `laying`, in steps of about 50 µs.
 * Deterministic in all arguments.
 */
export function packLoad(
  space: ShelfSpace,
  pans: readonly PackPan[],
  preference: readonly (readonly number[])[],
  effort: number,
  seed: number,
  laying: Laying = "quick",
): LoadFit | NoFit {
  if (pans.length === 0) return { places: [] };
  const freight = freightOf(space, pans, preference);
  const homeless = freight.allowed.findIndex((own) => own.length === 0);
  if (homeless >= 0) {
    return { places: undefined, proven: true, why: whyHomeless(space, pans[homeless]!, preference[homeless]!) };
  }
  const overfull = whyOverfull(space, freight);
  if (overfull) return { places: undefined, proven: true, why: overfull };
  const trays = traysOf(space);
  const dealt = laying === "dealt" ? dealLoad(freight, trays) : undefined;
  // Greedy orders hardly ever find what no deal does, and a deal tells sooner than they.
  if (dealt?.isImpossible === true && effort <= 0) return NONE_FOUND;
  // First as it was laid greedily: plans of loads that were dealt out wherever they can be are dearer.
  const rack = layGreedily(freight, trays);
  if (rack.pool.length === 0) return { places: placesOf(rack.trays, space.gapCm) };
  if (dealt?.trays !== undefined) return { places: placesOf(dealt.trays, space.gapCm) };
  return layRest(rack, effort, seed) ? { places: placesOf(rack.trays, space.gapCm) } : NONE_FOUND;
}

const NONE_FOUND: NoFit = { places: undefined, proven: false, why: "search" };

/** Discs hop first, rectangles are re-offered first; each method gets the other's case too. */
function layRest(rack: Rack, effort: number, seed: number): boolean {
  if (effort <= 0) return false;
  const dice = seededDice(seed);
  const budget = { left: effort };
  const share = rack.freight.outlines.some(isDisc) ? 0.5 : 0.15;
  return withShare(budget, share, (part) => hopRack(rack, part, dice)) || emptyPool(rack, budget, dice);
}

function whyHomeless(
  space: ShelfSpace,
  pan: PackPan,
  preference: readonly number[],
): "height" | "shelf-mass" | "single" {
  const shelves = preference.map((at) => space.shelves[at]!);
  const tall = shelves.filter((shelf) => pan.heightCm <= shelf.clearHeightCm);
  if (tall.length === 0) return "height";
  return tall.some((shelf) => takesMass(shelf, pan.massKg)) ? "single" : "shelf-mass";
}

function takesMass(shelf: Shelf, massKg: number): boolean {
  return massKg <= shelf.maxKg + massSlackKg;
}

function placesOf(trays: readonly Tray[], gapCm: number): Place[] {
  const places: Place[] = [];
  trays.forEach((tray, shelf) => {
    tray.members.forEach((i, at) => (places[i] = { shelf, ...spotOf(tray.centres[at]!, gapCm) }));
  });
  return places;
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
    if (!takesMass(shelf, massOn(pans, places, index) + pan.massKg)) continue;
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
