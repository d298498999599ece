/** Calibration on logs written by the reference integration, whose true figures are known. */
import { describe, expect, test } from "vitest";
import { calibrate, calibratedFigures } from "../../../../solver/heat/calibrate.ts";
import { chamberAfterDoor, chamberAfterIdle } from "../../../../solver/heat/chamber.ts";
import type { FiringLog, Reading } from "../../../../solver/heat/firing-log.ts";
import { leastSquares } from "../../../../solver/heat/least-squares.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { demoCycle } from "../../../help/random-ovens.ts";
import { referenceFiring } from "../../../help/reference-oven.ts";

/** The oven as it is; the shop believes in demoCycle. */
const trueOven: ThermalCycle = {
  ...demoCycle,
  heatCapacityKJPerK: 150,
  wallLossWPerK: 12,
  exhaustWPerK: 41,
  coastExhaustWPerK: 70,
  filmWPerM2K: 22,
  efficiency: 0.66,
};

const window = { lowC: 250, highC: 320, soakLeastMinutes: 1, soakMostMinutes: 200 };
const light: readonly Member[] = [
  { count: 1, body: { exchangeM2: 0.2111, coatedM2: 0.1056, heatJPerK: 810 }, offsetC: 0, ...window },
];
const heavy: readonly Member[] = [
  { count: 10, body: { exchangeM2: 0.248, coatedM2: 0.124, heatJPerK: 3000 }, offsetC: 0, ...window },
];

interface Written {
  readonly metal: boolean;
  readonly meter: boolean;
  readonly idleMinutes: number;
  /** Reading errors, K and share, alternating in a fixed pattern; 0 for none. */
  readonly errorK: number;
}

function logOf(members: readonly Member[], written: Written): FiringLog {
  const decision = { setPointC: 290, burnerOffMinutes: 62, unloadMinutes: 80 };
  const full = referenceFiring(trueOven, 20, members, 20, decision);
  const error = (index: number): number => written.errorK * Math.sin(12.9898 * index + 1);
  const readings: Reading[] = [];
  for (let minute = 0; minute <= 80; minute += 4) {
    const burnerOffMinutes = Math.min(minute, 62);
    const until = referenceFiring(trueOven, 20, members, 20, {
      setPointC: 290,
      burnerOffMinutes,
      unloadMinutes: minute,
    });
    readings.push({
      minute,
      chamberC: until.chamberAtUnloadC + error(minute),
      metalC: written.metal ? until.members[0]!.metalAtUnloadC + error(minute + 7) : null,
      gasKWh: written.meter ? until.gasKWh * (1 + 0.002 * error(minute + 3)) : null,
    });
  }
  for (let after = 10; after <= written.idleMinutes; after += 10) {
    const doorC = chamberAfterDoor(trueOven, 20, full.chamberAtUnloadC, 4);
    const chamberC = chamberAfterIdle(trueOven, 20, doorC, after) + error(after + 5);
    readings.push({ minute: 84 + after, chamberC, metalC: null, gasKWh: null });
  }
  return { ambientC: 20, members, followed: 0, chamberAtOpenC: 20, decision, readings };
}

describe("calibration", () => {
  const everything = { metal: true, meter: true, idleMinutes: 120, errorK: 0 };

  test("finds every figure from a light and a heavy load, meter, metal and the shut oven's cooling", () => {
    const { fitted, residual } = calibrate(demoCycle, [logOf(light, everything), logOf(heavy, everything)]);
    for (const figure of calibratedFigures) {
      expect([figure, fitted[figure].identifiable]).toEqual([figure, true]);
      expect(Math.abs(fitted[figure].value / trueOven[figure] - 1)).toBeLessThan(0.03);
    }
    expect(residual.chamberK).toBeLessThan(0.5);
    expect(residual.metalK).toBeLessThan(0.5);
    expect(residual.gasKWh).toBeLessThan(0.05);
  });

  test("keeps what it says of its own errors when readings are off by some degrees", () => {
    const shaken = { ...everything, errorK: 3 };
    const { fitted, residual } = calibrate(demoCycle, [logOf(light, shaken), logOf(heavy, shaken)]);
    expect(residual.chamberK).toBeGreaterThan(1);
    for (const figure of calibratedFigures)
      expect(Math.abs(Math.log(fitted[figure].value / trueOven[figure]))).toBeLessThan(3 * fitted[figure].errorShare);
  });

  test("says that a light load alone does not tell efficiency, heat capacity and exhaust apart", () => {
    const { fitted, residual } = calibrate(demoCycle, [logOf(light, { ...everything, idleMinutes: 0 })]);
    expect(fitted.efficiency.identifiable).toBe(false);
    expect(fitted.heatCapacityKJPerK.identifiable).toBe(false);
    expect(fitted.exhaustWPerK.identifiable).toBe(false);
    expect(fitted.filmWPerM2K.identifiable).toBe(true);
    expect(Math.abs(fitted.filmWPerM2K.value / 22 - 1)).toBeLessThan(0.05);
    // The fit itself is good all the same: ratios are told.
    expect(residual.chamberK).toBeLessThan(1);
    const ratio = fitted.efficiency.value / fitted.heatCapacityKJPerK.value;
    expect(Math.abs(ratio / (0.66 / 150) - 1)).toBeLessThan(0.03);
  });

  test("does not know the film where no metal was followed in a light load", () => {
    const { fitted, residual } = calibrate(demoCycle, [logOf(light, { ...everything, metal: false })]);
    expect(fitted.filmWPerM2K.identifiable).toBe(false);
    expect(residual.metalK).toBeNull();
  });

  test("does not know the wall from the fan where the oven was never left shut", () => {
    const logs = [light, heavy].map((members) => logOf(members, { ...everything, idleMinutes: 0 }));
    const { fitted } = calibrate(demoCycle, logs);
    expect(fitted.wallLossWPerK.identifiable).toBe(false);
  });

  test("without readings leaves the figures as they are and claims none", () => {
    const { fitted, readings } = calibrate(demoCycle, []);
    expect(readings).toBe(0);
    for (const figure of calibratedFigures) {
      expect(fitted[figure].value).toBeCloseTo(demoCycle[figure], 6);
      expect(fitted[figure].identifiable).toBe(false);
    }
  });

  test("refuses a reading before the door closed", () => {
    const early = { ...logOf(light, everything), readings: [{ minute: -2, chamberC: 20, metalC: null, gasKWh: null }] };
    expect(() => calibrate(demoCycle, [early])).toThrow(RangeError);
  });
});

describe("least squares", () => {
  test("fits the Misra1a data to the certified values (NIST Statistical Reference Datasets, nonlinear regression)", () => {
    // y = b1·(1 − exp(−b2·x)); data and certified values from memory of the dataset's file.
    const y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];
    const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
    const fit = leastSquares(
      ([b1, b2]) => y.map((value, index) => value - b1! * 100 * (1 - Math.exp((-b2! * x[index]!) / 1000))),
      [5, 0.1],
    );
    expect(fit.values[0]! * 100).toBeCloseTo(238.94212918, 3);
    expect(fit.values[1]! / 1000).toBeCloseTo(5.5015643181e-4, 8);
    expect(fit.residuals.reduce((sum, residual) => sum + residual ** 2, 0)).toBeCloseTo(0.12455138894, 6);
  });
});
