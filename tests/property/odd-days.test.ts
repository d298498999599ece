/**
 * Days in shops unlike the bench's: the checker finds nothing to say about their plans, and no bound is above one, the search being
 * told of a plan 6 % dearer. Without a clean burn a pre-heat before the first door may make the chamber hotter than any load leaves
 * it; with a low door limit it counts how far the chamber has cooled since the last fact.
 */
import { describe, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import { checkPlan } from "../../api/check/check-plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { toPlanFile } from "../../api/day/from-solver.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { COARSE, COARSE_AS_IS, FINEST } from "../../solver/bound/grain.ts";
import { quickBound } from "../../solver/bound/quick.ts";
import { dayModel } from "../../solver/day/day-model.ts";
import { RecipeBook } from "../../solver/loads/recipe-book.ts";
import { generatedDay } from "../help/days.ts";
import { exactBound, planOf, provenBound } from "../help/exact-bound.ts";
import { oddDay } from "../help/odd-days.ts";

const PATIENCE = 240_000;
const SPOILT = 1.06;
const BATCHES = [0, 1, 2, 3, 4];
const DAYS_A_BATCH = 13;
const META = { madeAt: "2026-03-10T07:12:03+00:00", seconds: 1, seed: 1, lpEngine: "javascript-lp-solver" } as const;

const seedsOf = (batch: number): number[] => Array.from({ length: DAYS_A_BATCH }, (_, at) => batch * DAYS_A_BATCH + at);

describe("odd days", () => {
  it.each(BATCHES)(
    "of a few pans are bounded by every plan found, batch %i",
    (batch) => {
      let planned = 0;
      for (const seed of seedsOf(batch)) {
        const read = readDay(oddDay(seed, 4));
        if (!read.ok) continue;
        const request = toRequest(read.day);
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
        if (loads.some(({ state, kind }) => state === "planned" && kind === "bake")) planned++;
      }
      expect(planned).toBeGreaterThan(DAYS_A_BATCH / 3);
    },
    PATIENCE,
  );

  it.each(BATCHES)(
    "have plans that the checker cannot fault, batch %i",
    (batch) => {
      let planned = 0;
      for (const seed of seedsOf(batch)) {
        const read = readDay(oddDay(seed, 12));
        if (!read.ok) continue;
        const request = toRequest(read.day);
        const plan = planOf(request, 400);
        expect(checkPlan(read.day, toPlanFile(read.day, request, plan, META)), `seed ${seed}`).toEqual([]);
        if (plan.loads.some(({ state, kind }) => state === "planned" && kind === "bake")) planned++;
      }
      expect(planned).toBeGreaterThan(DAYS_A_BATCH / 3);
    },
    PATIENCE,
  );

  it.each([
    { seed: 5, spareMinutes: 3 },
    { seed: 15, spareMinutes: 2 },
    { seed: 29, spareMinutes: 2 },
  ])(
    "have savings that the checker finds too where no sound firing repeats a fact: seed $seed",
    ({ seed, spareMinutes }) => {
      const day = generatedDay({ seed, pans: 5, ovens: 1, door: "hot", pace: "calm", held: true });
      const read = readDay(withTightWindows(day, spareMinutes));
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const request = toRequest(read.day);
      const plan = planOf(request, 100);
      expect(checkPlan(read.day, toPlanFile(read.day, request, plan, META))).toEqual([]);
      expect(plan.savings[0]!.kWh).toBeGreaterThan(10);
    },
  );
});

function withTightWindows(day: DayFile, spareMinutes: number): DayFile {
  const tight = ({ bake, ...coat }: DayFile["coatings"][number]["coats"][number]) => ({
    ...coat,
    bake: { ...bake, soakMostMinutes: bake.soakLeastMinutes! + spareMinutes },
  });
  return { ...day, coatings: day.coatings.map(({ coats, ...coating }) => ({ ...coating, coats: coats.map(tight) })) };
}
