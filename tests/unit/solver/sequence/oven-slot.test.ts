/** An attended oven that is fired empty before a break, in a plan as the search makes it. */
import { expect, it } from "vitest";
import { planFiring, stepBudget } from "../../../../solver/index.ts";
import { gatherBenchDays } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

it("is pre-heated before the break for the door after it, where that shortens the day", () => {
  const [day] = gatherBenchDays().filter(({ name }) => name === "6-cold-calm");
  const request = requestOf(day!.day);
  const [morning, afternoon] = request.staffed;
  const search = planFiring(request, { seed: 1, progress: stepBudget(20_000), gapPercent: 0 });
  let step = search.next();
  while (step.done !== true) step = search.next();
  const { loads } = step.value;
  const at = loads.findIndex(({ kind, done }, load) => kind === "preheat" && loads[load + 1]!.doorOpens > done);
  const [preheat, bake] = [loads[at]!, loads[at + 1]!];
  expect(preheat.done).toBeLessThanOrEqual(morning!.to);
  expect(bake.doorOpens).toBe(afternoon!.from);
  // As cool as the load before left it, the chamber would be another 100 K down.
  expect(bake.chamberStartC!).toBeGreaterThan(preheat.chamberStartC! + 50);
  expect(bake.chamberStartC!).toBeLessThan(preheat.setPointC!);
});
