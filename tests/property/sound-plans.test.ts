/** Any day a workshop may write down: the independent checker finds nothing to say about its plan. */
import { describe, expect, it } from "vitest";
import { checkPlan } from "../../api/check/check-plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { toPlanFile } from "../../api/day/from-solver.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { planFiring, stepBudget } from "../../solver/index.ts";
import { generatedDay } from "../help/days.ts";

const wishes = Array.from({ length: 18 }, (_, seed) => ({
  pans: [6, 8, 12, 20, 30, 40][seed % 6]!,
  ovens: 1 + (seed % 2),
  door: seed % 3 === 0 ? ("cold" as const) : ("hot" as const),
  pace: seed % 4 === 0 ? ("overloaded" as const) : ("calm" as const),
  seed: 1000 + seed,
  days: seed % 5 === 0 ? 2 : 1,
}));

describe("a plan that no strict audit can fault", () => {
  it.each(wishes)("$pans pans, $ovens oven(s), $door door, $pace, $days day(s), seed $seed", (wish) => {
    const read = readDay(generatedDay(wish));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const request = toRequest(read.day);
    const before = structuredClone(request);
    const planning = planFiring(request, { seed: 1, progress: stepBudget(400), gapPercent: 0 });
    let careful = Infinity;
    let step = planning.next();
    while (step.done !== true) {
      if (step.value !== undefined && careful === Infinity) careful = step.value.cost;
      step = planning.next();
    }
    const meta = { madeAt: "2026-03-10T07:12:03+00:00", seconds: 1, seed: 1, lpEngine: "javascript-lp-solver" };
    const plan = toPlanFile(read.day, request, step.value, meta);
    expect(checkPlan(read.day, plan)).toEqual([]);
    // Never costlier than the careful hand, whose plan is the first one.
    expect(step.value.cost.total).toBeLessThanOrEqual(careful + 0.01);
    expect(step.value.proof.bestPossibleCost).toBeLessThanOrEqual(step.value.cost.total);
    expect(request).toEqual(before);
  });
});
