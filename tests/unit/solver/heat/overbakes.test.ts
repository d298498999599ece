/** Loads told to overbake without being simulated, against the simulation. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Member } from "../../../../solver/heat/members.ts";
import { isFireable } from "../../../../solver/heat/options.ts";
import { overbakes, overbakesSome, spareK } from "../../../../solver/heat/overbakes.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const { filmWPerM2K, guardC } = demoCycle;

/** Metal whose lag is `tauMinutes` in the demo oven. */
function member(tauMinutes: number, window: Partial<Member> = {}): Member {
  const exchangeM2 = 0.2;
  const body = { exchangeM2, coatedM2: 0.1, heatJPerK: 60 * tauMinutes * filmWPerM2K * exchangeM2 };
  return { count: 1, body, offsetC: 0, lowC: 250, highC: 300, soakLeastMinutes: 10, soakMostMinutes: 60, ...window };
}

describe("metal that must get too hot", () => {
  it("is metal as quick as what bakes hotter, by the shelf's difference less", () => {
    const hot = member(5, { lowC: 300, offsetC: 8 });
    // It is at 300 °C + guard less 8 K at least, less the 0.5 K that rounding may take.
    const least = 300 + guardC - 8 - 0.5;
    expect(overbakes(demoCycle, 20, hot, member(5, { highC: least + guardC - 0.1 }))).toBe(true);
    expect(overbakes(demoCycle, 20, hot, member(5, { highC: least + guardC + 0.1 }))).toBe(false);
    expect(overbakes(demoCycle, 20, hot, member(2, { highC: least + guardC - 0.1 }))).toBe(true);
  });

  it("has so much to spare as its window allows above that", () => {
    const hot = member(5, { lowC: 300, offsetC: 8 });
    const other = member(5, { highC: 320, offsetC: -2 });
    // From 300 °C + guard less the 10 K between the shelves up to 320 °C less the guard.
    expect(spareK(demoCycle, 20, hot, other)).toBeCloseTo(320 - guardC - (300 + guardC - 10), 9);
    expect(spareK(demoCycle, 20, hot, { ...other, highC: 290 })).toBeCloseTo(-2 * guardC, 9);
  });

  it("is slow metal beside a long soak, by hand", () => {
    const hot = member(5, { lowC: 380, soakLeastMinutes: 10 });
    // Half as quick, τ 10 min: of a rise of 360 K + guard it has half, and 1 − 1/e of the other half.
    const least = 20 + (360 + guardC) * (0.5 + 0.5 * (1 - Math.exp(-1))) - 0.5;
    expect(overbakes(demoCycle, 20, hot, member(10, { highC: least + guardC - 0.1 }))).toBe(true);
    expect(overbakes(demoCycle, 20, hot, member(10, { highC: least + guardC + 0.1 }))).toBe(false);
  });

  it("is never told of a load that some firing bakes, and is told of most that none does", () => {
    const window = fc.record({ low: fc.integer({ min: 180, max: 400 }), wide: fc.integer({ min: 15, max: 90 }) });
    const some = fc.record({
      tau: fc.double({ min: 2, max: 25, noNaN: true }),
      window,
      soak: fc.integer({ min: 2, max: 20 }),
      offsetC: fc.integer({ min: -12, max: 8 }),
    });
    const told = { bakes: 0, overbakes: 0, neither: 0 };
    fc.assert(
      fc.property(fc.array(some, { minLength: 2, maxLength: 3 }), fc.constantFrom(20, 150, 300), (drawn, startC) => {
        const members = drawn.map(({ tau, window: { low, wide }, soak, offsetC }) =>
          member(tau, { lowC: low, highC: low + wide, soakLeastMinutes: soak, offsetC }),
        );
        const isTold = overbakesSome(demoCycle, 20, members);
        const bakes = isFireable(demoCycle, 20, members, startC);
        expect(isTold && bakes).toBe(false);
        told[bakes ? "bakes" : isTold ? "overbakes" : "neither"]++;
      }),
      { numRuns: 1500, seed: 7 },
    );
    expect(told.bakes).toBeGreaterThan(50);
    expect(told.overbakes).toBeGreaterThan(told.neither);
  });
});
