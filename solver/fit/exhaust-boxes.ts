/**
 * All layouts of a few boxes that can be built on the lowest stretch of the skyline, depth first: quick for the handful
 * of rectangles a shelf usually holds, and finds the pinwheels that one fixed order misses.
 */
import type { Centre } from "./greedy.ts";
import { canTurn, type FloorSize, type Outline } from "./outline.ts";

interface Stretch {
  readonly start: number;
  readonly length: number;
  readonly height: number;
}

interface Walk {
  readonly floor: FloorSize;
  readonly outlines: readonly Outline[];
  readonly alike: readonly number[];
  readonly centres: Centre[];
  readonly used: boolean[];
  nodes: number;
}

export interface Exhausted {
  readonly centres: Centre[] | undefined;
  /** True where every such layout was tried. */
  readonly complete: boolean;
  readonly nodes: number;
}

/** Looks for a layout of all boxes (outlines with the gap around them) in at most `mostNodes` partial layouts. */
export function exhaustBoxes(floor: FloorSize, outlines: readonly Outline[], mostNodes: number): Exhausted {
  const order = [...outlines].sort((a, b) => sides(b) - sides(a));
  const walk: Walk = {
    floor,
    outlines: order,
    alike: order.map((outline, i) => order.findIndex((other, j) => j < i && same(outline, other))),
    centres: [],
    used: order.map(() => false),
    nodes: mostNodes,
  };
  const area = order.reduce((sum, outline) => sum + widthOf(outline) * depthOf(outline), 0);
  const spare = (floor.width + floor.slack) * (floor.depth + floor.slack) - area;
  const found = lay(walk, [{ start: 0, length: floor.width, height: 0 }], order.length, spare);
  const centres = found ? outlines.map((outline) => take(walk, outline)) : undefined;
  return { centres, complete: walk.nodes > 0, nodes: mostNodes - walk.nodes };
}

function widthOf(outline: Outline): number {
  return 2 * (outline.coreX + outline.round);
}

function depthOf(outline: Outline): number {
  return 2 * (outline.coreY + outline.round);
}

function sides(outline: Outline): number {
  return widthOf(outline) * depthOf(outline);
}

function same(first: Outline, second: Outline): boolean {
  return first.coreX === second.coreX && first.coreY === second.coreY;
}

/** Hands out the place found for an outline, each place once. */
function take(walk: Walk, outline: Outline): Centre {
  const at = walk.outlines.findIndex((other, i) => other === outline && walk.used[i]!);
  walk.used[at] = false;
  return walk.centres[at]!;
}

function lay(walk: Walk, skyline: readonly Stretch[], left: number, spare: number): boolean {
  if (left === 0) return true;
  if (spare < 0 || walk.nodes-- <= 0) return false;
  let at = 0;
  for (let i = 1; i < skyline.length; i++) if (skyline[i]!.height < skyline[at]!.height) at = i;
  for (let i = 0; i < walk.outlines.length; i++) {
    if (walk.used[i]! || hasFreeTwin(walk, i)) continue;
    if (layOne(walk, skyline, left, spare, at, i)) return true;
    if (walk.nodes <= 0) return false;
  }
  if (skyline.length === 1) return false;
  const low = skyline[at]!;
  const next = Math.min(skyline[at - 1]?.height ?? Infinity, skyline[at + 1]?.height ?? Infinity);
  return lay(
    walk,
    replaced(walk.floor, skyline, at, [{ ...low, height: next }]),
    left,
    spare - low.length * (next - low.height),
  );
}

function hasFreeTwin(walk: Walk, i: number): boolean {
  for (let j = walk.alike[i]!; j >= 0 && j < i; j++) {
    if (!walk.used[j]! && same(walk.outlines[i]!, walk.outlines[j]!)) return true;
  }
  return false;
}

/** Tries one box on the lowest stretch: as it lies and turned, at the left end and at the right. */
function layOne(walk: Walk, skyline: readonly Stretch[], left: number, spare: number, at: number, i: number): boolean {
  const { floor } = walk;
  const low = skyline[at]!;
  const outline = walk.outlines[i]!;
  for (const turned of canTurn(outline) ? [false, true] : [false]) {
    const width = turned ? depthOf(outline) : widthOf(outline);
    const depth = turned ? widthOf(outline) : depthOf(outline);
    const rest = low.length - width;
    if (rest < -floor.slack || low.height + depth > floor.depth + floor.slack) continue;
    walk.used[i] = true;
    for (const atRight of rest > floor.slack && skyline.length > 1 ? [false, true] : [false]) {
      const x = atRight ? low.start + rest : low.start;
      const box = { start: x, length: width, height: low.height + depth };
      const beside = { start: atRight ? low.start : low.start + width, length: rest, height: low.height };
      const parts = rest <= floor.slack ? [{ ...box, length: low.length }] : atRight ? [beside, box] : [box, beside];
      walk.centres[i] = { x: x + width / 2, y: low.height + depth / 2, turned };
      if (lay(walk, replaced(floor, skyline, at, parts), left - 1, spare)) return true;
    }
    walk.used[i] = false;
  }
  return false;
}

/** The skyline with one stretch replaced and equal heights joined. */
function replaced(floor: FloorSize, skyline: readonly Stretch[], at: number, parts: readonly Stretch[]): Stretch[] {
  const joined: Stretch[] = [];
  const push = (stretch: Stretch): void => {
    const last = joined.at(-1);
    if (last && Math.abs(last.height - stretch.height) <= floor.slack) {
      const height = Math.max(last.height, stretch.height);
      joined[joined.length - 1] = { start: last.start, length: last.length + stretch.length, height };
    } else joined.push(stretch);
  };
  for (let i = 0; i < at; i++) push(skyline[i]!);
  parts.forEach(push);
  for (let i = at + 1; i < skyline.length; i++) push(skyline[i]!);
  return joined;
}
