/** Lumped heating and cooling against worked examples of heat-transfer textbooks, through the functions plans use. */
import { describe, expect, test } from "vitest";
import { minutesToHandle } from "../../../../solver/heat/cooling.ts";
import { simulateFiring, windowsKept } from "../../../../solver/heat/firing.ts";
import { airOven, bodyPerM2, heatInAir } from "../../../help/held-air.ts";

const seconds = (minutes: number | null): number => (minutes ?? NaN) * 60;

const sigma = 5.67e-8;

/** hr = ε·σ·(Ts + Tsur)·(Ts² + Tsur²), kelvin, as the textbooks define it. */
function radiationFilm(emissivity: number, metalC: number, aroundC: number): number {
  const [metal, around] = [metalC + 273, aroundC + 273];
  return emissivity * sigma * (metal + around) * (metal ** 2 + around ** 2);
}

/** The metal temperature to take hr at where one film must do: at the logarithmic mean of its distance from the air. */
function meanMetalC(fromC: number, toC: number, airC: number): number {
  return airC + (toC - fromC) / Math.log((toC - airC) / (fromC - airC));
}

describe("curing a coated aluminium panel (Incropera et al., Fundamentals of Heat and Mass Transfer, example 5.3)", () => {
  // 3 mm, both sides exchange: 2770·0.0015 kg per m². Air and walls 175 °C, h 40, ε 0.8; cure 5 min at or above 150 °C.
  const panel = bodyPerM2(2770 * 0.0015, 875);
  const film = 40 + radiationFilm(0.8, meanMetalC(25, 150, 175), 175);
  const window = { lowC: 150, highC: 200, soakLeastMinutes: 5, soakMostMinutes: 60 };
  const members = [{ count: 1, body: panel, offsetC: 0, ...window }];

  test("its radiation coefficients come out as printed", () => {
    expect(radiationFilm(0.8, 150, 175)).toBeCloseTo(15, 1);
    expect(radiationFilm(0.8, 150, 25)).toBeCloseTo(8.8, 1);
  });

  test("the metal is at 150 °C after 123 s, and the five minutes end at 423 s", () => {
    const bake = heatInAir(panel, film, 25, 175, 150, 7);
    expect(Math.abs(seconds(bake.inWindowMinutes) / 123 - 1)).toBeLessThan(0.005);
    // The soak counts from the metal's crossing: out after 420 s leaves 297 s of it.
    expect(Math.abs(seconds(bake.soakMinutes) - (420 - 123))).toBeLessThan(0.7);
  });

  test("five minutes from door to door are not five minutes of cure", () => {
    const oven = airOven(film);
    const out = (minutes: number) => ({ setPointC: 175, burnerOffMinutes: minutes, unloadMinutes: minutes });
    const bake = simulateFiring(oven, 25, members, 175, out(5)).members[0]!;
    expect(Math.abs(seconds(bake.soakMinutes) - 177)).toBeLessThan(0.7);
    expect(windowsKept(oven, 25, members, 175, out(5), 0)).toBe(false);
    expect(windowsKept(oven, 25, members, 175, out(8), 0)).toBe(true);
  });

  test("in a room at 25 °C it may be touched after another 564 s", () => {
    // h 10 and walls of 25 °C, with radiation as one film as above; touch-safe at 37 °C.
    const coolFilm = 10 + radiationFilm(0.8, meanMetalC(174.75, 37, 25), 25);
    expect(Math.abs(seconds(minutesToHandle(panel, 174.75, 25, 37, coolFilm)) / 564 - 1)).toBeLessThan(0.005);
  });
});

