/**
 * Search for a layout of all outlines by squeezing: from a crowded start the overlap energy falls downhill, then pans
 * hop (trade places, go to a hole, turn) and fall again, until nothing overlaps or the effort is spent.
 *
 * The scheme is basin hopping (D. Wales and J. Doye, J. Phys. Chem. A 101, 1997) on the quasi-physical energy of
 * circle packing (W. Huang and others); worse basins are taken now and then by a threshold.
 */
import type { Budget } from "./budget.ts";
import { descend, descentOf, type Descent } from "./descend.ts";
import type { Centre } from "./greedy.ts";
import { canTurn, turnedOutline, type FloorSize, type Outline } from "./outline.ts";
import type { Dice } from "./seeded.ts";
import { bodiesOf, squashOf, worstSquash, type Bodies } from "./squash.ts";

const mostEvaluations = 600;
const threshold = 0.3;
const tradeShare = 0.7;

interface Hopping {
  readonly outlines: readonly Outline[];
  readonly bodies: Bodies;
  readonly work: Descent;
  readonly dice: Dice;
  readonly budget: Budget;
  /** Indices by size, smallest first, and each body's rank in it. */
  readonly bySize: readonly number[];
  readonly rank: readonly number[];
  readonly turnable: readonly number[];
  /** Candidate layout and the one hopped from. */
  readonly point: Float64Array;
  readonly base: Float64Array;
  readonly turned: Uint8Array;
  readonly baseTurned: Uint8Array;
  readonly basePain: Float64Array;
}

/** Centres of all outlines, or undefined where the budget ended first. */
export function hopToFit(
  floor: FloorSize,
  outlines: readonly Outline[],
  budget: Budget,
  dice: Dice,
): Centre[] | undefined {
  const hopping = hoppingOf(floor, outlines, budget, dice);
  const patience = 20 * outlines.length;
  let energy = Infinity;
  let fails = 0;
  while (budget.left > 0) {
    if (energy === Infinity) scatter(hopping);
    else hop(hopping);
    const fallen = fall(hopping);
    if (worstSquash(hopping.bodies, hopping.point) <= floor.slack) return centresOf(hopping);
    const gate = energy * (1 + threshold * dice.next() * dice.next());
    if (energy === Infinity || fallen < gate) {
      fails = fallen < energy * (1 - 1e-6) ? 0 : fails + 1;
      energy = fallen;
      takeAsBase(hopping);
    } else fails++;
    if (fails > patience) {
      energy = Infinity;
      fails = 0;
    }
  }
  return undefined;
}

function hoppingOf(floor: FloorSize, outlines: readonly Outline[], budget: Budget, dice: Dice): Hopping {
  const count = outlines.length;
  const size = outlines.map((outline) => outline.coreX + outline.coreY + 2 * outline.round);
  const bySize = outlines.map((_, i) => i).sort((i, j) => size[i]! - size[j]! || i - j);
  const rank: number[] = [];
  bySize.forEach((i, at) => (rank[i] = at));
  return {
    outlines,
    bodies: bodiesOf(floor, outlines),
    work: descentOf(2 * count),
    dice,
    budget,
    bySize,
    rank,
    turnable: outlines.flatMap((outline, i) => (canTurn(outline) ? [i] : [])),
    point: new Float64Array(2 * count),
    base: new Float64Array(2 * count),
    turned: new Uint8Array(count),
    baseTurned: new Uint8Array(count),
    basePain: new Float64Array(count),
  };
}

function fall(hopping: Hopping): number {
  const { bodies, work, point, budget } = hopping;
  const enough = 0.25 * bodies.floor.slack * bodies.floor.slack;
  const fallen = descend(work, (at, gradient) => squashOf(bodies, at, gradient), point, enough, mostEvaluations);
  const count = bodies.count;
  budget.left -= fallen.evaluations * (count * count * 2.4e-5 + count * 4e-4) + 0.02;
  return fallen.value;
}

function takeAsBase(hopping: Hopping): void {
  const { bodies, work, point, base, basePain, turned, baseTurned } = hopping;
  base.set(point);
  baseTurned.set(turned);
  squashOf(bodies, base, work.gradient);
  basePain.set(bodies.pain);
}

function setTurned(hopping: Hopping, i: number, turned: boolean): void {
  const { outlines, bodies } = hopping;
  const outline = turned ? turnedOutline(outlines[i]!) : outlines[i]!;
  bodies.coreX[i] = outline.coreX;
  bodies.coreY[i] = outline.coreY;
  hopping.turned[i] = turned ? 1 : 0;
}

