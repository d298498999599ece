/**
 * Which shelf for which pan of a load: slow metal to the warm shelves and quick metal to the cool ones, so that their
 * windows meet. Called while recipes are made; the geometry is fit/load-fit.ts.
 */
import type { BakeKind } from "../day/day-model.ts";
import { packLoad, type Laying } from "../fit/load-fit.ts";
import type { Footprint, PackPan } from "../fit/footprint.ts";
import type { Place } from "../fit/shelf-fit.ts";
import type { ShelfSpace } from "../shop.ts";

/** A kind this much quicker than the slowest of its load goes to the cool shelves. */
const QUICK_SHARE = 0.8;
const FIRST_SEED = 1;

/** Places of all bakes on the shelves allowed to each, in their order, or undefined when none was found. */
export function placeLoad(
  space: ShelfSpace,
  bakes: readonly BakeKind[],
  shelvesOf: (index: number) => readonly number[],
  effort: number,
  laying: Laying = "quick",
  seed = FIRST_SEED,
): readonly Place[] | undefined {
  const slownessOf = (bake: BakeKind): number => bake.body.heatJPerK / Math.max(bake.body.exchangeM2, 1e-9);
  const slowest = Math.max(...bakes.map(slownessOf));
  const preference = bakes.map((bake, index) => {
    const warmFirst = [...shelvesOf(index)].sort(
      (a, b) => space.shelves[b]!.offsetC - space.shelves[a]!.offsetC || a - b,
    );
    return slownessOf(bake) < QUICK_SHARE * slowest ? warmFirst.reverse() : warmFirst;
  });
  return packLoad(space, bakes.map(packPanOf), preference, effort, seed, laying).places;
}

export function packPanOf(bake: BakeKind): PackPan {
  return { footprint: footprintOf(bake), heightCm: bake.line.heightCm, massKg: bake.line.massKg };
}

function footprintOf({ line }: BakeKind): Footprint {
  if (line.shape.kind === "area") throw new Error(`${line.id} has only an area and cannot lie on a shelf`);
  return line.shape;
}

/**
 * Sets of shelves to try, all of them first, then ever fewer that are neighbours in offset: windows narrower than the
 * spread of the shelves still fit some of them.
 */
export function shelfSets(space: ShelfSpace): readonly (readonly number[])[] {
  const order = space.shelves.map((_, index) => index);
  order.sort((a, b) => space.shelves[b]!.offsetC - space.shelves[a]!.offsetC || a - b);
  const offsets = [...new Set(order.map((index) => space.shelves[index]!.offsetC))];
  const sets: number[][] = [];
  for (let width = offsets.length; width >= 1; width--)
    for (let from = 0; from + width <= offsets.length; from++) {
      const allowed = new Set(offsets.slice(from, from + width));
      sets.push(order.filter((index) => allowed.has(space.shelves[index]!.offsetC)));
    }
  return sets;
}
