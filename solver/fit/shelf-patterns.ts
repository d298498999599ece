/**
 * Which pans lie on one floor together, remembered: loads are many, but few pans share a shelf and most come in a few sizes, so that
 * searches ask for the same handfuls over and over (patterns as in cutting stock: P. Gilmore and R. Gomory, A linear programming
 * approach to the cutting-stock problem, Operations Research 9, 1961).
 */
import { fitFloor } from "./fill-floor.ts";
import { bestSpot, laidAt, standardRules, type Centre } from "./greedy.ts";
import { outlineArea, type FloorSize, type Outline } from "./outline.ts";
import { seededDice } from "./seeded.ts";

/** Pans on one floor, large before small. */
export interface ShelfPattern {
  readonly floor: FloorSize;
  readonly outlines: readonly Outline[];
  /** In the order of the outlines. */
  readonly centres: readonly Centre[];
  /** With one pan more of that outline, as asked so far; null where no room was found. */
  readonly next: Map<Outline, ShelfPattern | null>;
}

/** Spent on pans that do not just find room beside those before, see budget.ts: more finds hardly any more. */
const EFFORT = 1;
/** So many pans of one floor are laid anew together; with more, the last finds room beside the others or not at all. */
export const MOST_LAID_ANEW = 9;
/** Some 500 bytes each. */
const MOST_PATTERNS = 30_000;

const empty = new Map<string, ShelfPattern>();
let made = 0;

export function emptyPattern(floor: FloorSize): ShelfPattern {
  if (made > MOST_PATTERNS) {
    empty.clear();
    made = 0;
  }
  const key = `${floor.width}/${floor.depth}/${floor.slack}`;
  let pattern = empty.get(key);
  if (pattern === undefined) empty.set(key, (pattern = { floor, outlines: [], centres: [], next: new Map() }));
  return pattern;
}

/** With one pan more; undefined where no room was found, however the pattern came about. */
export function withPan(pattern: ShelfPattern, outline: Outline): ShelfPattern | undefined {
  const known = pattern.next.get(outline);
  if (known !== undefined) return known ?? undefined;
  const { floor, outlines } = pattern;
  const last = outlines.at(-1);
  if (last === undefined || bySize(last, outline) <= 0) return withSmallest(pattern, outline);
  let all: ShelfPattern | undefined = emptyPattern(floor);
  for (const one of [...outlines, outline].sort(bySize)) all = all && withSmallest(all, one);
  pattern.next.set(outline, all ?? null);
  return all;
}

/** Large before small; 0 for the same only. */
export function bySize(one: Outline, other: Outline): number {
  return (
    outlineArea(other) - outlineArea(one) ||
    other.coreX - one.coreX ||
    other.coreY - one.coreY ||
    other.round - one.round
  );
}

function withSmallest(pattern: ShelfPattern, outline: Outline): ShelfPattern | undefined {
  const known = pattern.next.get(outline);
  if (known !== undefined) return known ?? undefined;
  const { floor } = pattern;
  const outlines = [...pattern.outlines, outline];
  const spot = bestSpot(laidAt(floor, pattern.outlines, pattern.centres), outline, standardRules[0]!);
  const centres = spot === undefined ? laidAnew(floor, outlines) : [...pattern.centres, spot];
  const after = centres && { floor, outlines, centres, next: new Map<Outline, ShelfPattern | null>() };
  pattern.next.set(outline, after ?? null);
  made++;
  return after;
}

function laidAnew(floor: FloorSize, outlines: readonly Outline[]): readonly Centre[] | undefined {
  if (outlines.length > MOST_LAID_ANEW) return undefined;
  return fitFloor(floor, outlines, { left: EFFORT }, seededDice(1));
}
