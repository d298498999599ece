/**
 * One pan alone in an oven: how it heats on a shelf, and on which shelves it may stand. Members are kept as long as what they are made
 * of: tens of thousands of loads hold the same few.
 */
import type { BakeKind } from "../day/day-model.ts";
import type { Member } from "../heat/members.ts";
import type { ShelfSpace } from "../shop.ts";
import { placeLoad } from "./place-load.ts";

const alone = new WeakMap<BakeKind, Map<number, Member>>();
const crowds = new WeakMap<Member, Map<number, Member>>();

/** The pan as a member on shelf air `offsetC` from the chamber; its coat must have a cure window. */
export function memberAt(kind: BakeKind, offsetC: number): Member {
  return kept(alone, kind, offsetC, () => {
    const { body, coat, highC } = kind;
    const { metalLowC, soakLeastMinutes, soakMostMinutes } = coat.window!;
    return { count: 1, body, offsetC, lowC: metalLowC, highC, soakLeastMinutes, soakMostMinutes };
  });
}

/** So many of a member alone. */
export function crowdOf(member: Member, count: number): Member {
  return count === 1 ? member : kept(crowds, member, count, () => ({ ...member, count }));
}

function kept<Of extends object>(
  all: WeakMap<Of, Map<number, Member>>,
  of: Of,
  number: number,
  make: () => Member,
): Member {
  let own = all.get(of);
  if (own === undefined) all.set(of, (own = new Map()));
  let member = own.get(number);
  if (member === undefined) own.set(number, (member = make()));
  return member;
}

/** The same, or undefined for a bake without a cure window. */
export function memberOn(kind: BakeKind, offsetC: number): Member | undefined {
  return kind.coat.window === null ? undefined : memberAt(kind, offsetC);
}

/** Offsets of the shelves that take the pan, °C, each once. */
export function loneOffsets(space: ShelfSpace, kind: BakeKind): number[] {
  const takes = space.shelves.filter((_, shelf) => placeLoad(space, [kind], () => [shelf], 0) !== undefined);
  return [...new Set(takes.map((shelf) => shelf.offsetC))];
}
