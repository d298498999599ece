/** Conversions against published figures; each names its source. */
import { describe, expect, it } from "vitest";
import * as units from "../../../../api/contract/units.ts";

describe("units of temperature", () => {
  // Fixed points of both scales by definition.
  it.each([
    [0, 32],
    [100, 212],
    [-40, -40],
    [300, 572],
  ])("%d °C is %d °F", (c, f) => {
    expect(units.celsiusToFahrenheit(c)).toBeCloseTo(f, 9);
    expect(units.fahrenheitToCelsius(f)).toBeCloseTo(c, 9);
  });

  it("sinters at 715 to 750 °F, which is 379 to 399 °C (coating supplier's overview, basics of non-stick coatings)", () => {
    expect(Math.round(units.fahrenheitToCelsius(715))).toBe(379);
    expect(Math.round(units.fahrenheitToCelsius(750))).toBe(399);
  });

  it("turns a guard of 5 °C into 9 °F without the 32", () => {
    expect(units.celsiusStepToFahrenheit(5)).toBeCloseTo(9, 12);
    expect(units.fahrenheitStepToCelsius(9)).toBeCloseTo(5, 12);
  });
});

describe("units of length and mass", () => {
  // International yard and pound agreement, 1959: 1 in = 2.54 cm, 1 lb = 0.45359237 kg, exactly.
  it("has 2.54 cm to the inch: an 11 in pan is 27.94 cm", () => {
    expect(units.inchesToCm(11)).toBeCloseTo(27.94, 12);
    expect(units.cmToInches(27.94)).toBeCloseTo(11, 12);
  });

  it("has 0.45359237 kg to the pound", () => {
    expect(units.poundsToKg(1)).toBe(0.45359237);
    expect(units.kgToPounds(0.45359237)).toBe(1);
  });
});

describe("units of gas", () => {
  it("has 29.3071 kWh to the therm (100 000 international table Btu)", () => {
    expect(units.thermsToKWh(1)).toBeCloseTo(29.3071, 4);
    expect(units.kWhToTherms(29.3071)).toBeCloseTo(1, 6);
  });

  it("has 3.6 MJ to the kWh: 49.4 GJ/t of butane and propane is 13.72 kWh/kg (Digest of UK Energy Statistics)", () => {
    expect(units.kWhToMJ(1)).toBeCloseTo(3.6, 12);
    expect(units.mjToKWh(49.4)).toBeCloseTo(13.72, 2);
  });

  // UK gas bills: volume × 1.02264 × calorific value / 3.6 (Gas (Calculation of Thermal Energy) Regulations); worked example
  // of a supplier: 100 m³ at 39.3 MJ/m³ is 1116.382 kWh; 100 hundred-ft³ (283 m³) is 3159.361 kWh.
  it.each([
    [100, 1116.382],
    [283, 3159.361],
  ])("bills %d m³ at 39.3 MJ/m³ as %d kWh", (m3, kWh) => {
    const perM3 = units.grossKWhPerM3(39.3, 1.02264);
    expect(units.unitsToKWh(m3, perM3)).toBeCloseTo(kWh, 2);
    expect(units.kWhToUnits(kWh, perM3)).toBeCloseTo(m3, 3);
  });

  it("bills 455 to 575 m³ at 40 MJ/m³ as 1364 kWh (a supplier's worked example)", () => {
    expect(Math.round(units.unitsToKWh(575 - 455, units.grossKWhPerM3(40, 1.02264)))).toBe(1364);
  });

  it("needs 5.570 m³ for 62.5 kWh at 39.5 MJ/m³ with the bill's correction", () => {
    expect(units.kWhToUnits(62.5, units.grossKWhPerM3(39.5, 1.02264))).toBeCloseTo(5.57, 3);
  });

  it("finds natural gas within 0.05 % of the UK government's 11.290 kWh/m³ from its 50.678 MJ/kg and 0.802 kg/m³ (2025)", () => {
    expect(units.grossKWhPerM3(50.678 * 0.802) / 11.29).toBeCloseTo(1, 3);
  });

  it("finds propane at 7.209 kWh per litre and 514.9 kg/m³ to hold 14.00 kWh per kg (UK government, 2025)", () => {
    expect(units.kWhToUnits(units.unitsToKWh(1000, 7.209), 514.9)).toBeCloseTo(14.0, 2);
  });
});
