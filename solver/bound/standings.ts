/**
 * On which shelves the kinds of a load may stand, as far as the exact search tells them apart. Of pans of one kind the one on
 * the coolest shelf soaks last and the one on the warmest overbakes first: a kind stands for all its pans on its coolest
 * shelf, which asks for no more of either.
 */
import type { BakeKind } from "../day/day-model.ts";
import { packLoad } from "../fit/load-fit.ts";
import type { ShelfSpace, AreaSpace } from "../shop.ts";
import type { Standing } from "./loose-firing.ts";

export interface Group {
  readonly kind: BakeKind;
  readonly number: number;
  readonly count: number;
  /** Of the shelves that take one of its pans. */
  readonly offsetsC: readonly number[];
}

/** `toldApart`: as in Grain. */
export function standingsOf(
  space: ShelfSpace | AreaSpace,
  groups: readonly Group[],
  toldApart: number,
): readonly (readonly Standing[])[] {
  const free = groups.map(({ number, count, offsetsC }) => anywhere(number, count, offsetsC));
  if (space.kind === "area") return [free];
  // The slowest kind decides how long, the quickest how hot.
  const bySpeed = groups.map((_, at) => at).sort((a, b) => tau(groups[a]!) - tau(groups[b]!));
  const told = new Set([bySpeed.at(-1)!, bySpeed[0]!].slice(0, toldApart));
  let all: Standing[][] = [[]];
  groups.forEach(({ number, count, offsetsC }, at) => {
    const own = told.has(at) ? [...new Set(offsetsC)].map((offset) => anywhere(number, count, [offset])) : [free[at]!];
    all = all.flatMap((before) => own.map((one) => [...before, one]));
  });
  const possible = all.filter((standing) => {
    const bakes = groups.flatMap(({ kind, count }) => Array.from({ length: count }, () => kind));
    const shelves = groups.flatMap(({ count }, at) => {
      const warm = space.shelves.flatMap(({ offsetC }, shelf) =>
        offsetC >= standing[at]!.lowestOffsetC ? [shelf] : [],
      );
      return Array.from({ length: count }, () => warm);
    });
    return !neverFits(space, bakes, shelves);
  });
  return possible.length > 0 ? possible : [free];
}

export function anywhere(kind: number, count: number, offsetsC: readonly number[]): Standing {
  return { kind, count, highestOffsetC: Math.max(...offsetsC), lowestOffsetC: Math.min(...offsetsC) };
}

/** True only where no layout exists. */
export function neverFits(
  space: ShelfSpace,
  bakes: readonly BakeKind[],
  shelves: readonly (readonly number[])[],
): boolean {
  const pans = bakes.map(({ line }) => {
    if (line.shape.kind === "area") throw new Error(`${line.id} has only an area and cannot lie on a shelf`);
    return { footprint: line.shape, heightCm: line.heightCm, massKg: line.massKg };
  });
  const fit = packLoad(space, pans, shelves, 0, 1);
  return fit.places === undefined && fit.proven;
}

function tau({ kind }: Group): number {
  return kind.body.heatJPerK / kind.body.exchangeM2;
}
