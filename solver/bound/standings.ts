/**
 * On which shelves the kinds of a load may stand, as far as the exact search tells them apart. Of pans of one kind the one on
 * the coolest shelf soaks last and the one on the warmest overbakes first: a kind stands for all its pans on its coolest
 * shelf, which asks for no more of either.
 */
import type { BakeKind } from "../day/day-model.ts";
import type { ShelfSpace, AreaSpace } from "../shop.ts";
import type { Standing } from "./loose-firing.ts";
import { roomOf } from "./shelf-room.ts";

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
  const room = roomOf(space);
  const possible = all.filter((standing) => {
    const parties = groups.map(({ kind, count }, at) => {
      const { lowestOffsetC } = standing[at]!;
      const shelves = space.shelves.flatMap(({ offsetC }, shelf) => (offsetC >= lowestOffsetC ? [shelf] : []));
      return { kind, count, shelves };
    });
    return !room.neverFits(parties);
  });
  return possible.length > 0 ? possible : [free];
}

export function anywhere(kind: number, count: number, offsetsC: readonly number[]): Standing {
  return { kind, count, highestOffsetC: Math.max(...offsetsC), lowestOffsetC: Math.min(...offsetsC) };
}

function tau({ kind }: Group): number {
  return kind.body.heatJPerK / kind.body.exchangeM2;
}
