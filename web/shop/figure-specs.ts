/** Every figure of the shop: unit, allowed and usual range. Its words stand in the texts, its limits in the trade. */
import type { Quantity } from "../parts/units.ts";

export interface FigureSpec {
  /** Place in the form's value, which names its words too; empty: the value itself is the figure. */
  readonly at: string;
  /** What names the words where the place does not. */
  readonly words?: string;
  readonly quantity?: Quantity;
  readonly unit?: string;
  readonly least?: number;
  readonly most?: number;
  readonly usual?: readonly [least: number, most: number];
  readonly whole?: boolean;
  readonly optional?: boolean;
  /** What holds where the day file does not say. */
  readonly standard?: number;
}

const minutes = { unit: "min", least: 0, most: 600 } as const;
const hotC = { quantity: "temperature", least: 20, most: 550 } as const;
const loss = { unit: "W/K", least: 0, most: 500 } as const;

export const burnerFigures: readonly FigureSpec[] = [
  { at: "cycle.burnerKW", unit: "kW", least: 1, most: 500, usual: [5, 200] },
  { at: "cycle.efficiency", least: 0.1, most: 1, usual: [0.6, 0.95] },
  { at: "cycle.heatCapacityKJPerK", unit: "kJ/K", least: 1, most: 2000, usual: [20, 500] },
  { at: "cycle.wallLossWPerK", ...loss, usual: [2, 80] },
  { at: "cycle.exhaustWPerK", ...loss, usual: [5, 200] },
  { at: "cycle.coastExhaustWPerK", ...loss, usual: [5, 300] },
  { at: "cycle.filmWPerM2K", unit: "W/m²K", least: 1, most: 200, usual: [12, 60] },
];
export const doorFigures: readonly FigureSpec[] = [
  { at: "cycle.purgeMinutes", ...minutes, usual: [2, 30] },
  { at: "cycle.loadMinutes", ...minutes, whole: true, usual: [1, 15] },
  { at: "cycle.unloadMinutes", ...minutes, whole: true, usual: [1, 15] },
  { at: "cycle.doorTauMinutes", unit: "min", least: 0.5, most: 120, usual: [3, 30] },
  { at: "cycle.doorLimitC", ...hotC },
];
export const controlFigures: readonly FigureSpec[] = [
  { at: "cycle.setPointMaxC", ...hotC, usual: [150, 450] },
  { at: "cycle.setPointStepC", quantity: "temperatureStep", least: 1, most: 50, standard: 5 },
  { at: "cycle.guardC", quantity: "temperatureStep", least: 0, most: 40, usual: [2, 15], standard: 5 },
  { at: "cycle.earlyMinutes", ...minutes, whole: true, usual: [0, 5], standard: 1 },
  { at: "cycle.slackMinutes", ...minutes, whole: true, usual: [1, 10], standard: 2 },
];
export const fixedFigures: readonly FigureSpec[] = [
  { at: "cycle.loadMinutes", ...minutes, whole: true, usual: [1, 15] },
  { at: "cycle.unloadMinutes", ...minutes, whole: true, usual: [1, 15] },
  { at: "cycle.gasKW", unit: "kW", least: 0, most: 500 },
];
export const limitFigures: readonly FigureSpec[] = [
  { at: "maxLoadKg", quantity: "mass", least: 1, most: 2000, optional: true },
  { at: "maxSolventMl", unit: "ml", least: 0, most: 20_000, optional: true },
];
export const gapFigure: FigureSpec = {
  at: "space.gapCm",
  quantity: "length",
  least: 0,
  most: 20,
  usual: [2, 6],
  standard: 2,
};
export const areaFigure: FigureSpec = { at: "space.dm2", unit: "dm²", least: 1, most: 2000 };
export const shelfFigures: readonly FigureSpec[] = [
  { at: "offsetC", quantity: "temperatureStep", least: -100, most: 100, usual: [-40, 40], standard: 0 },
  { at: "widthCm", quantity: "length", least: 5, most: 400, usual: [30, 250] },
  { at: "depthCm", quantity: "length", least: 5, most: 400, usual: [30, 250] },
  { at: "clearHeightCm", quantity: "length", least: 1, most: 250 },
  { at: "maxKg", quantity: "mass", least: 0.1, most: 1000, optional: true },
];

