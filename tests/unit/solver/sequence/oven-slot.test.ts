/** Ovens before a break, in plans as the search makes them: an attended one is fired empty, one that needs nobody may be left full. */
import { expect, it } from "vitest";
import { gatherBenchDays, generatedDay } from "../../../help/days.ts";
import { planOf, requestOf } from "../../../help/exact-bound.ts";
import { leftInside, withPause } from "../../../help/left-inside.ts";
import { planned } from "../../../help/planned.ts";

it("is pre-heated before the break for the door after it, where that shortens the day", () => {
  const [day] = gatherBenchDays().filter(({ name }) => name === "6-cold-calm");
  const request = requestOf(day!.day);
  const [morning, afternoon] = request.staffed;
  const { loads } = planOf(request, 20_000);
  const at = loads.findIndex(({ kind, done }, load) => kind === "preheat" && loads[load + 1]!.doorOpens > done);
  const [preheat, bake] = [loads[at]!, loads[at + 1]!];
  expect(preheat.done).toBeLessThanOrEqual(morning!.to);
  expect(bake.doorOpens).toBe(afternoon!.from);
  // As cool as the load before left it, the chamber would be another 100 K down.
  expect(bake.chamberStartC!).toBeGreaterThan(preheat.chamberStartC! + 50);
  expect(bake.chamberStartC!).toBeLessThan(preheat.setPointC!);
});

it("is loaded before the break and unloaded after it, where nobody needs to be there", async () => {
  const wish = { pans: 4, ovens: 1, door: "cold", pace: "overloaded", seed: 14 } as const;
  const file = withPause(generatedDay(wish), { afterMinutes: 150, minutes: 90 });
  const alone = requestOf(file);
  const unattended = planOf(alone, 600);
  expect(leftInside(unattended, alone)).toBe(1);
  const watched = requestOf({ ...file, ovens: file.ovens.map((oven) => ({ ...oven, attended: true })) });
  const attended = planOf(watched, 600);
  expect(leftInside(attended, watched)).toBe(0);
  expect(unattended.cost.total).toBeLessThan(0.95 * attended.cost.total);
  // Throws where the checker finds fault.
  const { plan } = await planned(file, 600);
  expect(plan.cost.total).toBeCloseTo(unattended.cost.total, 1);
  expect(plan.cautions.join(" ")).toMatch(/nobody is there/);
});
