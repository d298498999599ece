import { describe, expect, test } from "vitest";
import { advance } from "../../../../api/check/integrate.ts";
import type { Chamber, Metal } from "../../../../api/check/oven.ts";
import { chamberC, gasKWh, metalC, scratchFor, startRun } from "../../../../api/check/oven.ts";

const idle = {
  wallWPerK: 0,
  exhaustWPerK: 0,
  coastWPerK: 0,
  doorTauSeconds: 540,
  fullFireW: 30_000,
  efficiency: 0.75,
  stepSeconds: 5,
  scratch: scratchFor(2),
};

/** A body in air that stays as it is: the air's heat is without end and nothing is lost. */
function bodyInAir(startC: number, filmWPerK: number, heatJPerK: number, stepSeconds: number): Chamber {
  const metals: Metal[] = [{ filmWPerK, heatJPerK, offsetC: 0, guardedLowC: Infinity, lowC: Infinity }];
  return { ...idle, ambientC: startC, heatJPerK: 1e15, stepSeconds, metals, scratch: scratchFor(1) };
}

/** h, m²; ρ, kg/m³; c, J/kgK; V/A in m; temperatures °C; seconds. */
interface Example {
  readonly source: string;
  readonly h: number;
  readonly density: number;
  readonly heat: number;
  readonly lengthM: number;
  readonly from: number;
  readonly air: number;
  readonly seconds: number;
  readonly ends: number;
  readonly withinC: number;
}

// Worked examples of lumped heating and cooling; numbers read in the solutions that go with each book (see each source).
const examples: readonly Example[] = [
  {
    source: "Çengel, Heat and Mass Transfer, ex. 4-1: 99 % of a bead's response in 9.94 s",
    h: 210,
    density: 8500,
    heat: 320,
    lengthM: 0.001 / 6,
    from: 0,
    air: 100,
    seconds: 9.94,
    ends: 99,
    withinC: 0.05,
  },
  {
    source: "Çengel, ex. 4-4: brass plates 4 cm thick in an oven, 7 min (lumped 279.4 °C)",
    h: 120,
    density: 8530,
    heat: 380,
    lengthM: 0.02,
    from: 20,
    air: 500,
    seconds: 420,
    ends: 279.4,
    withinC: 0.2,
  },
  {
    source: "Holman, Heat Transfer, ex. 4-1: steel ball from 450 to 150 °C in 5818 s",
    h: 10,
    density: 7800,
    heat: 460,
    lengthM: 0.05 / 6,
    from: 450,
    air: 100,
    seconds: 5818,
    ends: 150,
    withinC: 0.05,
  },
  {
    source: "Geankoplis, Transport Processes, ex. 5.2-1: 699.9 K to 474.6 K in an hour",
    h: 11.36,
    density: 7849,
    heat: 460.6,
    lengthM: 0.0254 / 3,
    from: 699.9,
    air: 394.3,
    seconds: 3600,
    ends: 474.6,
    withinC: 0.1,
  },
  {
    source: "Dwivedi, Heat and Mass Transfer, ex. 4.2: sphere to 85 °C in 268 s",
    h: 80,
    density: 7800,
    heat: 450,
    lengthM: 0.02 / 6,
    from: 400,
    air: 25,
    seconds: 268,
    ends: 85,
    withinC: 0.05,
  },
  {
    source: "Dwivedi, ex. 4.6: copper plate to 40 °C in 113.3 s",
    h: 100,
    density: 8800,
    heat: 400,
    lengthM: 0.001,
    from: 400,
    air: 25,
    seconds: 113.3,
    ends: 40,
    withinC: 0.05,
  },
  {
    source: "Sachdeva, Fundamentals, ex. 5.3: rod from 320 to 200 °C in 82.19 s",
    h: 100,
    density: 7800,
    heat: 460,
    lengthM: 0.0025,
    from: 320,
    air: 120,
    seconds: 82.19,
    ends: 200,
    withinC: 0.05,
  },
];

