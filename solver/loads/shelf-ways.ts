/**
 * Shelves for the kinds of a load whose windows meet on some shelves only, told by simulating its firings: quick metal, or a coat that
 * stands less heat, kept to cooler shelves than what needs more. For loads that are asked for often; keep-apart.ts tells the others.
 */
import type { BakeKind } from "../day/day-model.ts";
import type { Member } from "../heat/members.ts";
import { shelvesKept } from "../heat/shelves-kept.ts";
import type { ShelfSpace, ThermalCycle } from "../shop.ts";
import { crowdOf, memberAt } from "./lone-pan.ts";
import { shelfSets } from "./place-load.ts";

/** Chambers that are looked at, from the room's to the hottest that a door opens on or this, °C. */
const CHAMBERS = 5;
const HOTTEST_C = 350;
/** Ways of one load. */
const MOST_WAYS = 8;
/** Sets of offsets are the bits of one number. */
const MOST_OFFSETS = 30;

/** Sets of shelf offsets as bits, one per kind. */
type Way = readonly number[];

/** Undefined for more shelves of different warmth than are told apart here. */
export function shelfWays(space: ShelfSpace, cycle: ThermalCycle, ambientC: number): ShelfWays | undefined {
  const offsets = new Set(space.shelves.map(({ offsetC }) => offsetC)).size;
  return offsets <= MOST_OFFSETS ? new ShelfWays(space, cycle, ambientC) : undefined;
}

export class ShelfWays {
  readonly #cycle: ThermalCycle;
  readonly #ambientC: number;
  readonly #offsetsC: readonly number[];
  /** Per set of offsets as bits its place in `shelfSets`. */
  readonly #setOf: ReadonlyMap<number, number>;
  /** Chambers at door opening that loads are looked at from, °C. */
  readonly chambersC: readonly number[];

  constructor(space: ShelfSpace, cycle: ThermalCycle, ambientC: number) {
    this.#cycle = cycle;
    this.#ambientC = ambientC;
    const offsetsC = [...new Set(space.shelves.map(({ offsetC }) => offsetC))];
    this.#offsetsC = offsetsC;
    const bitsOf = (shelf: number): number => 1 << offsetsC.indexOf(space.shelves[shelf]!.offsetC);
    this.#setOf = new Map(
      shelfSets(space).map((set, at) => [set.reduce((bits, shelf) => bits | bitsOf(shelf), 0), at]),
    );
    const hottestC = Math.max(ambientC, Math.min(cycle.doorLimitC, HOTTEST_C));
    this.chambersC = Array.from(
      { length: CHAMBERS },
      (_, at) => ambientC + ((hottestC - ambientC) * at) / (CHAMBERS - 1),
    );
  }

  /**
   * Per kind, all different, a place in `shelfSets`: on these shelves every pan keeps its windows in one firing. Those that bake from
   * the most chambers come first, then those that leave pans the most shelves; none is told that leaves less than another with the
   * same chamber.
   */
  of(kinds: readonly BakeKind[], counts: readonly number[]): readonly (readonly number[])[] {
    const members = kinds.map((kind, at) => crowdOf(memberAt(kind, 0), counts[at]!));
    const widest = this.chambersC.map((chamberC) => this.#widest(members, chamberC));
    const found = new Map(widest.flat().map((way) => [way.join(), way]));
    const ranked = [...found.values()].map((way) => ({
      way,
      chambers: widest.filter((ways) => ways.some((other) => isWithin(way, other))).length,
      freedom: way.reduce((sum, bits, at) => sum + counts[at]! * shelvesIn(bits), 0),
    }));
    ranked.sort((a, b) => b.chambers - a.chambers || b.freedom - a.freedom);
    return ranked.slice(0, MOST_WAYS).map(({ way }) => way.map((bits) => this.#setOf.get(bits)!));
  }

  #widest(members: readonly Member[], chamberC: number): readonly Way[] {
    let ways: Way[] = [];
    for (const way of shelvesKept(this.#cycle, this.#ambientC, members, this.#offsetsC, chamberC)) {
      if (way.some((bits) => !this.#setOf.has(bits)) || ways.some((other) => isWithin(way, other))) continue;
      ways = ways.filter((other) => !isWithin(other, way));
      ways.push(way);
    }
    return ways;
  }
}

function isWithin(way: Way, other: Way): boolean {
  return way.every((bits, at) => (bits & ~other[at]!) === 0);
}

function shelvesIn(bits: number): number {
  let count = 0;
  for (let left = bits; left > 0; left &= left - 1) count++;
  return count;
}
