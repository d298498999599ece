/** Figures that are possible but unlikely in this trade, each with the slip that would explain it. Only warnings. */
import type { Day } from "../../contract/day.ts";
import type { Path } from "../../contract/problem.ts";
import { coatsOf } from "./check.ts";
import type { Check, Report } from "./check.ts";
import { fahrenheitSlip } from "./coat-windows.ts";

interface Figure {
  readonly path: Path;
  readonly value: number | null;
  readonly most: number;
}

/** Upper edges of what coating ovens, coats and rooms see: common practice, no source. */
export const temperaturesCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    for (const { path, value, most } of temperaturesOf(day)) {
      if (value === null || value <= most) continue;
      report.warning(path, "fahrenheit-as-celsius", value, {
        expected: `up to about ${most} °C`,
        slip: fahrenheitSlip(value, most, 5),
      });
    }
  },
};

function temperaturesOf(day: Day): Figure[] {
  return [
    { path: ["ambientC"], value: day.ambientC, most: 50 },
    { path: ["booth", "handleAtC"], value: day.booth.handleAtC, most: 90 },
    { path: ["mixing", "cleanBurn", "setPointC"], value: day.mixing.cleanBurn?.setPointC ?? null, most: 550 },
    ...coatsOf(day).map(({ coat, path }) => ({
      path: [...path, "bake", "metalHighC"],
      value: coat.bake.metalHighC,
      most: 500,
    })),
    ...day.pans.map((pan, i) => ({ path: ["pans", i, "metalLimitC"], value: pan.metalLimitC, most: 600 })),
    ...day.ovens.flatMap(({ cycle }, i) =>
      cycle.kind === "fixed"
        ? []
        : [
            { path: ["ovens", i, "cycle", "setPointMaxC"], value: cycle.setPointMaxC, most: 550 },
            { path: ["ovens", i, "cycle", "startC"], value: cycle.startC, most: 550 },
          ],
    ),
  ];
}

export const lengthsCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    day.ovens.forEach(({ space }, i) => {
      if (space.kind === "area") return;
      space.shelves.forEach((shelf, j) => {
        const path = ["ovens", i, "space", "shelves", j];
        lengthIn(report, [...path, "widthCm"], shelf.widthCm, 400);
        lengthIn(report, [...path, "depthCm"], shelf.depthCm, 400);
        lengthIn(report, [...path, "clearHeightCm"], shelf.clearHeightCm, 200);
      });
      lengthIn(report, ["ovens", i, "space", "gapCm"], space.gapCm, 15);
    });
  },
};

function lengthIn(report: Report, path: Path, cm: number, most: number): void {
  if (cm <= most) return;
  const slip = `Millimetres? ${cm} mm is ${cm / 10} cm.`;
  report.warning(path, "length-unlikely", cm, { expected: `up to about ${most} cm`, slip });
}

/** Metals lie between lead's 130 and beryllium's 1800 J/kgK; the wide edges leave room for odd alloys and composites. */
export const specificHeatCheck: Check = {
  needs: [],
  find: ({ day }, report) => {
    for (const [material, { specificHeatJPerKgK: heat }] of Object.entries(day.materials)) {
      if (heat >= 100 && heat <= 5000) continue;
      const slip = heat < 5 ? `kJ/kgK? That is ${heat * 1000} J/kgK.` : undefined;
      report.warning(["materials", material, "specificHeatJPerKgK"], "specific-heat-unlikely", heat, { slip });
    }
  },
};

/** Gross kWh per unit: UK government conversion factors 2025 (natural 11.29/m³; propane 14.0/kg, 7.21/l), with room. */
const calorific: ReadonlyMap<string, readonly [least: number, most: number]> = new Map([
  ["natural m3", [8, 13]],
  ["natural kg", [11, 16]],
  ["propane kg", [13, 14.5]],
  ["propane l", [6.5, 7.9]],
  ["propane m3", [24, 30]],
  ["lpg kg", [13, 14.5]],
  ["lpg l", [6.5, 8.2]],
  ["lpg m3", [24, 36]],
  ["butane kg", [13, 14.5]],
  ["butane l", [7.2, 8.5]],
  ["butane m3", [31, 37]],
]);
const anyTherm = [29, 30] as const;

export const calorificCheck: Check = {
  needs: ["gas"],
  find: ({ day }, report) => {
    const { kind, unit, grossKWhPerUnit } = day.gas;
    const plainUnit = unit.toLowerCase().replace("³", "3").replace("litre", "l");
    const range = plainUnit === "therm" ? anyTherm : calorific.get(`${kind.toLowerCase()} ${plainUnit}`);
    if (!range) return;
    const [least, most] = range;
    if (grossKWhPerUnit >= least && grossKWhPerUnit <= most) return;
    const mj = grossKWhPerUnit / 3.6 >= least && grossKWhPerUnit / 3.6 <= most;
    const slip = mj
      ? `Megajoules? That is ${Math.round((grossKWhPerUnit / 3.6) * 100) / 100} kWh.`
      : "Net for gross, or another unit?";
    const words = { unit, kind, expected: `about ${least} to ${most} kWh, gross`, slip };
    report.warning(["gas", "grossKWhPerUnit"], "calorific-value-unlikely", grossKWhPerUnit, words);
  },
};
