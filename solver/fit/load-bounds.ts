/** Proofs that pans need more shelves or loads than there are. */
import type { ShelfSpace } from "../shop.ts";
import { floorOf } from "./outline.ts";
import type { Freight } from "./rack.ts";
import { pairCannot, usableArea } from "./shelf-bounds.ts";

/** No fewer loads can hold these pans: by area, mass, and pans of which no two share a shelf. */
export function leastTrays(space: ShelfSpace, freight: Freight, pans: readonly number[]): number {
  if (pans.length === 0) return 0;
  const sum = (list: readonly number[]): number => list.reduce((total, value) => total + value, 0);
  const floors = space.shelves.map((shelf) => floorOf(shelf.widthCm, shelf.depthCm, space.gapCm));
  const leastRound = Math.min(...pans.map((i) => freight.outlines[i]!.round));
  const room = sum(floors.map((floor) => usableArea(floor, leastRound)));
  const byArea = Math.ceil(sum(pans.map((i) => freight.area[i]!)) / room - 1e-9);
  const byMass = Math.ceil(sum(pans.map((i) => freight.massKg[i]!)) / sum(space.shelves.map((s) => s.maxKg)) - 1e-9);
  const alone: number[] = [];
  for (const i of [...pans].sort((a, b) => freight.area[b]! - freight.area[a]! || a - b)) {
    const apart = (j: number): boolean =>
      floors.every((floor) => pairCannot(floor, freight.outlines[i]!, freight.outlines[j]!));
    if (alone.every(apart)) alone.push(i);
  }
  return Math.max(1, byArea, byMass, Math.ceil(alone.length / space.shelves.length));
}