describe("the integrator on published examples of lumped bodies", () => {
  test.each(examples)("$source", ({ h, density, heat, lengthM, from, air, seconds, ends, withinC }) => {
    const chamber = bodyInAir(from, h, density * heat * lengthM, 5);
    // The bead answers in two seconds, so a step of five is too long for it: a pan takes a minute at least.
    const tau = (density * heat * lengthM) / h;
    const run = startRun({ ...chamber, stepSeconds: Math.min(5, tau / 10) }, air, 0);
    advance(run, { kind: "coast" }, seconds);
    expect(Math.abs(metalC(run, 0) - ends)).toBeLessThan(withinC);
  });

  // Dwivedi, ex. 4.3: bead D 6 mm, ρ 8200, c 400, h 50; from 30 °C 10 s in 400 °C air: 82.31 °C, then 20 s in 20 °C: 65.94 °C.
  test("Dwivedi, ex. 4.3: a bead warmed for 10 s and cooled for 20 s", () => {
    const warm = startRun(bodyInAir(30, 50, 8200 * 400 * 0.001, 1), 400, 0);
    advance(warm, { kind: "coast" }, 10);
    expect(metalC(warm, 0)).toBeCloseTo(82.31, 1);
    const cool = startRun(bodyInAir(metalC(warm, 0), 50, 8200 * 400 * 0.001, 1), 20, 0);
    advance(cool, { kind: "coast" }, 20);
    expect(metalC(cool, 0)).toBeCloseTo(65.94, 1);
  });
});

const oven: Chamber = {
  ...idle,
  ambientC: 20,
  heatJPerK: 120_000,
  wallWPerK: 8,
  exhaustWPerK: 30,
  coastWPerK: 90,
  metals: [
    { filmWPerK: 5.9, heatJPerK: 810, offsetC: 3, guardedLowC: 255, lowC: 250 },
    { filmWPerK: 9.2, heatJPerK: 2300, offsetC: -4, guardedLowC: 255, lowC: 250 },
  ],
};

function fired(stepSeconds: number): number[] {
  const run = startRun({ ...oven, stepSeconds }, 120, 0);
  advance(run, { kind: "purge" }, 240);
  advance(run, { kind: "burn", setPointC: 285 }, 1800);
  advance(run, { kind: "coast" }, 2280);
  return [...run.state, run.reachedAt, ...run.tally];
}

describe("the integrator on an oven", () => {
  test("comes closer to the answer by about 16 times for every half of the step", () => {
    const answer = fired(0.25);
    const miss = (step: number): number => Math.abs((fired(step)[1] ?? 0) - (answer[1] ?? 0));
    const order = Math.log2(miss(60) / miss(30));
    expect(order).toBeGreaterThan(3.5);
    expect(order).toBeLessThan(5.5);
  });

  test("gives at 5 s what it gives at 1 s: 0.01 °C, 0.1 s of soak, 1 kJ", () => {
    const fine = fired(1);
    for (const [index, value] of fired(5).entries()) {
      const isHeat = index === 3;
      expect(Math.abs(value - (fine[index] ?? 0))).toBeLessThan(isHeat ? 1000 : index >= 4 ? 0.2 : 0.01);
    }
  });

  test("keeps the set-point to a thousandth of a degree once it is met", () => {
    const run = startRun(oven, 120, 0);
    advance(run, { kind: "burn", setPointC: 285 }, 1500);
    expect(run.reachedAt).toBeLessThan(1500);
    expect(chamberC(run)).toBeCloseTo(285, 3);
  });

  test("lets a chamber that starts above its set-point fall to it with the burner off", () => {
    const run = startRun({ ...oven, metals: [], scratch: scratchFor(0) }, 300, 0);
    advance(run, { kind: "burn", setPointC: 285 }, 60);
    expect(gasKWh(run)).toBe(0);
    // Newton's law of cooling: 20 + 280 · exp(−38 · 60 / 120 000).
    expect(chamberC(run)).toBeCloseTo(20 + 280 * Math.exp((-38 * 60) / 120_000), 6);
    advance(run, { kind: "burn", setPointC: 285 }, 1200);
    expect(chamberC(run)).toBeCloseTo(285, 3);
  });

  test("sags where full fire is not enough, and burns all it has", () => {
    const run = startRun({ ...oven, fullFireW: 5000, metals: [], scratch: scratchFor(0) }, 250, 0);
    advance(run, { kind: "burn", setPointC: 300 }, 36_000);
    // Steady: 5000 W over 38 W/K above the room.
    expect(chamberC(run)).toBeCloseTo(20 + 5000 / 38, 1);
    expect(gasKWh(run)).toBeCloseTo(50 / 0.75, 3);
    expect(run.reachedAt).toBeNaN();
  });

  // First law: what the burner gave is in the chamber, in the metal or lost; without losses nothing is lost.
  test("accounts for all heat", () => {
    const tight = { ...oven, wallWPerK: 0, exhaustWPerK: 0, coastWPerK: 0 };
    const run = startRun(tight, 120, 0);
    advance(run, { kind: "burn", setPointC: 285 }, 1800);
    advance(run, { kind: "coast" }, 2400);
    const stored = 120_000 * (chamberC(run) - 120) + 810 * (metalC(run, 0) - 20) + 2300 * (metalC(run, 1) - 20);
    expect(gasKWh(run) * 3.6e6 * 0.75).toBeCloseTo(stored, -1);
  });
});
