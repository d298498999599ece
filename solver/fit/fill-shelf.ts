/** Chooses from a pool the pans that fill one shelf best, and places them; used to build full loads. */
import { fillFloor } from "./fill-floor.ts";
import type { Footprint, Spot } from "./footprint.ts";
import { floorOf, outlineOf } from "./outline.ts";
import { seededDice } from "./seeded.ts";
import { fitsFloor } from "./shelf-bounds.ts";
import { spotOf } from "./shelf-fit.ts";

export interface ShelfFill {
  /** Indices into the pool, with `spots` in the same order. */
  readonly chosen: readonly number[];
  readonly spots: readonly Spot[];
  readonly value: number;
}

/** Largest total `value` found (default: area of the footprints, cm²) of pool pans that fit the shelf together. */
export function fillShelf(
  widthCm: number,
  depthCm: number,
  gapCm: number,
  pool: readonly Footprint[],
  effort: number,
  seed: number,
  value: readonly number[] = pool.map(footprintArea),
): ShelfFill {
  const floor = floorOf(widthCm, depthCm, gapCm);
  const outlines = pool.map((footprint) => outlineOf(footprint, gapCm));
  const offered = outlines.flatMap((outline, i) => (fitsFloor(floor, outline) ? [i] : []));
  const goods = {
    outlines: offered.map((i) => outlines[i]!),
    value: offered.map((i) => value[i]!),
    massKg: offered.map(() => 0),
    massLeftKg: Infinity,
  };
  const filling = fillFloor(floor, goods, { left: effort }, seededDice(seed));
  return {
    chosen: filling.chosen.map((at) => offered[at]!),
    spots: filling.centres.map((centre) => spotOf(centre, gapCm)),
    value: filling.value,
  };
}

/** cm². */
export function footprintArea(footprint: Footprint): number {
  if (footprint.kind === "disc") return (Math.PI * footprint.diameterCm * footprint.diameterCm) / 4;
  return footprint.widthCm * footprint.depthCm;
}
