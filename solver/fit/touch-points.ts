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

/** Fills `points` with the candidate centres for the outline; many of them may turn out not to be free. */
export function touchPoints(laid: Laid, outline: Outline, points: Points): void {
  points.count = 0;
  const left = outline.coreX + outline.round;
  const front = outline.coreY + outline.round;
  const right = laid.floor.width - left;
  const back = laid.floor.depth - front;
  add(points, left, front);
  add(points, left, back);
  add(points, right, front);
  add(points, right, back);
  const borders = bordersFor(laid, outline);
  for (let i = 0; i < borders.length; i++) {
    const border = borders[i]!;
    addAtX(points, border, left);
    addAtX(points, border, right);
    addAtY(points, border, front);
    addAtY(points, border, back);
    for (let j = 0; j < i; j++) addCrossings(points, border, borders[j]!);
  }
}

function bordersFor(laid: Laid, outline: Outline): Border[] {
  const borders: Border[] = [];
  for (let i = 0; i < laid.count; i++) {
    borders.push({
      x: laid.x[i]!,
      y: laid.y[i]!,
      coreX: laid.coreX[i]! + outline.coreX,
      coreY: laid.coreY[i]! + outline.coreY,
      round: laid.round[i]! + outline.round,
    });
  }
  return borders;
}

function add(points: Points, x: number, y: number): void {
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
  if (first.round > 0 && second.round > 0) addCorners(points, first, second);
}

/** Straight parts of the first border against the whole of the second. */
function addEdges(points: Points, first: Border, second: Border): void {
  if (first.coreX > 0) {
    for (const y of [first.y - first.coreY - first.round, first.y + first.coreY + first.round]) {
      const half = halfAcross(y - second.y, second.coreY, second.coreX, second.round);
      if (half !== half) continue;
      if (Math.abs(second.x - half - first.x) <= first.coreX) add(points, second.x - half, y);
      if (Math.abs(second.x + half - first.x) <= first.coreX) add(points, second.x + half, y);
    }
  }
  if (first.coreY > 0) {
    for (const x of [first.x - first.coreX - first.round, first.x + first.coreX + first.round]) {
      const half = halfAcross(x - second.x, second.coreX, second.coreY, second.round);
      if (half !== half) continue;
      if (Math.abs(second.y - half - first.y) <= first.coreY) add(points, x, second.y - half);
      if (Math.abs(second.y + half - first.y) <= first.coreY) add(points, x, second.y + half);
    }
  }
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
