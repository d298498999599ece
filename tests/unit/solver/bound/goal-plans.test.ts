/** Plans of the loads that exact searches end on: legal, of the cost that they say, and better than a short search's. */
import { describe, expect, it } from "vitest";
import { GoalPlans } from "../../../../solver/bound/goal-plans.ts";
import { proveBound } from "../../../../solver/bound/prove.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, EXACT_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { Polished } from "../../../../solver/sequence/polish.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { DayWish } from "../../../help/days.ts";
import { generatedDay } from "../../../help/days.ts";
import { plannedCost, requestOf } from "../../../help/exact-bound.ts";

const sorts: readonly DayWish[] = [
  { pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 405 },
  { pans: 7, ovens: 1, door: "hot", pace: "overloaded", seed: 406 },
  { pans: 4, ovens: 2, door: "hot", pace: "calm", seed: 420 },
  { pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 417, held: true },
];

describe("a proof that ends on loads", () => {
  it.each(sorts)("tells a plan of them: $pans pans, $ovens ovens, $door door, $pace, day $seed", (wish) => {
    const request = requestOf(generatedDay(wish));
    const day = dayModel(request);
    const exact = new Evaluator(new Timetable(closeBook(day, 0), EXACT_BUCKET_K));
    // Spoilt, so that the same plan is better.
    let upper = 1.06 * plannedCost(request, 30_000);
    const planned = upper / 1.06;
    const found: Polished[] = [];
    let bound = 0;
    for (const { better, total, labels } of proveBound(request, () => upper)) {
      bound = total;
      if (better !== undefined) {
        found.push(better);
        upper = better.cost;
      }
      if (labels > 20_000) break;
    }
    expect(found.length).toBeGreaterThan(0);
    for (const { sequence, cost } of found) {
      expect(exact.cost(sequence)).toBeCloseTo(cost, 9);
      const bakes = sequence.loads.flatMap((load) => load.bakes);
      expect(new Set(bakes).size).toBe(bakes.length);
    }
    expect(bound).toBeLessThanOrEqual(upper);
    // A long search finds nothing much better.
    expect(upper).toBeLessThan(1.002 * planned);
  });
});

describe("loads that cannot be fired as told", () => {
  const day = dayModel(requestOf(generatedDay({ pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 405 })));
  const plansOf = (loads: readonly (readonly number[])[], upper: number): Polished[] => {
    const asked = loads.map((bakes) => newLoad(0, bakes));
    return [...new GoalPlans(day).of(asked, () => upper)].flatMap((plan) => (plan === undefined ? [] : [plan]));
  };
  const bakesOf = (step: number): number[] => day.bakes.flatMap((bake, at) => (bake.step === step ? [at] : []));

  it("fall apart by kind", () => {
    // A silicone glaze never bakes with a fluoropolymer primer.
    const [plan] = plansOf([bakesOf(0), bakesOf(1)], 100);
    expect(plan!.sequence.loads.length).toBeGreaterThan(2);
    expect(new Set(plan!.sequence.loads.flatMap(({ bakes }) => bakes)).size).toBe(day.bakes.length);
  });

  it("are no plan where something cheaper is known, and are looked at once", () => {
    expect(plansOf([bakesOf(0), bakesOf(1)], 10)).toEqual([]);
    const plans = new GoalPlans(day);
    const asked = [bakesOf(0), bakesOf(1)].map((bakes) => newLoad(0, bakes));
    expect([...plans.of(asked, () => 100)].length).toBeGreaterThan(0);
    expect([...plans.of(asked, () => 100)]).toEqual([]);
  });
});