function scatter(hopping: Hopping): void {
  const { bodies, dice, point, turnable } = hopping;
  for (const i of turnable) setTurned(hopping, i, dice.next() < 0.5);
  for (let i = 0; i < bodies.count; i++) {
    point[i] = anywhere(hopping, bodies.coreX[i]! + bodies.round[i]!, bodies.floor.width);
    point[bodies.count + i] = anywhere(hopping, bodies.coreY[i]! + bodies.round[i]!, bodies.floor.depth);
  }
}

function anywhere(hopping: Hopping, reach: number, size: number): number {
  return reach + hopping.dice.next() * (size - 2 * reach);
}

function hop(hopping: Hopping): void {
  const { dice, point, base, baseTurned, turnable } = hopping;
  point.set(base);
  for (const i of turnable) setTurned(hopping, i, baseTurned[i] === 1);
  if (turnable.length > 0 && dice.next() < 0.3) {
    const i = turnable[dice.below(turnable.length)]!;
    setTurned(hopping, i, baseTurned[i] === 0);
    if (dice.next() < 0.5) return;
  }
  if (dice.next() < tradeShare) trade(hopping);
  else toHole(hopping, pained(hopping));
}

/** The one that hurts most for its size, of a few drawn. */
function pained(hopping: Hopping): number {
  const { bodies, outlines, basePain, dice } = hopping;
  let worst = 0;
  let pain = -1;
  for (let draw = Math.max(2, bodies.count >> 3); draw > 0; draw--) {
    const i = dice.below(bodies.count);
    const size = outlines[i]!.coreX + outlines[i]!.coreY + 2 * outlines[i]!.round;
    const share = basePain[i]! / (size * size);
    if (share > pain) {
      pain = share;
      worst = i;
    }
  }
  return worst;
}

/** Two outlines of not too different size trade places. */
function trade(hopping: Hopping): void {
  const { bodies, outlines, bySize, rank, dice, point } = hopping;
  const { count } = bodies;
  const one = dice.next() < 0.55 ? pained(hopping) : dice.below(count);
  const span = Math.max(2, Math.ceil(count / 3));
  const step = (dice.next() < 0.5 ? -1 : 1) * (1 + dice.below(span));
  let at = rank[one]! + step;
  if (at < 0) at = Math.min(count - 1, 1);
  if (at >= count) at = Math.max(0, count - 2);
  const two = bySize[at]!;
  if (sameSize(outlines[one]!, outlines[two]!)) return toHole(hopping, one);
  for (const axis of [0, count]) {
    const held = point[axis + one]!;
    point[axis + one] = point[axis + two]!;
    point[axis + two] = held;
  }
}

function sameSize(first: Outline, second: Outline): boolean {
  return first.round === second.round && first.coreX === second.coreX && first.coreY === second.coreY;
}

/** Puts one where, of many places drawn, it is farthest from the others. */
function toHole(hopping: Hopping, i: number): void {
  const { bodies, point } = hopping;
  const { count, coreX, coreY, round, floor } = bodies;
  let farthest = -Infinity;
  let bestX = point[i]!;
  let bestY = point[count + i]!;
  for (let draw = 0; draw < 60; draw++) {
    const x = anywhere(hopping, coreX[i]! + round[i]!, floor.width);
    const y = anywhere(hopping, coreY[i]! + round[i]!, floor.depth);
    let room = Infinity;
    for (let j = 0; j < count && room > farthest; j++) {
      if (j === i) continue;
      const apartX = Math.abs(x - point[j]!) - coreX[i]! - coreX[j]!;
      const apartY = Math.abs(y - point[count + j]!) - coreY[i]! - coreY[j]!;
      const apart = apartX > 0 && apartY > 0 ? Math.sqrt(apartX * apartX + apartY * apartY) : Math.max(apartX, apartY);
      room = Math.min(room, apart - round[j]!);
    }
    if (room <= farthest) continue;
    farthest = room;
    bestX = x;
    bestY = y;
  }
  hopping.budget.left -= 0.0006 * count;
  point[i] = bestX;
  point[count + i] = bestY;
}

function centresOf(hopping: Hopping): Centre[] {
  const { bodies, point, turned } = hopping;
  return hopping.outlines.map((_, i) => ({ x: point[i]!, y: point[bodies.count + i]!, turned: turned[i] === 1 }));
}