const money = { least: 0, most: 100_000 } as const;
export const priceFigures: readonly FigureSpec[] = [
  { at: "gasPerKWh", ...money, usual: [0.03, 0.4], standard: 0 },
  { at: "crewPerHour", ...money, standard: 0 },
  { at: "latePerPanHour", ...money, standard: 0 },
  { at: "rushLatePerPanHour", ...money, optional: true },
  { at: "leftOverPerPan", ...money, standard: 1000 },
  { at: "movePerPan", ...money, standard: 0 },
];
export const gasFigures: readonly FigureSpec[] = [
  { at: "grossKWhPerUnit", unit: "kWh", least: 0.1, most: 1000 },
  { at: "kgCO2ePerKWh", unit: "kg", least: 0, most: 2, usual: [0.15, 0.3] },
  { at: "unitsLeft", least: 0, most: 100_000, optional: true },
  { at: "maxDrawKW", unit: "kW", least: 0.1, most: 1000, optional: true },
];
export const metalFigures: readonly FigureSpec[] = [
  { at: "specificHeatJPerKgK", unit: "J/kgK", least: 100, most: 5000, usual: [350, 1000] },
];
export const burnFigures: readonly FigureSpec[] = [
  { at: "setPointC", words: "burn.setPointC", ...hotC, usual: [300, 450] },
  { at: "holdMinutes", words: "burn.holdMinutes", ...minutes, usual: [10, 120] },
];
export const boothFigures: readonly FigureSpec[] = [
  { at: "sprayers", least: 0, most: 20, whole: true, standard: 1 },
  { at: "changeoverMinutes", ...minutes, whole: true, usual: [0, 30], standard: 0 },
  { at: "handleAtC", quantity: "temperature", least: 20, most: 90, usual: [25, 60], standard: 40 },
  { at: "coolFilmWPerM2K", unit: "W/m²K", least: 1, most: 200, usual: [5, 30], standard: 12 },
];
export const benchFigures: readonly FigureSpec[] = [{ at: "benches", least: 0, most: 50, whole: true, standard: 1 }];
export const finishFigures: readonly FigureSpec[] = [{ at: "", words: "finishMinutes", ...minutes, standard: 0 }];
export const roomFigures: readonly FigureSpec[] = [
  { at: "", words: "ambientC", quantity: "temperature", least: -20, most: 50, usual: [5, 35], standard: 20 },
];
export const coatFigures: readonly FigureSpec[] = [
  { at: "sprayMinutes", ...minutes, whole: true, usual: [0, 20] },
  { at: "flashMinutes", ...minutes, usual: [0, 60] },
  { at: "maxWaitMinutes", unit: "min", least: 1, most: 6000, usual: [10, 600], optional: true },
  { at: "solventMlPerM2", unit: "ml/m²", least: 0, most: 1000, usual: [0, 150] },
  { at: "inspectMinutes", ...minutes, usual: [0, 30] },
];
export const windowFigures: readonly FigureSpec[] = [
  { at: "bake.metalLowC", ...hotC, usual: [60, 450], optional: true },
  { at: "bake.metalHighC", ...hotC, usual: [60, 450], optional: true },
  { at: "bake.soakLeastMinutes", ...minutes, usual: [1, 120], optional: true },
  { at: "bake.soakMostMinutes", unit: "min", least: 1, most: 1000, usual: [1, 120], optional: true },
  { at: "bake.cycleMinutes", unit: "min", least: 1, most: 1000, whole: true, optional: true },
];

const every = [controlFigures, doorFigures, limitFigures, [gapFigure], shelfFigures, boothFigures, roomFigures].flat();
const heats = [windowFigures, burnFigures].flat();

/** What the figure at a place of a form is a quantity of; undefined: its unit is not one that can be switched. */
export function quantityAt(place: readonly (string | number)[]): Quantity | undefined {
  const path = place.filter((key) => typeof key === "string").join(".");
  return [...every, ...heats].find(({ at }) => at !== "" && (path === at || path.endsWith(`.${at}`)))?.quantity;
}
