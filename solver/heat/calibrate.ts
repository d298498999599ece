/**
 * An oven's figures from what was written down at it: least squares over the readings of one or more firings.
 *
 * Chamber, walls, exhaust and efficiency only show as ratios while an oven heats itself: what tells them apart is metal of
 * known mass. A light and a heavy load, a meter, and an hour of the shut oven cooling with its fan off make all of them out.
 */
import type { ThermalCycle } from "../shop.ts";
import type { FiringLog } from "./firing-log.ts";
import { readingsOf } from "./firing-log.ts";
import { leastSquares } from "./least-squares.ts";

export const calibratedFigures = [
  "heatCapacityKJPerK",
  "wallLossWPerK",
  "exhaustWPerK",
  "coastExhaustWPerK",
  "filmWPerM2K",
  "efficiency",
] as const;

export type CalibratedFigure = (typeof calibratedFigures)[number];

export interface FittedFigure {
  readonly value: number;
  /** Standard error as a share of the value. */
  readonly errorShare: number;
  /** False where the readings say little about it: the value then leans on the present one. */
  readonly identifiable: boolean;
}

/** Root mean square of what is left between readings and fit; null where nothing of the kind was read. */
export interface Residual {
  readonly chamberK: number | null;
  readonly metalK: number | null;
  readonly gasKWh: number | null;
}

export interface Calibration {
  readonly fitted: Readonly<Record<CalibratedFigure, FittedFigure>>;
  readonly residual: Residual;
  readonly readings: number;
}

/** How well workshop instruments read: a thermocouple in moving air, an infrared thermometer, a meter between ticks. */
const SPREAD = { chamberK: 2, metalK: 3, gasKWh: 0.1 };
/** Where to begin with a figure that is 0 at present. */
const START: Readonly<Record<CalibratedFigure, number>> = {
  heatCapacityKJPerK: 100,
  wallLossWPerK: 5,
  exhaustWPerK: 20,
  coastExhaustWPerK: 50,
  filmWPerM2K: 28,
  efficiency: 0.7,
};
/** Without readings, a figure may well be this factor off (as a natural logarithm). */
const DOUBT = 1;
/** Standard error, as a share, up to which the readings are said to tell a figure. */
const TELLING_SHARE = 0.15;

/** Fits `cycle`'s figures to the logs; its burner, door and purge figures are taken as they are. */
export function calibrate(cycle: ThermalCycle, logs: readonly FiringLog[]): Calibration {
  const start = calibratedFigures.map((figure) => Math.log(cycle[figure] > 0 ? cycle[figure] : START[figure]));
  const misses = (logarithms: readonly number[]): Misses => missesOf(withFigures(cycle, logarithms), logs);
  const fit = leastSquares((logarithms) => {
    const { chamberK, metalK, gasKWh } = misses(logarithms);
    const doubts = logarithms.map((value, index) => (value - start[index]!) / DOUBT);
    return [
      ...scaled(chamberK, SPREAD.chamberK),
      ...scaled(metalK, SPREAD.metalK),
      ...scaled(gasKWh, SPREAD.gasKWh),
      ...doubts,
    ];
  }, start);
  const left = misses(fit.values);
  const readings = left.chamberK.length + left.metalK.length + left.gasKWh.length;
  const squares = fit.residuals.reduce((sum, residual) => sum + residual * residual, 0);
  // Readings that scatter more than instruments should, or a model that misses, widen every error.
  const widening = Math.sqrt(Math.max(1, squares / Math.max(1, readings)));
  const figure = (name: CalibratedFigure): FittedFigure => {
    const index = calibratedFigures.indexOf(name);
    const errorShare = Math.min(DOUBT, fit.standardErrors[index]! * widening);
    return { value: figureOf(name, fit.values[index]!), errorShare, identifiable: errorShare <= TELLING_SHARE };
  };
  return { fitted: eachFigure(figure), residual: residualOf(left), readings };
}

function eachFigure<T>(of: (figure: CalibratedFigure) => T): Record<CalibratedFigure, T> {
  return {
    heatCapacityKJPerK: of("heatCapacityKJPerK"),
    wallLossWPerK: of("wallLossWPerK"),
    exhaustWPerK: of("exhaustWPerK"),
    coastExhaustWPerK: of("coastExhaustWPerK"),
    filmWPerM2K: of("filmWPerM2K"),
    efficiency: of("efficiency"),
  };
}

function figureOf(figure: CalibratedFigure, logarithm: number): number {
  const value = Math.exp(logarithm);
  return figure === "efficiency" ? Math.min(1, value) : value;
}

function withFigures(cycle: ThermalCycle, logarithms: readonly number[]): ThermalCycle {
  return { ...cycle, ...eachFigure((name) => figureOf(name, logarithms[calibratedFigures.indexOf(name)]!)) };
}

/** What is left between the readings and an oven of those figures. */
export function residualsOf(cycle: ThermalCycle, logs: readonly FiringLog[]): Residual {
  return residualOf(missesOf(cycle, logs));
}

/** Read less shown by the fit, each kind by itself. */
interface Misses {
  readonly chamberK: readonly number[];
  readonly metalK: readonly number[];
  readonly gasKWh: readonly number[];
}

function missesOf(cycle: ThermalCycle, logs: readonly FiringLog[]): Misses {
  const chamberK: number[] = [];
  const metalK: number[] = [];
  const gasKWh: number[] = [];
  for (const log of logs) {
    const shown = readingsOf(cycle, log);
    log.readings.forEach((reading, index) => {
      const there = shown[index]!;
      if (reading.chamberC !== null) chamberK.push(reading.chamberC - there.chamberC);
      if (reading.metalC !== null && !Number.isNaN(there.metalC)) metalK.push(reading.metalC - there.metalC);
      if (reading.gasKWh !== null) gasKWh.push(reading.gasKWh - there.gasKWh);
    });
  }
  return { chamberK, metalK, gasKWh };
}

function scaled(misses: readonly number[], spread: number): number[] {
  return misses.map((miss) => miss / spread);
}

function residualOf({ chamberK, metalK, gasKWh }: Misses): Residual {
  const rms = (misses: readonly number[]): number | null =>
    misses.length === 0 ? null : Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length);
  return { chamberK: rms(chamberK), metalK: rms(metalK), gasKWh: rms(gasKWh) };
}
