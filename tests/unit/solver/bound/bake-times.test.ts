/** Least minutes of a bake against simulated firings of pans alone and in company, from cold and hot chambers. */
import { describe, expect, it } from "vitest";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { bakeTimes } from "../../../../solver/bound/bake-times.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { minutesToHandle } from "../../../../solver/heat/cooling.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { chance } from "../../../help/day-chance.ts";
import { generatedDay } from "../../../help/days.ts";

describe("the least minutes of a bake", () => {
  for (const door of ["hot", "cold"] as const)
    it(`are undercut by no firing of random loads through a ${door} door`, () => {
      const dice = chance(door === "hot" ? 3 : 4);
      let firings = 0;
      for (let seed = 31; seed < 34; seed++) {
        const read = readDay(generatedDay({ pans: 12, ovens: 1, door, pace: "calm", seed }));
        if (!read.ok) throw new Error("the invented day is bad");
        const day = dayModel(toRequest(read.day));
        const { ambientC, booth, ovens } = day.request;
        const { cycle } = ovens[0]!;
        if (cycle.kind !== "thermal") throw new Error("thermal ovens only");
        const book = new RecipeBook(day, 5);
        const least = day.kinds.map((kind) => bakeTimes(day, kind, 0));
        for (let load = 0; load < 25; load++) {
          const first = dice.whole(0, day.kinds.length - 1);
          const more = Array.from({ length: dice.whole(0, 4) }, () => dice.whole(0, day.kinds.length - 1));
          const recipe =
            book.recipe(
              0,
              [first, ...more].sort((a, b) => a - b),
            ) ?? book.recipe(0, [first]);
          if (recipe === undefined) continue;
          const hottestC = Math.min(cycle.doorLimitC, cycle.setPointMaxC);
          for (const opensC of [ambientC, (ambientC + hottestC) / 2, hottestC])
            for (const option of book.firings(recipe, opensC, EXACT_BUCKET_K))
              recipe.kinds.forEach((kind, index) => {
                firings++;
                const { closedMinutes, handleMinutes } = least[kind]!;
                expect(option.unloadMinutes).toBeGreaterThanOrEqual(closedMinutes);
                const metalC = option.metalAtUnloadC[recipe.memberOf[index]!]!;
                const { body } = day.kinds[kind]!;
                const cools = minutesToHandle(body, metalC, ambientC, booth.handleAtC, booth.coolFilmWPerM2K);
                expect(option.unloadMinutes + cycle.unloadMinutes + cools).toBeGreaterThanOrEqual(handleMinutes);
              });
        }
      }
      expect(firings).toBeGreaterThan(200);
    });
});
