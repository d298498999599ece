/** Several lines of search, one after another, where promises clash and there is time for them. */
import { expect, it } from "vitest";
import { planFiring, stepBudget } from "../../../../solver/index.ts";
import type { FiringPlan } from "../../../../solver/index.ts";
import { linesIn } from "../../../../solver/sequence/budget-shares.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

it.each([
  { begun: 0.1, now: 0.4, lines: 1, why: "ranks that took a third of the time leave none for a second line" },
  { begun: 0.1, now: 0.2, lines: 2, why: "lines of a quarter of the time each" },
  { begun: 0.05, now: 0.1, lines: 6, why: "lines of an eighth" },
  { begun: 0.9, now: 0.95, lines: 1, why: "begun too late" },
])("$lines: $why", ({ begun, now, lines }) => {
  expect(linesIn(begun, now)).toBe(lines);
});

/** Of one line as long as these together, which ended on 149.37 when this was written. */
const ONE_LINE = 149;

it("builds anew, comes to the same plan each time, and to a cheaper one than in a single line", () => {
  const day = generatedDay({ pans: 32, ovens: 1, door: "cold", pace: "overloaded", seed: 305, sprayers: 1 });
  const request = requestOf(day);
  const planned = (): FiringPlan => {
    const planning = planFiring(request, { seed: 1, gapPercent: 0, progress: stepBudget(34_000) });
    for (;;) {
      const step = planning.next();
      if (step.done === true) return step.value;
    }
  };
  const plan = planned();
  expect(planned()).toEqual(plan);
  expect(plan.cost.total).toBeLessThan(ONE_LINE);
});
