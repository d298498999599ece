/** To what an oven is set for a clean burn; worked by hand. */
import { describe, expect, it } from "vitest";
import { cleanBurnSetPointC } from "../../../../solver/loads/mixing.ts";
import type { Mixing, ThermalCycle } from "../../../../solver/shop.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const mixing = (setPointC: number): Mixing => ({
  rule: "any",
  neverTogether: [],
  cleanBurn: { after: ["silicone"], before: ["fluoropolymer"], setPointC, holdMinutes: 20 },
});
const oven = (setPointStepC: number, setPointMaxC: number): ThermalCycle => ({
  ...demoCycle,
  setPointStepC,
  setPointMaxC,
});

describe("the clean burn's set-point", () => {
  it.each([
    { asked: 420, step: 5, most: 430, set: 420 },
    { asked: 420, step: 25, most: 430, set: 425 },
    { asked: 200, step: 7, most: 440, set: 203 },
    { asked: 20.1, step: 0.1, most: 430, set: 20.1 },
    { asked: 430, step: 20, most: 430, set: undefined },
    { asked: 431, step: 1, most: 430, set: undefined },
  ])("asked for $asked °C in steps of $step up to $most is $set", ({ asked, step, most, set }) => {
    const found = cleanBurnSetPointC(mixing(asked), oven(step, most));
    if (set === undefined) expect(found).toBeUndefined();
    else expect(found).toBeCloseTo(set, 9);
  });

  it("is none in a shop that burns nothing clean", () => {
    expect(cleanBurnSetPointC({ ...mixing(420), cleanBurn: null }, oven(5, 430))).toBeUndefined();
  });
});
