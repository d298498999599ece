/**
 * Lays boxes on the lowest part of the skyline of those below, one by one: the constructor of the rectangle search.
 *
 * A box fills a stretch best when it closes its width or ends level with a neighbour (after S. Leung, D. Zhang and
 * K. Sim, A two-stage intelligent search algorithm for the two-dimensional strip packing problem, EJOR 215, 2011).
 */
import type { FloorSize } from "./outline.ts";

/** Boxes to choose from, one array per measure; all may be turned. */
export interface Boxes {
  readonly count: number;
  readonly width: Float64Array;
  readonly depth: Float64Array;
  readonly value: Float64Array;
  readonly mass: Float64Array;
  readonly leastSide: number;
}

/** Last construction: which boxes stand, their lower left corners, turned or not. */
export interface Stack {
  value: number;
  standing: number;
  readonly stands: Uint8Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly turned: Uint8Array;
  readonly waiting: Int32Array;
  /** Skyline: stretches from left to right. */
  stretches: number;
  readonly startX: Float64Array;
  readonly height: Float64Array;
  readonly length: Float64Array;
}

export function stackOf(count: number): Stack {
  const row = (): Float64Array => new Float64Array(count + 2);
  return {
    value: 0,
    standing: 0,
    stands: new Uint8Array(count),
    x: row(),
    y: row(),
    turned: new Uint8Array(count),
    waiting: new Int32Array(count),
    stretches: 0,
    startX: row(),
    height: row(),
    length: row(),
  };
}

/** How boxes are chosen for a stretch: by the closeness of the fit first, or simply the next in order that fits. */
export type Choice = "closest" | "next";

/** Lays boxes in the given order as far as they fit and `massLeft` allows; returns the total value laid. */
export function stackBoxes(
  floor: FloorSize,
  boxes: Boxes,
  order: Int32Array,
  choice: Choice,
  massLeft: number,
  stack: Stack,
): number {
  stack.value = 0;
  stack.standing = 0;
  stack.stands.fill(0);
  stack.waiting.set(order);
  stack.stretches = 1;
  stack.startX[0] = 0;
  stack.height[0] = 0;
  stack.length[0] = floor.width;
  let waiting = order.length;
  let mass = massLeft;
  while (waiting > 0) {
    const at = lowest(stack);
    const found = choose(floor, boxes, stack, at, waiting, choice, mass);
    if (found === undefined) {
      if (!raise(floor, stack, at)) break;
      continue;
    }
    const box = stack.waiting[found >> 1]!;
    put(floor, boxes, stack, at, box, (found & 1) === 1);
    mass -= boxes.mass[box]!;
    waiting--;
    stack.waiting.copyWithin(found >> 1, (found >> 1) + 1, waiting + 1);
  }
  return stack.value;
}

function lowest(stack: Stack): number {
  let at = 0;
  for (let i = 1; i < stack.stretches; i++) if (stack.height[i]! < stack.height[at]!) at = i;
  return at;
}

/** Height of the wall beside a stretch above it: its neighbour, or the floor's end. */
function wallBeside(floor: FloorSize, stack: Stack, at: number, beside: number): number {
  const end = beside < 0 || beside >= stack.stretches ? floor.depth : stack.height[beside]!;
  return end - stack.height[at]!;
}

/** Twice the position in the waiting list of the chosen box, plus 1 where it is to be turned. */
function choose(
  floor: FloorSize,
  boxes: Boxes,
  stack: Stack,
  at: number,
  waiting: number,
  choice: Choice,
  massLeft: number,
): number | undefined {
  const slack = floor.slack;
  const length = stack.length[at]!;
  const room = floor.depth - stack.height[at]!;
  const left = wallBeside(floor, stack, at, at - 1);
  const right = wallBeside(floor, stack, at, at + 1);
  let best: number | undefined;
  let bestScore = -Infinity;
  for (let k = 0; k < waiting; k++) {
    const box = stack.waiting[k]!;
    if (boxes.mass[box]! > massLeft) continue;
    let width = boxes.width[box]!;
    let depth = boxes.depth[box]!;
    for (let turn = 0; turn < 2; turn++) {
      if (width <= length + slack && depth <= room + slack) {
        const spare = length - width;
        let score = spare <= slack ? 4 : spare < boxes.leastSide - slack ? -1 : 0;
        if (near(depth, left, slack) || near(depth, right, slack)) score += 2;
        if (score > bestScore) {
          bestScore = score;
          best = 2 * k + turn;
        }
      }
      if (width === depth) break;
      const held = width;
      width = depth;
      depth = held;
    }
    if (best !== undefined && (choice === "next" || bestScore === 6)) return best;
  }
  return best;
}

