/**
 * Proof that a few pans cannot lie on one floor together: every two of them keep their distance in some direction, so all
 * choices of directions are gone through, ever finer, until each has been ruled out by the floor's edges. The method is the
 * branching over relative positions that exact rectangle packing uses (Onodera, Taniguchi and Tamaru, Branch-and-bound placement
 * for building block layout, DAC 1991), with the angle between rounded outlines bisected.
 */
import type { FloorSize, Outline } from "./outline.ts";
import { canTurn, turnedOutline } from "./outline.ts";

/** Directions closer together than this are not told apart, radians. */
const LEAST_ANGLE = Math.PI / 64;
const RIGHT_ANGLE = Math.PI / 2;
/** Sums of sizes carry rounding, cm. */
const TINY_CM = 1e-6;

/**
 * How two outlines keep apart: `x` or `y` sideways only, whatever the other axis does; `corner` by the distance of their nearest
 * corners, in a direction between `from` and `to` (0: along x). `signX` and `signY`: on which side the second lies.
 */
interface Relation {
  readonly way: "x" | "y" | "corner";
  readonly signX: 1 | -1;
  readonly signY: 1 | -1;
  readonly from: number;
  readonly to: number;
}

const SIGNS = [1, -1] as const;
const ANY_CORNER = SIGNS.flatMap((signX) =>
  SIGNS.map((signY): Relation => ({ way: "corner", signX, signY, from: 0, to: RIGHT_ANGLE })),
);
const SIDES = SIGNS.flatMap((sign): Relation[] => [
  { way: "x", signX: sign, signY: 1, from: 0, to: 0 },
  { way: "y", signX: 1, signY: sign, from: 0, to: 0 },
]);

/** Where the centres may be, cm: lowX, highX, lowY, highY of each outline in turn. */
type Spans = Float64Array;

interface Pair {
  readonly one: number;
  readonly other: number;
  /** Sums over both, cm: half cores along x and y, and roundings. */
  readonly coreX: number;
  readonly coreY: number;
  readonly round: number;
}

/** Left of what the proof may look at: partial choices. Counted down. */
export interface Patience {
  left: number;
}

/** True only where no layout of all outlines on the floor exists. Undecided where patience runs out. */
export function provenOverfull(floor: FloorSize, outlines: readonly Outline[], patience: Patience): boolean {
  if (outlines.length < 2) return false;
  const sorted = [...outlines].sort((a, b) => b.coreX - a.coreX || b.coreY - a.coreY || b.round - a.round);
  for (const turned of turnings(sorted)) if (!overfullAsTurned(floor, turned, patience)) return false;
  return true;
}

/** All ways to turn outlines by 90°, of alike ones the first so many. */
function* turnings(outlines: readonly Outline[], from = 0): Generator<readonly Outline[]> {
  if (from === outlines.length) {
    yield outlines;
    return;
  }
  let to = from + 1;
  while (to < outlines.length && isAlike(outlines[to]!, outlines[from]!)) to++;
  const most = canTurn(outlines[from]!) ? to - from : 0;
  for (let many = 0; many <= most; many++)
    yield* turnings(
      outlines.map((outline, at) => (at >= from && at < from + many ? turnedOutline(outline) : outline)),
      to,
    );
}

function isAlike(one: Outline, other: Outline): boolean {
  return one.coreX === other.coreX && one.coreY === other.coreY && one.round === other.round;
}

function overfullAsTurned(floor: FloorSize, outlines: readonly Outline[], patience: Patience): boolean {
  const count = outlines.length;
  const spans = new Float64Array(4 * count);
  outlines.forEach(({ coreX, coreY, round }, at) => {
    spans[4 * at] = coreX + round - floor.slack;
    spans[4 * at + 1] = floor.width - coreX - round + floor.slack;
    spans[4 * at + 2] = coreY + round - floor.slack;
    spans[4 * at + 3] = floor.depth - coreY - round + floor.slack;
  });
  // Every layout has a mirror image in which the first stands in the front half.
  spans[3] = Math.min(spans[3]!, floor.depth / 2 + floor.slack);
  const opens: Open[] = [];
  for (let other = 1; other < count; other++)
    for (let one = 0; one < other; one++) {
      const [a, b] = [outlines[one]!, outlines[other]!];
      const cores = a.coreX + b.coreX + a.coreY + b.coreY > 0;
      const open = (cores ? [...SIDES, ...ANY_CORNER] : ANY_CORNER).filter(
        // Alike ones are numbered from left to right.
        ({ way, signX }) => !isAlike(a, b) || signX === 1 || way === "y",
      );
      const [coreX, coreY] = [a.coreX + b.coreX, a.coreY + b.coreY];
      opens.push({ pair: { one, other, coreX, coreY, round: a.round + b.round - 2 * floor.slack }, open });
    }
  return ruledOut(spans, opens, patience);
}

/** A pair and the relations that are left to it. */
interface Open {
  readonly pair: Pair;
  readonly open: readonly Relation[];
}

