/** One pan alone in an oven: how it heats on a shelf, and on which shelves it may stand. */
import type { BakeKind } from "../day/day-model.ts";
import type { Member } from "../heat/members.ts";
import type { ShelfSpace } from "../shop.ts";
import { placeLoad } from "./place-load.ts";

/** The pan as a member on shelf air `offsetC` from the chamber; its coat must have a cure window. */
export function memberAt({ body, coat, highC }: BakeKind, offsetC: number): Member {
  const { metalLowC, soakLeastMinutes, soakMostMinutes } = coat.window!;
  return { count: 1, body, offsetC, lowC: metalLowC, highC, soakLeastMinutes, soakMostMinutes };
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
