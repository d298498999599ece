/**
 * What a pan takes of a load's shelves at least, in whole pans: weights by shape such that no load that may lie on the shelves
 * has more than 1 in all, and the day's bakes as much as possible. The LP of bin packing over patterns (Gilmore and Gomory, A
 * linear programming approach to the cutting-stock problem, Operations Research 9, 1961) in its dual form, its rows made as they
 * are found violated. Whatever the LP solver says, the weights are scaled by the heaviest pattern there is.
 */
import type { DayModel } from "../day/day-model.ts";
import type { PackPan } from "../fit/footprint.ts";
import { floorOf, outlineArea, outlineOf } from "../fit/outline.ts";
import { usableArea } from "../fit/shelf-bounds.ts";
import { packPanOf } from "../loads/place-load.ts";
import { createLp } from "../lp/lp.ts";
import type { LinearModel } from "../lp/model.ts";
import type { Shelf, ShelfSpace } from "../shop.ts";
import { CLOSE_PATIENCE, PATIENCE, roomOf } from "./shelf-room.ts";

/** Pans of one shape and height. */
interface Shape {
  readonly pan: PackPan;
  readonly areaCm2: number;
  /** Pans of it, and bakes of these. */
  pans: number;
  bakes: number;
}

/** Shelves of one kind; `inOven[o]`: how many of them oven o has. */
interface ShelfSort {
  readonly space: ShelfSpace;
  readonly shelf: number;
  readonly areaCm2: number;
  readonly inOven: number[];
}

/** Counts per shape that may lie on a shelf of one sort. */
interface Pattern {
  readonly sort: number;
  readonly counts: readonly number[];
}

const NOWHERE = -1;
const MOST_ROUNDS = 60;
/** Partial patterns looked at, and partial choices of proofs gone through, in all. */
const MOST_PARTIAL = 150_000;
const MOST_LOOKED = 40_000;
/** Of more pans so many patterns are asked about that close looks at some would be paid for by none at others. */
const FEW_PANS = 14;
const TINY = 1e-7;

const known = new WeakMap<DayModel, readonly number[] | null>();

/**
 * Per kind, 0 where it fits no oven; undefined where some oven has no shelves, or where nothing better than by floor was found. Kept
 * as long as the day.
 */
export function shelfShares(day: DayModel): readonly number[] | undefined {
  let shares = known.get(day);
  if (shares === undefined) known.set(day, (shares = workedOut(day) ?? null));
  return shares ?? undefined;
}

function workedOut(day: DayModel): readonly number[] | undefined {
  const { ovens } = day.request;
  const spaces = ovens.flatMap(({ space }) => (space.kind === "shelves" ? [space] : []));
  if (spaces.length < ovens.length || day.bakes.length === 0) return undefined;
  const { shapes, shapeOf } = shapesOf(day);
  const sorts = sortsOf(spaces);
  const weights = heaviestDay(shapes, sorts, spaces.length);
  return weights && day.kinds.map((_, kind) => weights[shapeOf[kind]!] ?? 0);
}

function shapesOf(day: DayModel): { readonly shapes: Shape[]; readonly shapeOf: number[] } {
  const shapes: Shape[] = [];
  const index = new Map<string, number>();
  const gapCm = Math.min(...day.request.ovens.map(({ space }) => (space.kind === "shelves" ? space.gapCm : 0)));
  const shapeOf = day.kinds.map((kind) => {
    if (kind.ovens.length === 0) return NOWHERE;
    const { footprint, heightCm } = packPanOf(kind);
    const name = JSON.stringify([footprint, heightCm]);
    const before = index.get(name);
    if (before !== undefined) return before;
    index.set(name, shapes.length);
    const areaCm2 = outlineArea(outlineOf(footprint, gapCm));
    return shapes.push({ pan: { footprint, heightCm, massKg: 0 }, areaCm2, pans: 0, bakes: 0 }) - 1;
  });
  for (const { kind } of day.bakes) if (shapeOf[kind] !== NOWHERE) shapes[shapeOf[kind]!]!.bakes++;
  for (const { due } of day.pans) {
    const shape = due.map(({ kind }) => shapeOf[kind]!).find((one) => one !== NOWHERE);
    if (shape !== undefined) shapes[shape]!.pans++;
  }
  return { shapes, shapeOf };
}

function sortsOf(spaces: readonly ShelfSpace[]): ShelfSort[] {
  const sorts = new Map<string, ShelfSort>();
  spaces.forEach((space, oven) =>
    space.shelves.forEach((one, shelf) => {
      const { widthCm, depthCm, clearHeightCm } = one;
      const name = [space.gapCm, widthCm, depthCm, clearHeightCm].join();
      const sort = sorts.get(name) ?? { space, shelf, areaCm2: areaOf(space, one), inOven: spaces.map(() => 0) };
      sort.inOven[oven]!++;
      sorts.set(name, sort);
    }),
  );
  return [...sorts.values()];
}

function areaOf({ gapCm }: ShelfSpace, { widthCm, depthCm }: Shelf): number {
  return usableArea(floorOf(widthCm, depthCm, gapCm), 0);
}

