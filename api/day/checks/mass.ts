/** Mass against size and metal: grams as kilograms, inches or millimetres as centimetres show here. */
import type { Day, DayPan } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import type { Check, Report } from "./check.ts";
import { sizeText } from "./pan-fit.ts";
import { coatedM2 } from "./spots.ts";

/**
 * Heat that a metal takes per volume, J/m³K, from its specific heat: aluminium 2.4e6, iron and steel 3.5e6 to 3.9e6 (density
 * times specific heat; Dulong and Petit: heavy metals have little heat per kilogram). So the wall's thickness can be guessed
 * without asking for a density.
 */
const LIGHT_J_PER_M3K = 2.4e6;
const HEAVY_J_PER_M3K = 3.7e6;
const THIN_MM = 0.5;
const THICK_MM = 12;
/** A wall that a piece may have but few do: then another unit is asked about if that would make it usual. */
const STOUT_MM = 9;

/** With fixed cycles mass only loads the shelf. */
export const massCheck: Check = {
  needs: ["materials", "ovens"],
  find: ({ day }, report) => {
    if (!day.ovens.some(({ cycle }) => cycle.kind === "thermal")) return;
    day.pans.forEach((pan, i) => checkMass(day, report, pan, ["pans", i, "massKg"]));
  },
};

function checkMass(day: Day, report: Report, pan: DayPan, path: Path): void {
  const heat = Object.hasOwn(day.materials, pan.material)
    ? day.materials[pan.material]?.specificHeatJPerKgK
    : undefined;
  const areaM2 = coatedM2(pan);
  if (heat === undefined || areaM2 === undefined) return;
  const density = (heat > 700 ? LIGHT_J_PER_M3K : HEAVY_J_PER_M3K) / heat;
  const thickMm = (kg: number, m2: number) => (kg / (m2 * density)) * 1000;
  const wall = thickMm(pan.massKg, areaM2);
  const inches = thickMm(pan.massKg, coatedM2(scaled(pan, 2.54)) ?? areaM2);
  const numbers = {
    size: sizeText(pan),
    thickMm: round(wall),
    lightKg: round((areaM2 * density * THIN_MM) / 1000),
    heavyKg: round((areaM2 * density * THICK_MM) / 1000),
    kg: pan.massKg / 1000,
  };
  if (wall > 10 * THICK_MM && usual(wall / 1000)) report.problem(path, "mass-in-grams", pan.massKg, numbers);
  else if (wall > STOUT_MM && usual(inches)) {
    const cm = pan.shape.kind === "disc" ? pan.shape.diameterCm : 0;
    const slip = cm > 0 ? `Inches? ${cm} in is ${round(cm * 2.54)} cm.` : "Inches?";
    report.warning(path, "mass-unlikely", pan.massKg, { ...numbers, slip });
  } else if (wall > THICK_MM) report.warning(path, "mass-unlikely", pan.massKg, numbers);
  else if (wall < THIN_MM)
    report.warning(path, "mass-unlikely", pan.massKg, { ...numbers, slip: smallSlip(pan, wall) });
}

function usual(wallMm: number): boolean {
  return wallMm >= THIN_MM && wallMm <= STOUT_MM;
}

/** Only the rim in another unit: the height is what people measure on the spot. */
function scaled(pan: DayPan, scale: number): DayPan {
  const { shape } = pan;
  if (shape.kind === "area") return pan;
  const wider =
    shape.kind === "disc"
      ? { kind: shape.kind, diameterCm: shape.diameterCm * scale }
      : { kind: shape.kind, widthCm: shape.widthCm * scale, depthCm: shape.depthCm * scale };
  return { ...pan, shape: wider };
}

function smallSlip(pan: DayPan, wall: number): string | undefined {
  const inCentimetres = coatedM2(scaled(pan, 0.1));
  const areaM2 = coatedM2(pan);
  const isMillimetres = inCentimetres !== undefined && areaM2 !== undefined && usual((wall * areaM2) / inCentimetres);
  return isMillimetres ? "Millimetres for centimetres?" : undefined;
}

function round(x: number): number {
  return Math.round(x * 100) / 100;
}
