import { describe, expect, it } from "vitest";
import { afterFiring, afterIdle } from "../../../../api/shop/chamber-now.ts";

/** 120 kJ/K and 8 W/K: a time constant of 15 000 s, 250 min. */
const cycle = { heatCapacityKJPerK: 120, wallLossWPerK: 8, doorTauMinutes: 9, unloadMinutes: 4 };

describe("an oven that stands", () => {
  it("loses 63.2 % of its rise over the room in one time constant (1 - 1/e, Newton's law of cooling)", () => {
    expect(afterIdle(cycle, 20, 220, 250)).toBeCloseTo(20 + 200 / Math.E, 6);
  });

  it("falls through its open door first: 4 min of a time constant of 9", () => {
    const load = { kind: "bake" as const, curve: [{ minute: 30, chamberC: 200, slowestC: 190, fastestC: 195 }] };
    expect(afterFiring(cycle, 20, load, 0, 0)).toBeCloseTo(20 + 180 * Math.exp(-4 / 9), 6);
  });

  it("keeps its door shut after a clean burn", () => {
    const load = { kind: "clean burn" as const, curve: [{ minute: 30, chamberC: 420, slowestC: 420, fastestC: 420 }] };
    expect(afterFiring(cycle, 20, load, 0, 0)).toBeCloseTo(420, 6);
  });
});
