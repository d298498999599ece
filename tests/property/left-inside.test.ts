/** Loads that cool down in an oven that needs nobody until somebody is there again: no bound is above a plan with one. */
import { expect, it } from "vitest";
import { COARSE, COARSE_AS_IS, FINEST } from "../../solver/bound/grain.ts";
import { quickBound } from "../../solver/bound/quick.ts";
import { dayModel } from "../../solver/day/day-model.ts";
import { RecipeBook } from "../../solver/loads/recipe-book.ts";
import { generatedDay } from "../help/days.ts";
import { exactBound, planOf, provenBound, requestOf } from "../help/exact-bound.ts";
import { leftInside, withPause } from "../help/left-inside.ts";

const PATIENCE = 120_000;
const SPOILT = 1.06;

it.each([
  { seed: 1, pans: 1, ovens: 1, afterMinutes: 60, minutes: 60 },
  { seed: 6, pans: 1, ovens: 1, afterMinutes: 40, minutes: 60 },
  { seed: 11, pans: 1, ovens: 1, afterMinutes: 80, minutes: 60 },
  { seed: 11, pans: 2, ovens: 1, afterMinutes: 80, minutes: 45 },
  { seed: 22, pans: 3, ovens: 2, afterMinutes: 150, minutes: 90 },
  { seed: 14, pans: 4, ovens: 1, afterMinutes: 150, minutes: 90 },
] as const)(
  "days of $pans pans, $ovens oven(s), seed $seed, nobody there for $minutes min after $afterMinutes",
  ({ seed, pans, ovens, ...pause }) => {
    const request = requestOf(withPause(generatedDay({ seed, pans, ovens, door: "cold", pace: "overloaded" }), pause));
    const plan = planOf(request, 600);
    expect(leftInside(plan, request)).toBeGreaterThan(0);
    const cost = plan.cost.total;
    const upper = cost * SPOILT;
    const bounds = [
      quickBound(new RecipeBook(dayModel(request), 30)).total,
      provenBound(request, upper, 600),
      exactBound(request, { upper, labels: 3_000, grain: COARSE }).bound,
      exactBound(request, { upper, labels: 5_000, grain: COARSE_AS_IS, closer: FINEST, rides: false }).bound,
    ];
    for (const bound of bounds) {
      expect(bound).toBeGreaterThan(0);
      expect(bound).toBeLessThanOrEqual(cost + 1e-6);
    }
  },
  PATIENCE,
);
