/** Rule 2: the pans of a load stand on their shelves with the gap all round, and weigh and give off no more than allowed. */
import type { DayOven } from "../contract/day.ts";
import type { Line } from "./day-view.ts";
import { solventMl } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { figure, tolerance } from "./fault.ts";
import type { Load, LoadPan, PlanView } from "./plan-view.ts";
import { loadName, pieceName } from "./words.ts";

type ShelfSpace = Extract<DayOven["space"], { kind: "shelves" }>;

/** A footprint on its shelf, cm from the left front corner. A disc has halfWidth = halfDepth = radius. */
interface Footprint {
  readonly pan: LoadPan;
  readonly isDisc: boolean;
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfDepth: number;
}

export function checkSpace(plan: PlanView, report: Report): void {
  for (const load of plan.loads) {
    if (load.isFact || load.oven === undefined || load.pans.length === 0) continue;
    const { space } = load.oven;
    if (space.kind === "area") checkArea(load, space.dm2, report);
    else checkShelves(load, space, report);
    checkWholeLoad(load, load.oven, report);
  }
}

function over(sum: number, limit: number): boolean {
  return sum > limit * (1 + tolerance.sumShare);
}

function checkWholeLoad(load: Load, oven: DayOven, report: Report): void {
  const massKg = massOf(load.pans);
  const solvent = solventOf(load);
  if (oven.maxLoadKg !== null && over(massKg, oven.maxLoadKg))
    report({
      rule: "2 space",
      path: `${load.path}.massKg`,
      message: `${loadName(load)} weighs ${figure(massKg)} kg, oven ${oven.id} takes ${figure(oven.maxLoadKg)} kg.`,
      said: load.said.massKg,
      found: massKg,
    });
  if (oven.maxSolventMl !== null && over(solvent, oven.maxSolventMl))
    report({
      rule: "2 space",
      path: `${load.path}.solventMl`,
      message: `${loadName(load)} carries ${figure(solvent)} ml of solvent, oven ${oven.id} takes ${figure(oven.maxSolventMl)} ml.`,
      said: load.said.solventMl,
      found: solvent,
    });
}

/** Mass of the pans the day knows, kg. */
export function massOf(pans: readonly LoadPan[]): number {
  return pans.reduce((sum, { line }) => sum + (line?.pan.massKg ?? 0), 0);
}

/** Solvent of the whole load, ml. */
export function solventOf(load: Load): number {
  return load.pans.reduce((sum, { line, coat }) => sum + (line && coat ? solventMl(line, coat) : 0), 0);
}

function checkArea(load: Load, dm2: number, report: Report): void {
  const used = load.pans.reduce((sum, { line }) => sum + (line ? squareDm2(line) : 0), 0);
  if (over(used, dm2))
    report({
      rule: "2 space",
      path: `${load.path}.pans`,
      message: `${loadName(load)} takes ${figure(used)} dm², oven ${load.said.oven} has ${figure(dm2)} dm².`,
      found: used,
    });
}

/** Footprint where only areas count, dm²: a disc takes the square of its diameter. */
export function squareDm2(line: Line): number {
  const { shape } = line.pan;
  if (shape.kind === "disc") return (shape.diameterCm * shape.diameterCm) / 100;
  return shape.kind === "rectangle" ? (shape.widthCm * shape.depthCm) / 100 : shape.dm2;
}

function checkShelves(load: Load, space: ShelfSpace, report: Report): void {
  const byShelf = new Map<string, Footprint[]>();
  for (const pan of load.pans) {
    const footprint = footprintOf(pan);
    if (footprint === undefined) {
      if (pan.line !== undefined) report(noPlace(pan));
      continue;
    }
    const shelf = pan.said.shelf ?? "";
    byShelf.set(shelf, [...(byShelf.get(shelf) ?? []), footprint]);
  }
  for (const shelf of space.shelves) {
    const footprints = byShelf.get(shelf.id) ?? [];
    for (const footprint of footprints) checkOnShelf(footprint, shelf, space.gapCm, report);
    checkApart(footprints, space.gapCm, report);
    const massKg = massOf(footprints.map(({ pan }) => pan));
    if (shelf.maxKg !== null && over(massKg, shelf.maxKg))
      report({
        rule: "2 space",
        path: `${load.path}.pans`,
        message: `Shelf ${shelf.id} of ${loadName(load)} carries ${figure(massKg)} kg, it takes ${figure(shelf.maxKg)} kg.`,
        found: massKg,
      });
  }
}

