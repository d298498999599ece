/** Several lines of search, one after another. */
import { expect, it } from "vitest";
import { generatedDay } from "../../../help/days.ts";
import { planOf, requestOf } from "../../../help/exact-bound.ts";

const STEPS = 16_000;
/** Money that one line of as many steps costs at least: it ended on 284.56 when this was written, four on 277.45. */
const ONE_LINE = 284;

it("build anew, come to the same plan each time, and to a cheaper one than a single line", () => {
  const request = requestOf(generatedDay({ pans: 28, ovens: 1, door: "cold", pace: "overloaded", seed: 328 }));
  const plan = planOf(request, STEPS);
  expect(planOf(request, STEPS)).toEqual(plan);
  expect(plan.cost.total).toBeLessThan(ONE_LINE);
});
