/**
 * What a bake takes of a load at least, as shares of the roomiest oven: no load's shares of one measure sum to more than 1.
 * Measures: floor, floor of the shelves that are high enough for tall pans only, mass, solvent.
 */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { Oven, Shelf } from "../shop.ts";
import { shelfShares } from "./shelf-shares.ts";

/** Shares of one kind, one for each measure of the day. */
export type Shares = readonly number[];

/** Per kind. */
export function loadShares(day: DayModel): Shares[] {
  const { ovens } = day.request;
  const most = (of: (oven: Oven) => number): number => Math.max(...ovens.map(of));
  const kg = most(({ maxLoadKg }) => maxLoadKg);
  const ml = most(({ maxSolventMl }) => maxSolventMl);
  const gapCm = Math.min(...ovens.map(({ space }) => (space.kind === "area" ? 0 : space.gapCm)));
  const floors = heights(ovens).map((heightCm) => ({ heightCm, dm2: most((oven) => roomDm2(oven, heightCm, gapCm)) }));
  return day.kinds.map((kind) => {
    const floorDm2 = footprintDm2(kind, ovens, gapCm);
    const { massKg, heightCm } = kind.line;
    const onFloors = floors.map((floor) => (heightCm < floor.heightCm ? 0 : share(floorDm2, floor.dm2)));
    return [...onFloors, share(massKg, kg), share(kind.solventMl, ml)];
  });
}

/** The same with whole pans on shelves as one more measure; takes a second where there are many. See shelf-shares.ts. */
export function closeShares(day: DayModel): Shares[] {
  const whole = shelfShares(day);
  const shares = loadShares(day);
  return whole === undefined ? shares : shares.map((own, kind) => [...own, whole[kind]!]);
}

function share(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}

/** Least heights told apart: of any pan, and of pans that do not fit under some shelf's roof. */
function heights(ovens: readonly Oven[]): number[] {
  const roofs = ovens.flatMap(({ space }) =>
    space.kind === "area" ? [] : space.shelves.map(({ clearHeightCm }) => clearHeightCm + TINY_CM),
  );
  return [...new Set([0, ...roofs])];
}

/**
 * On shelves every pan keeps half of the gap around it to itself, and the shelf loses half of it along its edges: what is
 * left is packed without overlap. Where some ovens only count areas, the bare shape.
 */
function footprintDm2({ line: { shape }, areaDm2 }: BakeKind, ovens: readonly Oven[], gapCm: number): number {
  if (shape.kind === "area" || ovens.every(({ space }) => space.kind === "area")) return areaDm2;
  if (shape.kind === "disc") return (Math.PI * (shape.diameterCm + gapCm) ** 2) / 400;
  const { widthCm, depthCm } = shape;
  return (widthCm * depthCm + (widthCm + depthCm) * gapCm + (Math.PI * gapCm * gapCm) / 4) / 100;
}

/** Of the shelves with a roof of at least `heightCm`. */
function roomDm2({ space }: Oven, heightCm: number, gapCm: number): number {
  if (space.kind === "area") return space.dm2;
  const inside = ({ widthCm, depthCm }: Shelf): number =>
    (Math.max(0, widthCm - gapCm) * Math.max(0, depthCm - gapCm)) / 100;
  return space.shelves.reduce((sum, one) => (one.clearHeightCm < heightCm ? sum : sum + inside(one)), 0);
}

const TINY_CM = 1e-6;
