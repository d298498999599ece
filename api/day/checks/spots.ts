/** Where a pan could stand for a coat, and what each place takes: size, height, weight, solvent, heat. */
import type { Day, DayCoat, DayOven, DayPan } from "../../contract/day.ts";

type Space = Extract<DayOven["space"], { kind: "shelves" }>;
type Shelf = Space["shelves"][number];
export type Thermal = Extract<DayOven["cycle"], { kind: "thermal" }>;

/** A shelf of an oven, or a whole oven that counts area only. */
export interface Spot {
  readonly oven: DayOven;
  readonly gapCm: number;
  readonly shelf: Shelf | undefined;
}

/** Ovens that a coat may go into and whose cycle it has figures for. */
export function ovensFor(day: Day, coat: DayCoat): DayOven[] {
  return day.ovens.filter((oven) => (coat.ovens === null || coat.ovens.includes(oven.id)) && canCycle(oven, coat));
}

function canCycle(oven: DayOven, { bake }: DayCoat): boolean {
  return oven.cycle.kind === "fixed" ? bake.cycleMinutes !== null : bake.metalLowC !== null;
}

export function spotsOf(ovens: readonly DayOven[]): Spot[] {
  return ovens.flatMap((oven): Spot[] => {
    const { space } = oven;
    if (space.kind === "area") return [{ oven, gapCm: 0, shelf: undefined }];
    return space.shelves.map((shelf) => ({ oven, gapCm: space.gapCm, shelf }));
  });
}

/** Outer measures, cm; undefined for a pan known by its area. */
export function outline({ shape }: DayPan): { readonly widthCm: number; readonly depthCm: number } | undefined {
  if (shape.kind === "area") return undefined;
  return shape.kind === "disc" ? { widthCm: shape.diameterCm, depthCm: shape.diameterCm } : shape;
}

/** In an area oven a disc counts as the square of its diameter. */
function footprintDm2(pan: DayPan): number {
  const size = outline(pan);
  if (pan.shape.kind === "area") return pan.shape.dm2;
  return size ? (size.widthCm * size.depthCm) / 100 : 0;
}

/** Base and wall, one side, m²: the coated area; undefined for a pan known by its area. */
export function coatedM2(pan: DayPan): number | undefined {
  const { shape, heightCm } = pan;
  if (shape.kind === "area") return undefined;
  const disc = shape.kind === "disc";
  const base = disc ? (Math.PI * shape.diameterCm ** 2) / 4 : shape.widthCm * shape.depthCm;
  const rim = disc ? Math.PI * shape.diameterCm : 2 * (shape.widthCm + shape.depthCm);
  return (base + rim * heightCm) / 10_000;
}

/** `scale` other than 1 asks whether the pan would fit if its measures meant another unit. */
export function takesSize(spot: Spot, pan: DayPan, scale = 1): boolean {
  const size = outline(pan);
  const { shelf, gapCm, oven } = spot;
  if (!shelf) return oven.space.kind === "area" && footprintDm2(pan) * scale ** 2 <= oven.space.dm2;
  if (!size) return false;
  const [w, d] = [size.widthCm * scale + 2 * gapCm, size.depthCm * scale + 2 * gapCm];
  const fits = (width: number, depth: number) => width <= shelf.widthCm + 1e-9 && depth <= shelf.depthCm + 1e-9;
  return fits(w, d) || (pan.shape.kind === "rectangle" && fits(d, w));
}

export function takesHeight({ shelf }: Spot, heightCm: number): boolean {
  return !shelf || heightCm <= shelf.clearHeightCm;
}

/** Kilograms that a spot bears under one pan. */
export function bearsKg({ shelf, oven }: Spot): number {
  return Math.min(shelf?.maxKg ?? Infinity, oven.maxLoadKg ?? Infinity);
}

export function solventMl(pan: DayPan, coat: DayCoat): number {
  return coat.solventMlPerM2 * (coatedM2(pan) ?? 0);
}

export interface Hottest {
  readonly airC: number;
  /** What holds it there. */
  readonly binds: "setPointMaxC" | "burner";
}

/**
 * Hottest air at a spot of a thermal oven: the highest set-point that the burner can hold in the empty oven, plus the
 * shelf's offset. Steady state of the chamber's heat balance: burner = (wall loss + exhaust)·(Ta − Tr).
 */
export function hottestAir(cycle: Thermal, offsetC: number, ambientC: number): Hottest {
  const setPointC = Math.floor(cycle.setPointMaxC / cycle.setPointStepC + 1e-9) * cycle.setPointStepC;
  const steadyC = ambientC + (1000 * cycle.burnerKW * cycle.efficiency) / (cycle.wallLossWPerK + cycle.exhaustWPerK);
  if (steadyC >= setPointC) return { airC: setPointC + offsetC, binds: "setPointMaxC" };
  const held = Math.floor(steadyC / cycle.setPointStepC) * cycle.setPointStepC;
  return { airC: held + offsetC, binds: "burner" };
}

/** True where the metal of this pan can come into the window with the guard kept at both ends. Fixed cycles are not predicted. */
export function takesHeat(spot: Spot, pan: DayPan, coat: DayCoat, ambientC: number): boolean {
  const { cycle } = spot.oven;
  const { metalLowC, metalHighC } = coat.bake;
  if (cycle.kind === "fixed" || metalLowC === null || metalHighC === null) return true;
  const needed = metalLowC + cycle.guardC;
  const most = Math.min(metalHighC, pan.metalLimitC ?? Infinity) - cycle.guardC;
  return hottestAir(cycle, spot.shelf?.offsetC ?? 0, ambientC).airC > needed && most > needed;
}
