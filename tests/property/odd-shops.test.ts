/**
 * Days in shops unlike the bench's: no bound is above a plan found, the search being told of a plan 6 % dearer. Without a clean burn
 * a pre-heat before the first door may make the chamber hotter than any load leaves it; with a low door limit it counts how far the
 * chamber has cooled since the last fact.
 */
import { describe, expect, it } from "vitest";
import { COARSE, COARSE_AS_IS, FINEST } from "../../solver/bound/grain.ts";
import { quickBound } from "../../solver/bound/quick.ts";
import { dayModel } from "../../solver/day/day-model.ts";
import { RecipeBook } from "../../solver/loads/recipe-book.ts";
import { exactBound, planOf, provenBound } from "../help/exact-bound.ts";
import { oddShop } from "../help/odd-shops.ts";

const PATIENCE = 240_000;
const SPOILT = 1.06;
const MOST_PANS = 4;
const DAYS_A_BATCH = 12;

describe("odd shops", () => {
  it.each([0, 1, 2, 3, 4, 5])(
    "are bounded by every plan found, batch %i",
    (batch) => {
      let baked = 0;
      for (let seed = batch * DAYS_A_BATCH; seed < (batch + 1) * DAYS_A_BATCH; seed++) {
        const request = oddShop(seed, MOST_PANS);
        const { cost, loads } = planOf(request, 1_500);
        const upper = cost.total * SPOILT + 0.01;
        const bounds = {
          quick: quickBound(new RecipeBook(dayModel(request), 30)).total,
          proven: provenBound(request, upper, 500),
          coarse: exactBound(request, { upper, labels: 1_500, grain: COARSE }).bound,
          finest: exactBound(request, { upper, labels: 2_500, grain: COARSE_AS_IS, closer: FINEST, rides: false })
            .bound,
        };
        for (const [name, bound] of Object.entries(bounds))
          expect(bound, `${name}, seed ${seed}`).toBeLessThanOrEqual(cost.total + 1e-6);
        if (loads.some(({ state, kind }) => state === "planned" && kind === "bake")) baked++;
      }
      expect(baked).toBeGreaterThan(DAYS_A_BATCH / 2);
    },
    PATIENCE,
  );
});
