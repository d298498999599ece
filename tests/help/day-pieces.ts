/** Invented pieces of cookware: what they are made of, how they lie on a shelf, and which coat systems suit them. */
import type { DayFile } from "../../api/contract/day.ts";
import type { Chance } from "./day-chance.ts";
import type { CoatingId } from "./day-coatings.ts";

export const materials = {
  aluminium: { specificHeatJPerKgK: 900 },
  "cast iron": { specificHeatJPerKgK: 500 },
  "carbon steel": { specificHeatJPerKgK: 490 },
  "aluminised steel": { specificHeatJPerKgK: 490 },
} satisfies DayFile["materials"];

/** kg/m³; Incropera et al., Fundamentals of Heat and Mass Transfer, Table A.1, rounded. */
const density = { aluminium: 2700, "cast iron": 7200, "carbon steel": 7850, "aluminised steel": 7850 } as const;

export interface Piece {
  readonly shape: DayFile["pans"][number]["shape"];
  readonly heightCm: number;
  readonly massKg: number;
  readonly material: keyof typeof materials;
  readonly coatings: readonly CoatingId[];
}

type Draw = (chance: Chance) => Piece;

export function inventPiece(chance: Chance): Piece {
  return chance.byShare<Draw>([
    [30, thinDisc],
    [16, handledPan],
    [14, castSkillet],
    [10, castPot],
    [10, steelPan],
    [12, tin],
    [8, lid],
  ])(chance);
}

const thinDisc: Draw = (chance) =>
  piece(disc(chance.stepped(18, 34, 2)), chance.stepped(4, 7, 0.5), chance.stepped(2, 4.5, 0.5), "aluminium", [
    "two-coat",
    "two-coat",
    "three-coat",
    "sol-gel",
  ]);

const handledPan: Draw = (chance) => {
  const rim = chance.stepped(20, 30, 2);
  return piece(rectangle(rim + chance.whole(16, 20), rim), 5, chance.oneOf([2.5, 3.5]), "aluminium", [
    "two-coat",
    "three-coat",
    "sol-gel",
  ]);
};

const castSkillet: Draw = (chance) => {
  const rim = chance.stepped(20, 28, 2);
  return piece(rectangle(rim + chance.whole(10, 14), rim), 5, chance.stepped(3.5, 5, 0.5), "cast iron", [
    "cast-two-coat",
    "two-coat",
  ]);
};

const castPot: Draw = (chance) =>
  piece(disc(chance.stepped(20, 28, 2)), chance.stepped(9, 12, 1), chance.stepped(3.5, 5, 0.5), "cast iron", [
    "cast-two-coat",
    "sol-gel",
  ]);

const steelPan: Draw = (chance) => {
  const rim = chance.stepped(20, 28, 2);
  return piece(rectangle(rim + chance.whole(17, 21), rim), 4.5, chance.oneOf([1.5, 2, 2.5]), "carbon steel", [
    "two-coat",
  ]);
};

const tin: Draw = (chance) => {
  const loaf = chance.happens(0.4);
  const shape = loaf
    ? rectangle(chance.whole(26, 34), chance.whole(11, 14))
    : rectangle(chance.whole(36, 56), chance.whole(26, 38));
  return piece(shape, loaf ? chance.whole(7, 10) : chance.whole(2, 4), chance.oneOf([0.8, 1]), "aluminised steel", [
    "tin-glaze",
    "tin-glaze",
    "two-coat",
  ]);
};

const lid: Draw = (chance) =>
  piece(disc(chance.stepped(20, 32, 2)), 3, chance.oneOf([1.5, 2]), "aluminium", ["sol-gel", "two-coat"]);

function disc(diameterCm: number): Piece["shape"] {
  return { kind: "disc", diameterCm };
}

function rectangle(widthCm: number, depthCm: number): Piece["shape"] {
  return { kind: "rectangle", widthCm, depthCm };
}

/** Mass from base and wall at the given thickness; the handle weighs nothing here. */
function piece(
  shape: Piece["shape"],
  heightCm: number,
  thickMm: number,
  material: Piece["material"],
  coatings: Piece["coatings"],
): Piece {
  const m2 = sheetCm2(shape, heightCm) / 10_000;
  const massKg = Math.round(m2 * thickMm * density[material] * 0.001 * 100) / 100;
  return { shape, heightCm, massKg, material, coatings };
}

function sheetCm2(shape: Piece["shape"], heightCm: number): number {
  if (shape.kind === "area") return shape.dm2 * 100;
  if (shape.kind === "disc") return (Math.PI * shape.diameterCm ** 2) / 4 + Math.PI * shape.diameterCm * heightCm;
  return shape.widthCm * shape.depthCm + 2 * (shape.widthCm + shape.depthCm) * heightCm;
}
