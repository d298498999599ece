/** A floor with the pans laid on it so far: one array per coordinate, since the searches read them millions of times. */
import { type FloorSize, type Outline } from "./outline.ts";

export interface Laid {
  readonly floor: FloorSize;
  count: number;
  /** Centres in the floor's own frame, cores as they lie, roundings. */
  readonly x: number[];
  readonly y: number[];
  readonly coreX: number[];
  readonly coreY: number[];
  readonly round: number[];
}

export function emptyLaid(floor: FloorSize): Laid {
  return { floor, count: 0, x: [], y: [], coreX: [], coreY: [], round: [] };
}

/** Lays an outline down; whether it keeps its distances is the caller's care. */
export function lay(laid: Laid, outline: Outline, x: number, y: number): void {
  const at = laid.count++;
  laid.x[at] = x;
  laid.y[at] = y;
  laid.coreX[at] = outline.coreX;
  laid.coreY[at] = outline.coreY;
  laid.round[at] = outline.round;
}

/** Whether the outline with its centre at (x, y) keeps its distance to every pan laid and lies inside the floor. */
export function isFree(laid: Laid, outline: Outline, x: number, y: number): boolean {
  const { floor, x: xs, y: ys, coreX, coreY, round } = laid;
  const slack = floor.slack;
  const reachX = outline.coreX + outline.round - slack;
  const reachY = outline.coreY + outline.round - slack;
  if (x < reachX || y < reachY || x > floor.width - reachX || y > floor.depth - reachY) return false;
  for (let i = laid.count - 1; i >= 0; i--) {
    const needed = outline.round + round[i]! - slack;
    let apartX = Math.abs(x - xs[i]!) - outline.coreX - coreX[i]!;
    if (apartX >= needed) continue;
    let apartY = Math.abs(y - ys[i]!) - outline.coreY - coreY[i]!;
    if (apartY >= needed) continue;
    if (apartX < 0) apartX = 0;
    if (apartY < 0) apartY = 0;
    if (needed > 0 && apartX * apartX + apartY * apartY < needed * needed) return false;
    if (needed <= 0 && apartX === 0 && apartY === 0) return false;
  }
  return true;
}
