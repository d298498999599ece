/** The bound is never above a plan: planner's plans on invented days of every sort, and what no plan of tiny days undercuts. */
import { describe, expect, it } from "vitest";
import { readDay } from "../../api/day/read-day.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { quickBound } from "../../solver/bound/quick.ts";
import { dayModel } from "../../solver/day/day-model.ts";
import { planFiring } from "../../solver/plan.ts";
import { RecipeBook } from "../../solver/loads/recipe-book.ts";
import { stepBudget } from "../../solver/stop.ts";
import type { PlanRequest } from "../../solver/shop.ts";
import type { DayWish } from "../help/days.ts";
import { generatedDay } from "../help/days.ts";

function requestOf(wish: DayWish): PlanRequest {
  const read = readDay(generatedDay(wish));
  if (!read.ok) throw new Error("the invented day is bad");
  return toRequest(read.day);
}

function bestOf(request: PlanRequest, steps: number): number {
  const run = planFiring(request, { seed: 1, progress: stepBudget(steps), gapPercent: 0 });
  for (;;) {
    const { done, value } = run.next();
    if (done === true) return value.cost.total;
  }
}

const sorts: readonly Omit<DayWish, "seed" | "pans">[] = [
  { ovens: 1, door: "hot", pace: "calm" },
  { ovens: 1, door: "cold", pace: "calm" },
  { ovens: 1, door: "hot", pace: "overloaded", sprayers: 1 },
  { ovens: 2, door: "cold", pace: "overloaded" },
  { ovens: 1, door: "cold", pace: "calm", days: 2, held: true },
  { ovens: 1, door: "hot", pace: "calm", crew: 60 },
  { ovens: 2, door: "hot", pace: "calm", cycle: "fixed" },
  { ovens: 1, door: "hot", pace: "overloaded", cycle: "fixed", days: 1 },
];

describe("the quick bound", () => {
  for (const sort of sorts)
    for (const [pans, seed] of [
      [3, 11],
      [4, 12],
      [5, 21],
      [8, 15],
    ] as const) {
      it(`never exceeds the plan found for ${pans} pans, ${JSON.stringify(sort)}, seed ${seed}`, () => {
        const request = requestOf({ ...sort, pans, seed });
        const bound = quickBound(new RecipeBook(dayModel(request), 30));
        const cost = bestOf(request, 40);
        expect(bound.total).toBeLessThanOrEqual(cost);
        expect(bound.total).toBeGreaterThan(0);
        expect(bound.gas + bound.crew + bound.late).toBeLessThanOrEqual(bound.total);
      });
    }
});
