/**
 * How bakes may stand in an oven together, by shelves, and which of them heat alike. Called while recipes are made; whether an
 * arrangement can be fired is asked afterwards.
 */
import type { BakeKind } from "../day/day-model.ts";
import type { Laying } from "../fit/load-fit.ts";
import { Layout } from "../fit/layout.ts";
import type { Place } from "../fit/shelf-fit.ts";
import type { Member } from "../heat/members.ts";
import type { Oven } from "../shop.ts";
import type { ShelvesApart } from "./keep-apart.ts";
import { crowdOf, memberOn } from "./lone-pan.ts";
import { placeLoad, shelfSets } from "./place-load.ts";

/** The layout of all bakes, where one is known, or the effort that looking for one is worth: see fit/load-fit.ts. */
export type Packing = Looking | { readonly places: readonly Place[] };

export interface Looking {
  readonly effort: number;
  /** Of the search that the effort is spent on; default 1. */
  readonly seed?: number;
  /** Per different kind, in the order of the bakes, a place in `shelfSets`: no other shelves are looked at. */
  readonly shelfSet?: readonly number[];
  readonly laying?: Laying;
  /** Kinds are kept apart too where that may let them bake together. */
  readonly apart?: ShelvesApart | undefined;
}

/** Where each bake stands and which heat alike; `layout` and `memberOf` run along the bakes. */
export interface Arrangement {
  /** Null in an oven whose space is an area. */
  readonly layout: Layout | null;
  /** Empty in an oven with a fixed cycle. */
  readonly members: readonly Member[];
  /** -1 for a bake without a cure window. */
  readonly memberOf: readonly number[];
}

/** The most promising first; none where the oven has no room for the bakes. */
export function* arrangements(
  { space, cycle }: Oven,
  bakes: readonly BakeKind[],
  packing: Packing,
): Generator<Arrangement> {
  if (space.kind === "area") {
    const dm2 = bakes.reduce((sum, bake) => sum + bake.areaDm2, 0);
    if (dm2 <= space.dm2 + TINY) yield { layout: null, members: [], memberOf: [] };
    return;
  }
  if ("places" in packing) {
    if (cycle.kind === "fixed") yield { layout: new Layout(packing.places), members: [], memberOf: [] };
    return;
  }
  const { effort, laying, shelfSet, apart, seed } = packing;
  if (cycle.kind === "fixed") {
    const shelves = allShelves(space.shelves.length);
    const places = placeLoad(space, bakes, () => shelves, effort, laying);
    if (places !== undefined) yield { layout: new Layout(places), members: [], memberOf: [] };
    return;
  }
  const sets = shelfSets(space);
  const arranged = (places: readonly Place[]): Arrangement => ({
    layout: new Layout(places),
    ...gatherMembers(bakes, (index) => space.shelves[places[index]!.shelf]!.offsetC),
  });
  if (shelfSet !== undefined) {
    const places = placeLoad(space, bakes, toldShelves(sets, bakes, shelfSet), effort, laying, seed);
    if (places !== undefined) yield arranged(places);
    return;
  }
  const full: (readonly number[])[] = [];
  for (const set of sets) {
    // Where these shelves are too few, so are some of them.
    if (full.some((wider) => set.every((shelf) => wider.includes(shelf)))) continue;
    const places = placeLoad(space, bakes, () => set, effort, laying);
    if (places !== undefined) yield arranged(places);
    else if (set === sets[0]) return;
    else full.push(set);
  }
  for (const way of apart?.ways([...new Set(bakes)]) ?? []) {
    const places = placeLoad(space, bakes, toldShelves(sets, bakes, way), effort, laying);
    if (places !== undefined) yield arranged(places);
  }
}

/** Shelves per bake, where `shelfSet` tells them for each different kind of bakes that stand in the order of their kinds. */
function toldShelves(
  sets: readonly (readonly number[])[],
  bakes: readonly BakeKind[],
  shelfSet: readonly number[],
): (index: number) => readonly number[] {
  let group = -1;
  const groupOf = bakes.map((bake, index) => (bake === bakes[index - 1] ? group : ++group));
  return (index) => sets[shelfSet[groupOf[index]!]!]!;
}

/** Alike bakes on shelves of one offset heat alike, so that one member stands for all of them. */
function gatherMembers(bakes: readonly BakeKind[], offsetOf: (index: number) => number): Omit<Arrangement, "layout"> {
  const alone: Member[] = [];
  const counts: number[] = [];
  const memberOf = bakes.map((bake, at) => {
    const member = memberOn(bake, offsetOf(at));
    if (member === undefined) return -1;
    const known = alone.findIndex((other) => heatAlike(other, member));
    if (known >= 0) counts[known]!++;
    else counts[alone.push(member) - 1] = 1;
    return known >= 0 ? known : alone.length - 1;
  });
  return { members: alone.map((member, at) => crowdOf(member, counts[at]!)), memberOf };
}

function heatAlike(one: Member, other: Member): boolean {
  return (
    one === other ||
    (one.body.exchangeM2 === other.body.exchangeM2 &&
      one.body.heatJPerK === other.body.heatJPerK &&
      one.offsetC === other.offsetC &&
      one.lowC === other.lowC &&
      one.highC === other.highC &&
      one.soakLeastMinutes === other.soakLeastMinutes &&
      one.soakMostMinutes === other.soakMostMinutes)
  );
}

function allShelves(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index);
}

/** Sums of dm² carry rounding. */
const TINY = 1e-9;
