/** What a bake takes of a load: no load that can be laid out and fired is more than full by any measure. */
import { describe, expect, it } from "vitest";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { loadShares } from "../../../../solver/bound/load-shares.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import type { DayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import type { Oven, PanLine, ShelfSpace } from "../../../../solver/shop.ts";
import { chance } from "../../../help/day-chance.ts";
import { generatedDay } from "../../../help/days.ts";

function invented(seed: number, door: "hot" | "cold"): DayModel {
  const read = readDay(generatedDay({ pans: 24, ovens: 1, door, pace: "calm", seed }));
  if (!read.ok) throw new Error("the invented day is bad");
  return dayModel(toRequest(read.day));
}

/** The day with one oven whose every shelf is a square of 66 cm with gaps of 3 cm, and with lines of one shape only. */
function squareDay(shape: PanLine["shape"], heightCm: number): DayModel {
  const { request } = invented(51, "hot");
  const shelf = { widthCm: 66, depthCm: 66, maxKg: Infinity, offsetC: 0 };
  const space: ShelfSpace = {
    kind: "shelves",
    gapCm: 3,
    shelves: [
      { ...shelf, id: "low", clearHeightCm: 10 },
      { ...shelf, id: "high", clearHeightCm: 20 },
    ],
  };
  const oven: Oven = { ...request.ovens[0]!, space };
  return dayModel({ ...request, ovens: [oven], lines: request.lines.map((line) => ({ ...line, shape, heightCm })) });
}

describe("the shares of a load", () => {
  // Geometry: four squares with gaps of 3 cm just fill 66 cm; discs in their places leave 1 - pi/4 free.
  it.each([
    ["squares", { kind: "rectangle", widthCm: 28.5, depthCm: 28.5 }, 1 / 8, 0.002],
    ["discs", { kind: "disc", diameterCm: 28.5 }, Math.PI / 32, 1e-9],
  ] as const)("of %s that just fit are what they fill", (_, shape, expected, within) => {
    const low = loadShares(squareDay(shape, 8));
    for (const [any, tall] of low) {
      expect(Math.abs(any! - expected)).toBeLessThanOrEqual(within);
      expect(tall).toBe(0);
    }
    // Too tall for the low shelf: half as many find room.
    for (const [, tall] of loadShares(squareDay(shape, 15)))
      expect(Math.abs(tall! - 2 * expected)).toBeLessThanOrEqual(2 * within);
  });

  it("never sum to more than 1 in a load that has a recipe", () => {
    const dice = chance(9);
    let fullest = 0;
    for (let seed = 41; seed < 47; seed++) {
      const day = invented(seed, seed % 2 === 0 ? "hot" : "cold");
      const shares = loadShares(day);
      const book = new RecipeBook(day, 20);
      for (let load = 0; load < 60; load++) {
        const kind = dice.whole(0, day.kinds.length - 1);
        const kinds: number[] = [];
        while (kinds.length < 40 && book.recipe(0, [...kinds, kind]) !== undefined) kinds.push(kind);
        for (let more = 0; more < 10; more++) {
          const other = [...kinds, dice.whole(0, day.kinds.length - 1)].sort((a, b) => a - b);
          if (book.recipe(0, other) !== undefined) kinds.splice(0, kinds.length, ...other);
        }
        for (let measure = 0; measure < shares[0]!.length; measure++) {
          const filled = kinds.reduce((sum, one) => sum + shares[one]![measure]!, 0);
          expect(filled).toBeLessThanOrEqual(1 + 1e-9);
          fullest = Math.max(fullest, filled);
        }
      }
    }
    expect(fullest).toBeGreaterThan(0.7);
  });
});
