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
}

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
  return { floor, count, coreX, coreY, round, pain: new Float64Array(count) };
}

/** Energy, cm², of centres (x0..xn-1, y0..yn-1); writes its gradient and each body's pain. */
export function squashOf(bodies: Bodies, point: Float64Array, gradient: Float64Array): number {
  const { count, coreX, coreY, round, pain } = bodies;
  let energy = wallSquash(bodies, point, gradient);
  for (let i = 1; i < count; i++) {
    const xi = point[i]!;
    const yi = point[count + i]!;
    const coreXi = coreX[i]!;
    const coreYi = coreY[i]!;
    const roundI = round[i]!;
    for (let j = 0; j < i; j++) {
      const needed = roundI + round[j]!;
      const dx = xi - point[j]!;
      const apartX = (dx < 0 ? -dx : dx) - coreXi - coreX[j]!;
      if (apartX >= needed) continue;
      const dy = yi - point[count + j]!;
      const apartY = (dy < 0 ? -dy : dy) - coreYi - coreY[j]!;
      if (apartY >= needed) continue;
      let pushX = 0;
      let pushY = 0;
      let short: number;
      if (apartX > 0 && apartY > 0) {
        const apart = Math.sqrt(apartX * apartX + apartY * apartY);
        short = needed - apart;
        if (short <= 0) continue;
        pushX = apartX / apart;
        pushY = apartY / apart;
      } else if (apartX > apartY) {
        short = needed - apartX;
        pushX = 1;
      } else {
        short = needed - apartY;
        pushY = 1;
      }
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
  }
  return energy;
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
