/** Proofs that pans need more shelves than there are, or more loads. */
import type { ShelfSpace } from "../shop.ts";
import { massSlackKg } from "./freight.ts";
import { floorOf, type FloorSize, type Outline } from "./outline.ts";
import type { Freight } from "./rack.ts";
import { mostOfSize, pairCannot, usableArea } from "./shelf-bounds.ts";

/** No fewer loads can hold these pans: by area, mass, and pans of which no two share a shelf. */
export function leastLoads(space: ShelfSpace, freight: Freight, pans: readonly number[]): number {
  if (pans.length === 0) return 0;
  const floors = floorsOf(space);
  const byArea = sumOf(pans, freight.area) / roomOf(freight, floors, pans);
  const shelfKg = space.shelves.reduce((sum, shelf) => sum + shelf.maxKg, 0);
  const byMass = sumOf(pans, freight.massKg) / shelfKg;
  const alone = apartCount(freight, floors, pans) / floors.length;
  return Math.max(1, ...[byArea, byMass, alone].map((loads) => Math.ceil(loads - 1e-9)));
}

/** Which of the limits proves that one load cannot hold all pans; undefined where none does. */
export function whyOverfull(space: ShelfSpace, freight: Freight): "area" | "shelf-mass" | undefined {
  const floors = floorsOf(space);
  for (const shelves of shelfSets(freight)) {
    const pans = freight.allowed.flatMap((own, i) => (own.every((at) => shelves.includes(at)) ? [i] : []));
    const maxKg = shelves.reduce((sum, at) => sum + space.shelves[at]!.maxKg, 0);
    if (sumOf(pans, freight.massKg) > maxKg + massSlackKg * pans.length) return "shelf-mass";
    const own = shelves.map((at) => floors[at]!);
    if (sumOf(pans, freight.area) > roomOf(freight, own, pans) * (1 + 1e-9)) return "area";
    if (tooMany(freight, own, pans) || apartCount(freight, own, pans) > own.length) return "area";
  }
  return undefined;
}

/** The distinct sets of shelves that pans are confined to, and all of them together. */
function shelfSets(freight: Freight): readonly (readonly number[])[] {
  const first = freight.allowed[0]!;
  if (
    freight.allowed.every(
      (own) => own === first || (own.length === first.length && own.every((at) => first.includes(at))),
    )
  ) {
    return [first];
  }
  const sets = new Map<string, readonly number[]>();
  const add = (shelves: readonly number[]): unknown => sets.set([...shelves].sort((a, b) => a - b).join(), shelves);
  freight.allowed.forEach(add);
  add([...new Set(freight.allowed.flat())]);
  return [...sets.values()];
}

function floorsOf(space: ShelfSpace): FloorSize[] {
  return space.shelves.map((shelf) => floorOf(shelf.widthCm, shelf.depthCm, space.gapCm));
}

function sumOf(pans: readonly number[], values: readonly number[]): number {
  let sum = 0;
  for (const i of pans) sum += values[i]!;
  return sum;
}

function roomOf(freight: Freight, floors: readonly FloorSize[], pans: readonly number[]): number {
  let leastRound = Infinity;
  for (const i of pans) leastRound = Math.min(leastRound, freight.outlines[i]!.round);
  return floors.reduce((sum, floor) => sum + usableArea(floor, leastRound), 0);
}

/** Whether, for some size, more pans hold a disc of that size than the floors can. */
function tooMany(freight: Freight, floors: readonly FloorSize[], pans: readonly number[]): boolean {
  const sizes = pans.map((i) => innerRadius(freight.outlines[i]!)).sort((a, b) => b - a);
  for (let k = 0; k < sizes.length; k++) {
    if (sizes[k + 1] === sizes[k]) continue;
    let most = 0;
    for (const floor of floors) most += mostOfSize(floor, sizes[k]!);
    if (k + 1 > most) return true;
  }
  return false;
}

function innerRadius(outline: Outline): number {
  return Math.min(outline.coreX, outline.coreY) + outline.round;
}

/** Size of a set of pans, gathered from the largest down, of which no two can share any of the floors. */
function apartCount(freight: Freight, floors: readonly FloorSize[], pans: readonly number[]): number {
  const alone: number[] = [];
  for (const i of [...pans].sort((a, b) => freight.area[b]! - freight.area[a]! || a - b)) {
    const outline = freight.outlines[i]!;
    const apart = alone.every((j) => floors.every((floor) => pairCannot(floor, outline, freight.outlines[j]!)));
    if (apart) alone.push(i);
    else if (alone.length <= 1) break;
  }
  return alone.length;
}
