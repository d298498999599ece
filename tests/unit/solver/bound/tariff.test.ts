/** Least gas and oven time of a bake, by each worth of chamber heat, against simulated firings of pans alone and in company. */
import { describe, expect, it } from "vitest";
import type { DayModel } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { COARSE_ALONE } from "../../../../solver/bound/grain.ts";
import { LoadSets } from "../../../../solver/bound/load-sets.ts";
import { loneTables } from "../../../../solver/bound/lone-tables.ts";
import { heatingCost, plainWorth } from "../../../../solver/bound/tariff.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { chance } from "../../../help/day-chance.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

/** kWh or minutes: integration agrees with the reference within half a percent. */
const ROUNDING = 0.02;

const dayOf = (door: "hot" | "cold", seed: number) =>
  dayModel(requestOf(generatedDay({ pans: 12, ovens: 1, door, pace: "calm", seed })));

/** From chambers as cold as the room. */
const tablesOf = (day: DayModel) => loneTables(new LoadSets(day, COARSE_ALONE), Float64Array.of(day.request.ambientC));

describe("what a bake costs at least", () => {
  for (const door of ["hot", "cold"] as const) {
    it(`is undercut by no firing of random loads through a ${door} door, with what the chamber held and holds counted`, () => {
      const dice = chance(door === "hot" ? 5 : 6);
      let firings = 0;
      let nearest = Infinity;
      for (let seed = 41; seed < 44; seed++) {
        const day = dayOf(door, seed);
        const { ambientC, ovens } = day.request;
        const { cycle } = ovens[0]!;
        if (cycle.kind !== "thermal") throw new Error("thermal ovens only");
        const book = new RecipeBook(day, 5);
        const { gas, ovenTime, times } = tablesOf(day);
        const baked = [...times.keys()];
        const hottestC = Math.min(cycle.doorLimitC, cycle.setPointMaxC);
        const opens = Array.from({ length: 9 }, (_, at) => ambientC + (at / 8) * (hottestC - ambientC));
        for (let load = 0; load < 25; load++) {
          const first = dice.oneOf(baked);
          const more = Array.from({ length: dice.whole(0, 4) }, () => dice.oneOf(baked));
          const whole = [first, ...more].sort((a, b) => a - b);
          const recipe = book.recipe(0, whole) ?? book.recipe(0, [first]);
          if (recipe === undefined) continue;
          for (const opensC of opens)
            for (const { gasKWh, unloadMinutes, chamberAtDoneC } of book.firings(recipe, opensC, EXACT_BUCKET_K)) {
              firings++;
              const minutes = cycle.loadMinutes + unloadMinutes + cycle.unloadMinutes;
              for (const { rates, worth, spent, needed } of [...gas, ovenTime]) {
                const found = rates.perKWh * gasKWh + rates.perMinute * minutes + worth(0, opensC);
                const left = Math.max(0, found - worth(0, chamberAtDoneC));
                for (const kind of recipe.kinds) {
                  expect(needed.get(kind)![0]!).toBeLessThanOrEqual(found + ROUNDING);
                  expect(spent.get(kind)![0]!).toBeLessThanOrEqual(left + ROUNDING);
                  nearest = Math.min(nearest, left / Math.max(ROUNDING, spent.get(kind)![0]!));
                }
              }
            }
        }
      }
      expect(firings).toBeGreaterThan(200);
      // A figure that nothing ever comes near would bound nothing.
      expect(nearest).toBeLessThan(1.2);
    });

    it(`makes neither cooling nor heating the empty chamber a gain, and more of the day than plain heat, ${door} door`, () => {
      const day = dayOf(door, 41);
      const { ambientC, ovens } = day.request;
      const { cycle } = ovens[0]!;
      if (cycle.kind !== "thermal") throw new Error("thermal ovens only");
      const { gas, ovenTime } = tablesOf(day);
      expect(gas[1]!.worth).not.toBe(gas[0]!.worth);
      const plain = { rates: ovenTime.rates, worth: plainWorth(day, ovenTime.rates) };
      for (const { rates, worth } of [...gas, ovenTime, plain]) {
        // As if a chamber were heated without end.
        expect(worth(0, Infinity)).toBeGreaterThanOrEqual(worth(0, cycle.setPointMaxC));
        for (let lowC = ambientC; lowC <= cycle.setPointMaxC; lowC += 7)
          for (let highC = lowC; highC <= cycle.setPointMaxC; highC += 7) {
            const rise = worth(0, highC) - worth(0, lowC);
            expect(rise).toBeGreaterThanOrEqual(0);
            const purge = rates.perMinute * cycle.purgeMinutes;
            expect(rise).toBeLessThanOrEqual(purge + heatingCost(rates, cycle, highC - lowC) + 1e-9);
          }
      }
    });
  }

  it("lets company keep the chamber warmer while it coasts: no minutes are claimed for what pans give back", () => {
    // Three pans of one kind, in a cold oven, are out as soon as one alone and leave half a kelvin more.
    const day = dayOf("cold", 154);
    const { ambientC, ovens } = day.request;
    const { loadMinutes, unloadMinutes: toUnload } = ovens[0]!.cycle;
    const { ovenTime } = tablesOf(day);
    const book = new RecipeBook(day, 5);
    const minutes = book
      .firings(book.recipe(0, [1, 1, 1])!, ambientC, EXACT_BUCKET_K)
      .map(({ unloadMinutes, chamberAtDoneC }) => {
        const { worth } = ovenTime;
        return loadMinutes + unloadMinutes + toUnload + worth(0, ambientC) - worth(0, chamberAtDoneC);
      });
    expect(ovenTime.spent.get(1)![0]!).toBeLessThanOrEqual(Math.min(...minutes) + ROUNDING);
  });
});
