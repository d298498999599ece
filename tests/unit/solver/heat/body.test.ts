import { expect, test } from "vitest";
import { bodyOf } from "../../../../solver/heat/body.ts";

test("a disc takes heat on both sides of base and wall and is coated inside", () => {
  // 28 cm across, 5 cm high: π/4·0.28² + π·0.28·0.05 = 0.061575 + 0.043982 = 0.105558 m² inside.
  const body = bodyOf({ shape: { kind: "disc", diameterCm: 28 }, heightCm: 5, massKg: 0.9, specificHeatJPerKgK: 900 });
  expect(body.coatedM2).toBeCloseTo(0.105558, 6);
  expect(body.exchangeM2).toBeCloseTo(0.211115, 6);
  expect(body.heatJPerK).toBe(810);
});

test("a rectangle has a wall round its edge", () => {
  // 40 × 25 cm, 6 cm high: 0.4·0.25 + 2·0.65·0.06 = 0.1 + 0.078 = 0.178 m² inside.
  const shape = { kind: "rectangle", widthCm: 40, depthCm: 25 } as const;
  const body = bodyOf({ shape, heightCm: 6, massKg: 2, specificHeatJPerKgK: 500 });
  expect(body.coatedM2).toBeCloseTo(0.178, 12);
  expect(body.exchangeM2).toBeCloseTo(0.356, 12);
});

test("a flat sheet has no wall", () => {
  const shape = { kind: "rectangle", widthCm: 100, depthCm: 50 } as const;
  expect(bodyOf({ shape, heightCm: 0, massKg: 4, specificHeatJPerKgK: 900 }).coatedM2).toBeCloseTo(0.5, 12);
});

test("a shape known only by its area takes no part in heat", () => {
  const body = bodyOf({ shape: { kind: "area", dm2: 12 }, heightCm: 5, massKg: 1, specificHeatJPerKgK: 900 });
  expect(body.exchangeM2).toBe(0);
});
