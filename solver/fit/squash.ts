/** Overlap of a layout as an energy: the sum of squared missing distances, zero exactly where every rule is kept. */
import type { FloorSize, Outline } from "./outline.ts";

/** Outlines as they lie, one array per measure. */
export interface Bodies {
  readonly floor: FloorSize;
  readonly count: number;
  readonly coreX: Float64Array;
  readonly coreY: Float64Array;
  readonly round: Float64Array;
  /** Own share of each body's overlaps after the last evaluation. */
  readonly pain: Float64Array;
  readonly near: Near;
}

/** Pairs that may touch: all that were within `margin` of touching when the centres were at `seen`. */
interface Near {
  readonly pairs: Int32Array;
  count: number;
  readonly seen: Float64Array;
  /** 0 until the pairs were gathered. */
  margin: number;
}

/** From this count on, far pairs are left out of account. */
const many = 12;

export function bodiesOf(floor: FloorSize, outlines: readonly Outline[]): Bodies {
  const count = outlines.length;
  const coreX = new Float64Array(count);
  const coreY = new Float64Array(count);
  const round = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    coreX[i] = outlines[i]!.coreX;
    coreY[i] = outlines[i]!.coreY;
    round[i] = outlines[i]!.round;
  }
  const pairs = new Int32Array(Math.max(0, count * (count - 1)));
  const near = { pairs, count: 0, seen: new Float64Array(2 * count), margin: 0 };
  return { floor, count, coreX, coreY, round, pain: new Float64Array(count), near };
}

/** Energy, cm², of centres (x0..xn-1, y0..yn-1); writes its gradient and each body's pain. */
export function squashOf(bodies: Bodies, point: Float64Array, gradient: Float64Array): number {
  const { count, coreX, coreY, round, pain, near } = bodies;
  if (isStale(near, point)) gather(bodies, point);
  let energy = wallSquash(bodies, point, gradient);
  const { pairs } = near;
  for (let k = 0; k < near.count; k += 2) {
    const i = pairs[k]!;
    const j = pairs[k + 1]!;
    const needed = round[i]! + round[j]!;
    const dx = point[i]! - point[j]!;
    const apartX = (dx < 0 ? -dx : dx) - coreX[i]! - coreX[j]!;
    if (apartX >= needed) continue;
    const dy = point[count + i]! - point[count + j]!;
    const apartY = (dy < 0 ? -dy : dy) - coreY[i]! - coreY[j]!;
    if (apartY >= needed) continue;
    let pushX = 0;
    let pushY = 0;
    let short = needed - (apartX > apartY ? apartX : apartY);
    if (apartX > 0 && apartY > 0) {
      const squared = apartX * apartX + apartY * apartY;
      if (squared >= needed * needed) continue;
      const apart = Math.sqrt(squared);
      short = needed - apart;
      pushX = apartX / apart;
      pushY = apartY / apart;
    } else if (apartX > apartY) pushX = 1;
    else pushY = 1;
    const square = short * short;
    energy += square;
    pain[i]! += square;
    pain[j]! += square;
    pushX *= dx < 0 ? 2 * short : -2 * short;
    pushY *= dy < 0 ? 2 * short : -2 * short;
    gradient[i]! += pushX;
    gradient[j]! -= pushX;
    gradient[count + i]! += pushY;
    gradient[count + j]! -= pushY;
  }
  return energy;
}

/** Whether some centre went farther than half the margin since the pairs were gathered. */
function isStale(near: Near, point: Float64Array): boolean {
  const { seen, margin } = near;
  if (margin === Infinity) return false;
  const most = margin / 2;
  for (let k = 0; k < seen.length; k++) {
    const moved = point[k]! - seen[k]!;
    if (moved > most || moved < -most) return true;
  }
  return margin === 0;
}

function gather(bodies: Bodies, point: Float64Array): void {
  const { count, coreX, coreY, round, near } = bodies;
  let reach = 0;
  for (let i = 0; i < count; i++) reach += round[i]! + Math.min(coreX[i]!, coreY[i]!);
  near.margin = count < many ? Infinity : (0.6 * reach) / count;
  near.seen.set(point);
  let found = 0;
  for (let i = 1; i < count; i++) {
    const x = point[i]!;
    const y = point[count + i]!;
    const reachX = coreX[i]! + round[i]! + near.margin;
    const reachY = coreY[i]! + round[i]! + near.margin;
    for (let j = 0; j < i; j++) {
      if (Math.abs(x - point[j]!) >= reachX + coreX[j]! + round[j]!) continue;
      if (Math.abs(y - point[count + j]!) >= reachY + coreY[j]! + round[j]!) continue;
      near.pairs[found++] = i;
      near.pairs[found++] = j;
    }
  }
  near.count = found;
}

function wallSquash(bodies: Bodies, point: Float64Array, gradient: Float64Array): number {
  const { floor, count, coreX, coreY, round, pain } = bodies;
  let energy = 0;
  for (let i = 0; i < count; i++) {
    const reachX = coreX[i]! + round[i]!;
    const reachY = coreY[i]! + round[i]!;
    const x = beyond(point[i]!, reachX, floor.width);
    const y = beyond(point[count + i]!, reachY, floor.depth);
    gradient[i] = 2 * x;
    gradient[count + i] = 2 * y;
    pain[i] = x * x + y * y;
    energy += pain[i]!;
  }
  return energy;
}

/** How far the centre sticks out of its range, negative below it; measured from the middle where there is no range. */
function beyond(at: number, reach: number, size: number): number {
  if (2 * reach >= size) return at - size / 2;
  if (at < reach) return at - reach;
  return at > size - reach ? at - size + reach : 0;
}

/** Largest missing distance, cm, between any two bodies or a body and a wall. */
export function worstSquash(bodies: Bodies, point: Float64Array): number {
  const { floor, count, coreX, coreY, round } = bodies;
  let worst = 0;
  for (let i = 0; i < count; i++) {
    const x = point[i]!;
    const y = point[count + i]!;
    const reachX = coreX[i]! + round[i]!;
    const reachY = coreY[i]! + round[i]!;
    worst = Math.max(worst, reachX - x, x + reachX - floor.width, reachY - y, y + reachY - floor.depth);
    for (let j = 0; j < i; j++) {
      const apartX = Math.abs(x - point[j]!) - coreX[i]! - coreX[j]!;
      const apartY = Math.abs(y - point[count + j]!) - coreY[i]! - coreY[j]!;
      const apart = apartX > 0 && apartY > 0 ? Math.hypot(apartX, apartY) : Math.max(apartX, apartY);
      worst = Math.max(worst, round[i]! + round[j]! - apart);
    }
  }
  return worst;
}