describe("heating", () => {
  test("a thermocouple bead reads within a degree of 200 °C gas after 5.16 s (Incropera et al., example 5.1)", () => {
    const bead = bodyPerM2((8500 * 7.06e-4) / 6, 400);
    const bake = heatInAir(bead, 400, 25, 200, 199, 1);
    expect(Math.abs(seconds(bake.inWindowMinutes) / 5.16 - 1)).toBeLessThan(0.005);
  });

  test("a bead of 1 mm follows 99 % of a step after 9.94 s (Çengel, Heat Transfer, example 4-1)", () => {
    const bead = bodyPerM2((8500 * 0.001) / 6, 320);
    const bake = heatInAir(bead, 210, 0, 100, 99, 1);
    expect(Math.abs(seconds(bake.inWindowMinutes) / 9.94 - 1)).toBeLessThan(0.005);
  });

  test("brass plates of 4 cm are at 279.4 °C after 7 min in 500 °C (Çengel, Heat Transfer, example 4-4, lumped)", () => {
    const plate = bodyPerM2(8530 * 0.02, 380);
    expect(Math.abs(heatInAir(plate, 120, 20, 500, 1000, 7).metalAtUnloadC - 279.4)).toBeLessThan(0.2);
  });

  test("aluminium plates of 10 mm are at 689 °C after 120 s in 800 °C (open heat-transfer library's guide, example 1)", () => {
    const plate = bodyPerM2(2800 * 0.005, 880);
    expect(Math.abs(heatInAir(plate, 200, 20, 800, 1000, 2).metalAtUnloadC - 689)).toBeLessThan(0.5);
  });

  test("a bead of 6 mm is at 82.31 °C after 10 s in 400 °C, then at 65.94 °C after 20 s in 20 °C (Dwivedi, example 4.3)", () => {
    const bead = bodyPerM2((8200 * 0.006) / 6, 400);
    expect(seconds(heatInAir(bead, 50, 30, 400, 82.31, 1).inWindowMinutes)).toBeCloseTo(10, 1);
    expect(seconds(minutesToHandle(bead, 82.31, 20, 65.94, 50))).toBeCloseTo(20, 1);
  });

  // Own arithmetic from handbook densities and specific heats; it checks the formula, not a publication.
  test.each([
    ["aluminium of 3 mm", 2730, 900, 0.0015, 307],
    ["cast iron of 5 mm", 7200, 500, 0.0025, 750],
    ["stainless steel of 2 mm", 7900, 500, 0.001, 329],
  ])("%s reaches 370 °C in 390 °C air when the formula says", (_, density, specificHeat, halfM, expected) => {
    const plate = bodyPerM2(density * halfM, specificHeat);
    expect(Math.abs(seconds(heatInAir(plate, 35, 20, 390, 370, 20).inWindowMinutes) - expected)).toBeLessThan(1);
  });
});

describe("cooling to hand", () => {
  test.each([
    ["a steel ball of 5 cm (Holman, Heat Transfer, example 4-1)", (7800 * 0.05) / 6, 460, 10, 450, 150, 100, 5818, 1],
    ["a sphere of 20 mm (Dwivedi, example 4.2, recomputed)", (7800 * 0.02) / 6, 450, 80, 400, 85, 25, 268, 0.1],
    ["a copper plate of 2 mm (Dwivedi, example 4.6)", 8800 * 0.001, 400, 100, 400, 40, 25, 113.3, 0.1],
    ["a copper slab of 5 mm, faces only (Sachdeva, example 5.2)", 9000 * 0.0025, 380, 90, 250, 90, 30, 123.43, 0.1],
    ["a rod of 10 mm (Sachdeva, example 5.3)", (7800 * 0.01) / 4, 460, 100, 320, 200, 120, 82.19, 0.1],
    ["a copper rod of 20 mm (open library's guide, example 2)", (8933 * 0.02) / 4, 385, 200, 100, 25, 20, 238, 1],
    ["a sphere of 1.5 mm, 1 % left (Som, example 4.2)", (8000 * 0.0015) / 6, 300, 75, 100, 1, 0, 36.84, 0.05],
    ["a stainless sheet of 20 mm (Kreith, example 3.3, lumped)", 8500 * 0.01, 460, 80, 500, 250, 20, 359.6, 0.5],
  ])("%s", (_, kgPerM2, specificHeat, film, fromC, toC, airC, expectedS, toleranceS) => {
    const cooled = seconds(minutesToHandle(bodyPerM2(kgPerM2, specificHeat), fromC, airC, toC, film));
    expect(Math.abs(cooled - expectedS)).toBeLessThan(toleranceS);
  });

  test("an aluminium sphere of 5.5 kg (Sachdeva, example 5.4)", () => {
    const radiusM = Math.cbrt((3 * 5.5) / (4 * Math.PI * 2700));
    const sphere = { exchangeM2: 4 * Math.PI * radiusM ** 2, coatedM2: 0, heatJPerK: 5.5 * 900 };
    expect(Math.abs(seconds(minutesToHandle(sphere, 290, 15, 95, 58)) - 1356)).toBeLessThan(2);
  });

  test("a steel ball is at 474.6 K after an hour (Geankoplis, Transport Processes, example 5.2-1)", () => {
    const ball = bodyPerM2((7849 * 0.0254) / 3, 460.6);
    expect(minutesToHandle(ball, 699.9 - 273.15, 394.3 - 273.15, 474.6 - 273.15, 11.36)).toBeCloseTo(60, 0);
  });

  test("metal cool enough waits for nothing, and a room too warm never lets it be handled", () => {
    const pan = bodyPerM2(4, 900);
    expect(minutesToHandle(pan, 38, 20, 40, 12)).toBe(0);
    expect(minutesToHandle(pan, 40, 20, 40, 12)).toBe(0);
    expect(minutesToHandle(pan, 200, 40, 40, 12)).toBe(Infinity);
  });
});