function noPlace(pan: LoadPan): Parameters<Report>[0] {
  return {
    rule: "2 space",
    path: pan.path,
    message: `${pieceName(pan.key)} has no place on a shelf: it needs a shelf, xCm and yCm, and an outline of its own.`,
  };
}

function footprintOf(pan: LoadPan): Footprint | undefined {
  const { xCm, yCm, shelf, turned } = pan.said;
  const shape = pan.line?.pan.shape;
  if (shape === undefined || shape.kind === "area" || shelf === null || xCm === null || yCm === null) return undefined;
  const isDisc = shape.kind === "disc";
  const [width, depth] = isDisc ? [shape.diameterCm, shape.diameterCm] : [shape.widthCm, shape.depthCm];
  const [across, along] = turned ? [depth, width] : [width, depth];
  return { pan, isDisc, x: xCm, y: yCm, halfWidth: across / 2, halfDepth: along / 2 };
}

function checkOnShelf(footprint: Footprint, shelf: ShelfSpace["shelves"][number], gapCm: number, report: Report): void {
  const { pan, x, y, halfWidth, halfDepth } = footprint;
  const heightCm = pan.line?.pan.heightCm ?? 0;
  if (heightCm > shelf.clearHeightCm + tolerance.distanceCm)
    report({
      rule: "2 space",
      path: `${pan.path}.shelf`,
      message: `${pieceName(pan.key)} is ${figure(heightCm)} cm high, shelf ${shelf.id} clears ${figure(shelf.clearHeightCm)} cm.`,
      found: heightCm,
    });
  const free = Math.min(x - halfWidth, shelf.widthCm - x - halfWidth, y - halfDepth, shelf.depthCm - y - halfDepth);
  if (free < gapCm - tolerance.distanceCm)
    report({
      rule: "2 space",
      path: pan.path,
      message: `${pieceName(pan.key)} lies ${figure(free)} cm from the edge of shelf ${shelf.id}, ${figure(gapCm)} cm are needed.`,
      said: gapCm,
      found: free,
    });
}

function checkApart(footprints: readonly Footprint[], gapCm: number, report: Report): void {
  for (const [index, one] of footprints.entries()) {
    for (const other of footprints.slice(index + 1)) {
      const between = distanceCm(one, other);
      if (between >= gapCm - tolerance.distanceCm) continue;
      report({
        rule: "2 space",
        path: other.pan.path,
        message: `${pieceName(one.pan.key)} and ${pieceName(other.pan.key)} lie ${figure(between)} cm apart, ${figure(gapCm)} cm are needed.`,
        said: gapCm,
        found: between,
      });
    }
  }
}

/** Euclidean distance of two outlines, cm; not above 0 where they overlap. */
function distanceCm(one: Footprint, other: Footprint): number {
  const dx = Math.abs(one.x - other.x);
  const dy = Math.abs(one.y - other.y);
  const cornersX = (one.isDisc ? 0 : one.halfWidth) + (other.isDisc ? 0 : other.halfWidth);
  const cornersY = (one.isDisc ? 0 : one.halfDepth) + (other.isDisc ? 0 : other.halfDepth);
  const radii = (one.isDisc ? one.halfWidth : 0) + (other.isDisc ? other.halfWidth : 0);
  return Math.hypot(Math.max(0, dx - cornersX), Math.max(0, dy - cornersY)) - radii;
}