function near(first: number, second: number, slack: number): boolean {
  const apart = first - second;
  return apart <= slack && apart >= -slack;
}

/** Lifts a stretch that takes no box to its lower neighbour; false where it has none. */
function raise(floor: FloorSize, stack: Stack, at: number): boolean {
  if (stack.stretches === 1) return false;
  const left = at > 0 ? stack.height[at - 1]! : Infinity;
  const right = at < stack.stretches - 1 ? stack.height[at + 1]! : Infinity;
  stack.height[at] = Math.min(left, right);
  mergeAround(floor, stack, at);
  return true;
}

function put(floor: FloorSize, boxes: Boxes, stack: Stack, at: number, box: number, turned: boolean): void {
  const width = turned ? boxes.depth[box]! : boxes.width[box]!;
  const depth = turned ? boxes.width[box]! : boxes.depth[box]!;
  const slack = floor.slack;
  const left = wallBeside(floor, stack, at, at - 1);
  const right = wallBeside(floor, stack, at, at + 1);
  const spare = stack.length[at]! - width;
  const atLeft = spare <= slack || near(depth, left, slack) || (!near(depth, right, slack) && left >= right);
  stack.stands[box] = 1;
  stack.x[box] = atLeft ? stack.startX[at]! : stack.startX[at]! + spare;
  stack.y[box] = stack.height[at]!;
  stack.turned[box] = turned ? 1 : 0;
  stack.value += boxes.value[box]!;
  stack.standing++;
  const top = stack.height[at]! + depth;
  if (spare <= slack) {
    stack.height[at] = top;
    return mergeAround(floor, stack, at);
  }
  openAt(stack, at);
  const mine = atLeft ? at : at + 1;
  const rest = atLeft ? at + 1 : at;
  const start = stack.startX[at]!;
  const base = stack.height[at]!;
  stack.startX[mine] = atLeft ? start : start + spare;
  stack.length[mine] = width;
  stack.height[mine] = top;
  stack.startX[rest] = atLeft ? start + width : start;
  stack.length[rest] = spare;
  stack.height[rest] = base;
  mergeAround(floor, stack, mine);
}

/** Doubles a stretch to make room for one more. */
function openAt(stack: Stack, at: number): void {
  for (const row of [stack.startX, stack.height, stack.length]) row.copyWithin(at + 1, at, stack.stretches);
  stack.stretches++;
}

function closeAt(stack: Stack, at: number): void {
  for (const row of [stack.startX, stack.height, stack.length]) row.copyWithin(at, at + 1, stack.stretches);
  stack.stretches--;
}

/** Joins a stretch with neighbours of the same height. */
function mergeAround(floor: FloorSize, stack: Stack, at: number): void {
  if (at + 1 < stack.stretches && near(stack.height[at]!, stack.height[at + 1]!, floor.slack)) joinNext(stack, at);
  if (at > 0 && near(stack.height[at - 1]!, stack.height[at]!, floor.slack)) joinNext(stack, at - 1);
}

function joinNext(stack: Stack, at: number): void {
  stack.length[at] = stack.startX[at + 1]! + stack.length[at + 1]! - stack.startX[at]!;
  stack.height[at] = Math.max(stack.height[at]!, stack.height[at + 1]!);
  closeAt(stack, at + 1);
}
