/** What a load adds to the gas meter is the heat in its metal. */
import { expect, test } from "vitest";
import { simulateFiring } from "../../../../solver/heat/firing.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const lossless = { ...demoCycle, wallLossWPerK: 0, exhaustWPerK: 0, efficiency: 1, doorLimitC: 500 };
const decision = { setPointC: 380, burnerOffMinutes: 400, unloadMinutes: 400 };

/** kWh that one pan adds in an oven that loses nothing, held long after it is hot. */
function addedKWh(massKg: number, specificHeatJPerKgK: number): number {
  const body = { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK: massKg * specificHeatJPerKgK };
  const pan: Member = { count: 1, body, offsetC: 0, lowC: 370, highC: 400, soakLeastMinutes: 1, soakMostMinutes: 999 };
  const loaded = simulateFiring(lossless, 20, [pan], 20, decision);
  return loaded.gasKWh - simulateFiring(lossless, 20, [], 20, decision).gasKWh;
}

// Exact arithmetic, m·c·ΔT from 20 to 380 °C.
test.each([
  ["an aluminium pan of 1.2 kg", 1.2, 900, 0.108],
  ["a cast-iron pan of 3 kg", 3, 460, 0.138],
  ["a stainless pan of 1.5 kg", 1.5, 500, 0.075],
  ["a carbon-steel pan of 1.8 kg", 1.8, 480, 0.0864],
])("%s heated to 380 °C holds what its mass and specific heat say", (_, massKg, specificHeat, kWh) => {
  expect(addedKWh(massKg, specificHeat)).toBeCloseTo(kWh, 6);
});

/** kJ/kg from 20 to 380 °C by EN 1993-1-2: c = 425 + 0.773θ − 1.69e-3θ² + 2.22e-6θ³. */
function eurocodeSteel(fromC: number, toC: number): number {
  const upTo = (t: number): number => 425 * t + (0.773 * t ** 2) / 2 - (1.69e-3 * t ** 3) / 3 + (2.22e-6 * t ** 4) / 4;
  return (upTo(toC) - upTo(fromC)) / 1000;
}

test("the mean specific heat of the Eurocode for steel gives its heat, near that of iron in the NIST tables", () => {
  const heat = eurocodeSteel(20, 380);
  expect(heat).toBeCloseTo(189.32, 1);
  expect(addedKWh(1, (heat * 1000) / 360) * 3600).toBeCloseTo(heat, 3);
  // NIST Shomate equation, iron, 20 to 380 °C: 187.61 kJ/kg.
  expect(Math.abs(heat / 187.61 - 1)).toBeLessThan(0.011);
});

test("one specific heat for aluminium misses the NIST tables by less than a tenth", () => {
  // NIST Shomate equation, aluminium, 20 to 380 °C: 353.61 kJ/kg; room-temperature 900 J/kgK gives 324.
  const kJ = addedKWh(1, 900) * 3600;
  expect(kJ).toBeCloseTo(324, 3);
  expect(kJ / 353.61).toBeGreaterThan(0.9);
});
