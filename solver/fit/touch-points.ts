/**
 * Candidate places for one more pan: where it touches two things at once, walls or pans already laid.
 *
 * Seen from its centre, each pan laid forbids a rounded rectangle; the candidates are the crossings of those rounded
 * rectangles' borders with each other and with the lines at which the pan touches a wall.
 */
import type { Laid } from "./laid.ts";
import type { Outline } from "./outline.ts";

/** Growing list of points; `count` of them are valid. */
export interface Points {
  count: number;
  readonly x: number[];
  readonly y: number[];
}

/** Border that a laid pan's distance rule draws for the centre of a new one. */
interface Border {
  x: number;
  y: number;
  coreX: number;
  coreY: number;
  round: number;
}

/** Range of centres inside the floor, and the borders: kept from call to call to spare the allocations. */
const range = { left: 0, right: 0, front: 0, back: 0 };
const borders: Border[] = [];

/** Fills `points` with the candidate centres for the outline that lie inside the floor; not all of them are free. */
export function touchPoints(laid: Laid, outline: Outline, points: Points): void {
  points.count = 0;
  const { floor } = laid;
  const left = outline.coreX + outline.round;
  const front = outline.coreY + outline.round;
  const right = floor.width - left;
  const back = floor.depth - front;
  range.left = left - floor.slack;
  range.right = right + floor.slack;
  range.front = front - floor.slack;
  range.back = back + floor.slack;
  add(points, left, front);
  add(points, left, back);
  add(points, right, front);
  add(points, right, back);
  for (let i = 0; i < laid.count; i++) {
    const border = borderFor(laid, outline, i);
    addAtX(points, border, left);
    addAtX(points, border, right);
    addAtY(points, border, front);
    addAtY(points, border, back);
    for (let j = 0; j < i; j++) addCrossings(points, border, borders[j]!);
  }
}

function borderFor(laid: Laid, outline: Outline, i: number): Border {
  const border = borders[i] ?? (borders[i] = { x: 0, y: 0, coreX: 0, coreY: 0, round: 0 });
  border.x = laid.x[i]!;
  border.y = laid.y[i]!;
  border.coreX = laid.coreX[i]! + outline.coreX;
  border.coreY = laid.coreY[i]! + outline.coreY;
  border.round = laid.round[i]! + outline.round;
  return border;
}

function add(points: Points, x: number, y: number): void {
  if (x < range.left || x > range.right || y < range.front || y > range.back) return;
  points.x[points.count] = x;
  points.y[points.count++] = y;
}

/** Half extent of a border across the axis, at distance `along` from its centre; NaN beyond its end. */
function halfAcross(along: number, coreAlong: number, coreAcross: number, round: number): number {
  const beyond = Math.abs(along) - coreAlong;
  if (beyond <= 0) return coreAcross + round;
  return coreAcross + Math.sqrt(round * round - beyond * beyond);
}

function addAtX(points: Points, border: Border, x: number): void {
  const half = halfAcross(x - border.x, border.coreX, border.coreY, border.round);
  if (half !== half) return;
  add(points, x, border.y - half);
  add(points, x, border.y + half);
}

function addAtY(points: Points, border: Border, y: number): void {
  const half = halfAcross(y - border.y, border.coreY, border.coreX, border.round);
  if (half !== half) return;
  add(points, border.x - half, y);
  add(points, border.x + half, y);
}

function addCrossings(points: Points, first: Border, second: Border): void {
  const round = first.round + second.round;
  const apartX = Math.abs(first.x - second.x) - first.coreX - second.coreX;
  const apartY = Math.abs(first.y - second.y) - first.coreY - second.coreY;
  if (apartX > round + 1e-9 || apartY > round + 1e-9) return;
  addEdges(points, first, second);
  addEdges(points, second, first);
  if (first.coreX + first.coreY + second.coreX + second.coreY === 0) {
    addCircleCrossings(points, first.x, first.y, first.round, second.x, second.y, second.round);
  } else if (first.round > 0 && second.round > 0) addCorners(points, first, second);
}

/** Straight parts of the first border against the whole of the second. */
function addEdges(points: Points, first: Border, second: Border): void {
  if (first.coreX > 0) {
    addOnLevel(points, first, second, first.y - first.coreY - first.round);
    addOnLevel(points, first, second, first.y + first.coreY + first.round);
  }
  if (first.coreY > 0) {
    addOnUpright(points, first, second, first.x - first.coreX - first.round);
    addOnUpright(points, first, second, first.x + first.coreX + first.round);
  }
}

function addOnLevel(points: Points, first: Border, second: Border, y: number): void {
  const half = halfAcross(y - second.y, second.coreY, second.coreX, second.round);
  if (half !== half) return;
  if (Math.abs(second.x - half - first.x) <= first.coreX) add(points, second.x - half, y);
  if (Math.abs(second.x + half - first.x) <= first.coreX) add(points, second.x + half, y);
}

function addOnUpright(points: Points, first: Border, second: Border, x: number): void {
  const half = halfAcross(x - second.x, second.coreX, second.coreY, second.round);
  if (half !== half) return;
  if (Math.abs(second.y - half - first.y) <= first.coreY) add(points, x, second.y - half);
  if (Math.abs(second.y + half - first.y) <= first.coreY) add(points, x, second.y + half);
}

/** Rounded corners of both borders against each other. */
function addCorners(points: Points, first: Border, second: Border): void {
  const stepX = first.coreX > 0 ? 2 * first.coreX : 1;
  const stepY = first.coreY > 0 ? 2 * first.coreY : 1;
  const otherX = second.coreX > 0 ? 2 * second.coreX : 1;
  const otherY = second.coreY > 0 ? 2 * second.coreY : 1;
  for (let x = first.x - first.coreX; x <= first.x + first.coreX; x += stepX) {
    for (let y = first.y - first.coreY; y <= first.y + first.coreY; y += stepY) {
      for (let u = second.x - second.coreX; u <= second.x + second.coreX; u += otherX) {
        for (let v = second.y - second.coreY; v <= second.y + second.coreY; v += otherY) {
          addCircleCrossings(points, x, y, first.round, u, v, second.round);
        }
      }
    }
  }
}

function addCircleCrossings(points: Points, x: number, y: number, r: number, u: number, v: number, s: number): void {
  const dx = u - x;
  const dy = v - y;
  const apartSquared = dx * dx + dy * dy;
  if (apartSquared === 0 || apartSquared > (r + s) * (r + s)) return;
  const along = (apartSquared + r * r - s * s) / (2 * apartSquared);
  const across = Math.sqrt(Math.max(0, (r * r) / apartSquared - along * along));
  if (across === 0 && along * along * apartSquared > r * r * (1 + 1e-9)) return;
  add(points, x + along * dx - across * dy, y + along * dy + across * dx);
  if (across > 0) add(points, x + along * dx + across * dy, y + along * dy - across * dx);
}