/** Weights per shape of which no oven's load has more than 1, the best of all rounds; undefined where no round ended. */
function heaviestDay(shapes: readonly Shape[], sorts: readonly ShelfSort[], ovens: number): number[] | undefined {
  const lp = createLp();
  const pans = shapes.reduce((sum, one) => sum + one.pans, 0);
  const each = pans <= FEW_PANS ? CLOSE_PATIENCE : PATIENCE;
  const patience = { partial: MOST_PARTIAL, looked: MOST_LOOKED, each };
  const patterns: Pattern[] = sorts.flatMap((_, sort) =>
    shapes.map((__, shape) => ({ sort, counts: shapes.map((___, at) => (at === shape ? 1 : 0)) })),
  );
  let best: number[] | undefined;
  // No better than by floor is not worth having.
  const floorCm2 = Math.max(
    ...Array.from({ length: ovens }, (_, oven) => sorts.reduce((sum, one) => sum + one.inOven[oven]! * one.areaCm2, 0)),
  );
  let most = shapes.reduce((sum, { bakes, areaCm2 }) => sum + bakes * areaCm2, 0) / floorCm2;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const answer = lp.solve(modelOf(shapes, sorts, patterns, ovens));
    if (answer.status !== "optimal") break;
    const weights = answer.x.slice(0, shapes.length);
    const heaviest = sorts.map((sort) => heaviestPattern(shapes, sort, weights, patience));
    if (heaviest.some((one) => one === undefined)) break;
    const loads = Array.from({ length: ovens }, (_, oven) =>
      sorts.reduce((sum, { inOven }, at) => sum + inOven[oven]! * heaviest[at]!.weight, 0),
    );
    const load = Math.max(...loads);
    if (load <= 0) break;
    const filled = shapes.reduce((sum, { bakes }, at) => sum + bakes * weights[at]!, 0) / load;
    if (filled > most + TINY) {
      most = filled;
      best = weights.map((weight) => Math.max(0, weight) / load);
    }
    const before = patterns.length;
    heaviest.forEach((one, sort) => {
      if (one!.weight > answer.x[shapes.length + sort]! + TINY) patterns.push({ sort, counts: one!.counts });
    });
    if (patterns.length === before) break;
  }
  return best;
}

/** Columns: weight per shape, then weight that a shelf of each sort holds. */
function modelOf(
  shapes: readonly Shape[],
  sorts: readonly ShelfSort[],
  patterns: readonly Pattern[],
  ovens: number,
): LinearModel {
  const shelfOf = (sort: number): number => shapes.length + sort;
  return {
    sense: "max",
    columns: [...shapes.map(({ bakes }) => ({ cost: bakes })), ...sorts.map(() => ({ cost: 0 }))],
    rows: [
      ...patterns.map(({ sort, counts }) => {
        const held = counts.flatMap((count, shape) => (count > 0 ? [shape] : []));
        return {
          kind: "<=" as const,
          rhs: 0,
          columns: [...held, shelfOf(sort)],
          values: [...held.map((shape) => counts[shape]!), -1],
        };
      }),
      ...Array.from({ length: ovens }, (_, oven) => {
        const own = sorts.flatMap(({ inOven }, sort) => (inOven[oven]! > 0 ? [sort] : []));
        return {
          kind: "<=" as const,
          rhs: 1,
          columns: own.map(shelfOf),
          values: own.map((sort) => sorts[sort]!.inOven[oven]!),
        };
      }),
    ],
  };
}

/** Work that is left. */
interface Patience {
  partial: number;
  looked: number;
  /** Partial choices of one proof at most. */
  readonly each: number;
}

interface Heaviest {
  readonly weight: number;
  readonly counts: readonly number[];
}

/** Depth first over shapes, most weight for its floor first; what does not beat the heaviest so far is not proven either way. */
function heaviestPattern(
  shapes: readonly Shape[],
  { space, shelf, areaCm2 }: ShelfSort,
  weights: readonly number[],
  patience: Patience,
): Heaviest | undefined {
  const room = roomOf(space);
  const looked = room.looked;
  const isSpent = (): boolean => patience.partial <= 0 || room.looked - looked > patience.looked;
  const density = (shape: number): number => weights[shape]! / shapes[shape]!.areaCm2;
  const order = shapes
    .map((_, shape) => shape)
    .filter((shape) => weights[shape]! > TINY && room.mayHold(shelf, [shapes[shape]!.pan], patience.each))
    .sort((a, b) => density(b) - density(a));
  let best: Heaviest = { weight: 0, counts: shapes.map(() => 0) };
  const pans: PackPan[] = [];
  const counts = shapes.map(() => 0);
  const extend = (from: number, weight: number, spareCm2: number): void => {
    for (let at = from; at < order.length; at++) {
      const shape = order[at]!;
      const { pan, areaCm2: own, pans: most } = shapes[shape]!;
      if (weight + spareCm2 * density(shape) <= best.weight + TINY || isSpent()) return;
      if (counts[shape]! >= most || own > spareCm2 * (1 + 1e-9)) continue;
      patience.partial--;
      pans.push(pan);
      const next = weight + weights[shape]!;
      if (next <= best.weight + TINY || room.mayHold(shelf, pans, patience.each)) {
        counts[shape]!++;
        if (next > best.weight + TINY) best = { weight: next, counts: [...counts] };
        extend(at, next, spareCm2 - own);
        counts[shape]!--;
      }
      pans.pop();
    }
  };
  extend(0, 0, areaCm2);
  if (isSpent()) return undefined;
  patience.looked -= room.looked - looked;
  return best;
}