/** Whether no centres within the spans keep every pair apart. Spans are narrowed in place. */
function ruledOut(spans: Spans, given: readonly Open[], patience: Patience): boolean {
  if (patience.left-- <= 0) return false;
  const opens = [...given];
  for (let changed = true; changed;) {
    changed = false;
    for (let at = 0; at < opens.length; at++) {
      const { pair, open } = opens[at]!;
      const left = open.flatMap((relation) => narrowed(spans, pair, relation) ?? []);
      if (left.length === 0) return true;
      opens[at] = { pair, open: left };
      if (left.length === 1 && apply(spans, pair, left[0]!)) changed = true;
    }
  }
  const chosen = choose(spans, opens);
  if (chosen === undefined) return false;
  const { pair, open } = opens[chosen]!;
  for (const part of open.length > 1 ? open : halves(open[0]!)) {
    const tried = Float64Array.from(spans);
    const next = opens.with(chosen, { pair, open: [part] });
    if (!ruledOut(tried, next, patience)) return false;
  }
  return true;
}

/** The pair with the fewest relations left, or the one of widest angle; undefined where all are as fine as can be. */
function choose(spans: Spans, opens: readonly Open[]): number | undefined {
  let best: number | undefined;
  let fewest = Infinity;
  for (let at = 0; at < opens.length; at++) {
    const { pair, open } = opens[at]!;
    if (open.length > 1 && open.length < fewest && !keepsApart(spans, pair)) {
      best = at;
      fewest = open.length;
    }
  }
  if (best !== undefined) return best;
  let widest = LEAST_ANGLE;
  for (let at = 0; at < opens.length; at++) {
    const { pair, open } = opens[at]!;
    const { way, from, to } = open[0]!;
    if (way !== "corner" || open.length > 1 || to - from <= widest || keepsApart(spans, pair)) continue;
    best = at;
    widest = to - from;
  }
  return best;
}

function halves(relation: Relation): Relation[] {
  const middle = (relation.from + relation.to) / 2;
  return [
    { ...relation, to: middle },
    { ...relation, from: middle },
  ];
}

/** Wherever the centres are. */
function keepsApart(spans: Spans, { one, other, coreX, coreY, round }: Pair): boolean {
  const apart = (axis: number, core: number): number => {
    const [a, b] = [4 * one + axis, 4 * other + axis];
    return Math.max(0, Math.max(spans[b]! - spans[a + 1]!, spans[a]! - spans[b + 1]!) - core);
  };
  return Math.hypot(apart(0, coreX), apart(2, coreY)) >= round;
}

/** The relation with only those directions that the spans allow; undefined where none is left. */
function narrowed(spans: Spans, pair: Pair, relation: Relation): Relation | undefined {
  const { coreX, coreY, round } = pair;
  const { way, signX, signY } = relation;
  const mostX = mostApart(spans, pair, 0, signX) - coreX;
  const mostY = mostApart(spans, pair, 2, signY) - coreY;
  if (way === "x") return mostX < round - TINY_CM ? undefined : relation;
  if (way === "y") return mostY < round - TINY_CM ? undefined : relation;
  if (mostX < -TINY_CM || mostY < -TINY_CM) return undefined;
  const from = Math.max(relation.from, Math.acos(Math.min(1, Math.max(0, mostX + TINY_CM) / round)));
  const to = Math.min(relation.to, Math.asin(Math.min(1, Math.max(0, mostY + TINY_CM) / round)));
  if (from > to) return undefined;
  return from === relation.from && to === relation.to ? relation : { ...relation, from, to };
}

/** How far the second centre can lie on that side of the first. */
function mostApart(spans: Spans, { one, other }: Pair, axis: number, sign: 1 | -1): number {
  const [a, b] = [4 * one + axis, 4 * other + axis];
  return sign > 0 ? spans[b + 1]! - spans[a]! : spans[a + 1]! - spans[b]!;
}

/** Narrows the spans of both; true where that changed anything. */
function apply(spans: Spans, pair: Pair, { way, signX, signY, from, to }: Relation): boolean {
  const { coreX, coreY, round } = pair;
  let changed = false;
  if (way !== "y") {
    const least = way === "x" ? coreX + round : coreX + round * Math.cos(to);
    changed = push(spans, pair, 0, signX, least - TINY_CM);
  }
  if (way !== "x") {
    const least = way === "y" ? coreY + round : coreY + round * Math.sin(from);
    changed = push(spans, pair, 2, signY, least - TINY_CM) || changed;
  }
  return changed;
}

/** Less than this is no change, cm. */
const LEAST_CHANGE = 1e-3;

function push(spans: Spans, { one, other }: Pair, axis: number, sign: 1 | -1, least: number): boolean {
  const near = 4 * (sign > 0 ? one : other) + axis;
  const far = 4 * (sign > 0 ? other : one) + axis;
  let changed = false;
  if (spans[near]! + least > spans[far]! + LEAST_CHANGE) {
    spans[far] = spans[near]! + least;
    changed = true;
  }
  if (spans[far + 1]! - least < spans[near + 1]! - LEAST_CHANGE) {
    spans[near + 1] = spans[far + 1]! - least;
    changed = true;
  }
  return changed;
}
