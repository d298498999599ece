/** Several lines of search, one after another, where promises clash and there is time for them. */
import { expect, it } from "vitest";
import { linesIn } from "../../../../solver/sequence/budget-shares.ts";
import { generatedDay } from "../../../help/days.ts";
import { planOf, requestOf } from "../../../help/exact-bound.ts";

it.each([
  { pans: 40, begun: 0.1, now: 0.4, lines: 1, why: "ranks that took a third of the time leave none for a second line" },
  { pans: 40, begun: 0.1, now: 0.2, lines: 2, why: "lines of a quarter of the time each" },
  { pans: 40, begun: 0.05, now: 0.1, lines: 6, why: "lines of an eighth" },
  { pans: 40, begun: 0.9, now: 0.95, lines: 1, why: "begun too late" },
  { pans: 24, begun: 0.05, now: 0.1, lines: 1, why: "a small day" },
])("$lines: $why", ({ pans, begun, now, lines }) => {
  expect(linesIn(pans, begun, now)).toBe(lines);
});

const STEPS = 34_000;
/** Money that one line of as many steps costs at least: it ended on 149.37 when this was written. */
const ONE_LINE = 149;

it("builds anew, comes to the same plan each time, and to a cheaper one than in a single line", () => {
  const day = generatedDay({ pans: 32, ovens: 1, door: "cold", pace: "overloaded", seed: 305, sprayers: 1 });
  const request = requestOf(day);
  const plan = planOf(request, STEPS);
  expect(planOf(request, STEPS)).toEqual(plan);
  expect(plan.cost.total).toBeLessThan(ONE_LINE);
});
