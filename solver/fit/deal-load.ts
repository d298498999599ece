/**
 * Deals the pans of a load out to its shelves, each of which takes a handful that is known to lie on it: depth first, so that a pan
 * taken back makes room for another, which laying them one by one never does.
 */
import { massSlackKg } from "./freight.ts";
import type { Freight, Tray } from "./rack.ts";
import { bySize, emptyPattern, MOST_LAID_ANEW, withPan, type ShelfPattern } from "./shelf-patterns.ts";

/** Questions whether a shelf takes one pan more, in one deal: one that is found takes some ten, of the others most have ended by then. */
const MOST_ASKED = 600;

interface Deal {
  readonly freight: Freight;
  /** Pans in the order of dealing. */
  readonly order: readonly number[];
  /** Along the order: the pan is like the one before, and goes on no shelf before that one's. */
  readonly repeats: readonly boolean[];
  /** Per shelf. */
  readonly patterns: ShelfPattern[];
  readonly massLeftKg: number[];
  /** Along the order: the place of the shelf in the pan's list. */
  readonly chosen: number[];
  asked: number;
}

export interface DealtLoad {
  /** The shelves with all pans on them, the first in a pan's list where it has the choice; undefined where no deal was found. */
  readonly trays: readonly Tray[] | undefined;
  /** All ways were gone through: as far as is known of single shelves there is none. */
  readonly isImpossible: boolean;
}

/** One deal of all pans, where there is one within reach. None of many small ones: handfuls of those seldom come again. */
export function dealLoad(freight: Freight, trays: readonly Tray[]): DealtLoad {
  if (freight.outlines.length > MOST_LAID_ANEW * trays.length) return { trays: undefined, isImpossible: false };
  const order = freight.outlines.map((_, pan) => pan).sort((one, other) => byChoice(freight, one, other));
  const deal: Deal = {
    freight,
    order,
    repeats: order.map((pan, at) => at > 0 && isAlike(freight, order[at - 1]!, pan)),
    patterns: trays.map(({ floor }) => emptyPattern(floor)),
    massLeftKg: trays.map(({ maxKg }) => maxKg + massSlackKg),
    chosen: [],
    asked: 0,
  };
  if (isDealt(deal, 0)) return { trays: trays.map((tray, shelf) => filled(deal, tray, shelf)), isImpossible: false };
  return { trays: undefined, isImpossible: deal.asked < MOST_ASKED };
}

/** Pans with the fewest shelves first, large before small, heavy before light. */
function byChoice({ allowed, outlines, massKg }: Freight, one: number, other: number): number {
  return (
    allowed[one]!.length - allowed[other]!.length ||
    bySize(outlines[one]!, outlines[other]!) ||
    massKg[other]! - massKg[one]! ||
    one - other
  );
}

function isAlike({ allowed, outlines, massKg }: Freight, one: number, other: number): boolean {
  if (outlines[one] !== outlines[other] || massKg[one] !== massKg[other]) return false;
  return allowed[one]!.length === allowed[other]!.length && allowed[one]!.every((at, k) => at === allowed[other]![k]);
}

/** Deals the pans from `at` on; false where those dealt so far leave no way. */
function isDealt(deal: Deal, at: number): boolean {
  const { freight, order, repeats, patterns, massLeftKg, chosen } = deal;
  if (at === order.length) return true;
  const pan = order[at]!;
  const massKg = freight.massKg[pan]!;
  const allowed = freight.allowed[pan]!;
  for (let choice = repeats[at] ? chosen[at - 1]! : 0; choice < allowed.length; choice++) {
    const shelf = allowed[choice]!;
    if (massLeftKg[shelf]! < massKg) continue;
    if (deal.asked >= MOST_ASKED) return false;
    deal.asked++;
    const before = patterns[shelf]!;
    const after = withPan(before, freight.outlines[pan]!);
    if (after === undefined) continue;
    patterns[shelf] = after;
    massLeftKg[shelf]! -= massKg;
    chosen[at] = choice;
    if (isDealt(deal, at + 1)) return true;
    patterns[shelf] = before;
    massLeftKg[shelf]! += massKg;
  }
  return false;
}

function filled({ freight, order, chosen, patterns }: Deal, tray: Tray, shelf: number): Tray {
  const members = order.filter((pan, at) => freight.allowed[pan]![chosen[at]!] === shelf);
  // Along the pattern.
  members.sort((one, other) => bySize(freight.outlines[one]!, freight.outlines[other]!));
  return { ...tray, members, centres: patterns[shelf]!.centres };
}
