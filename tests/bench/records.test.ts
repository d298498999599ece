import { expect, test } from "vitest";
import { generatedDay } from "../help/days.ts";
import type { Instance } from "./instances.ts";
import { bestKnownOf, improved } from "./records.ts";
import type { Run } from "./run.ts";
import { blank } from "./run.ts";
import { summarise } from "./summary.ts";
import type { Line } from "./summary.ts";

const budget = { seconds: 10, steps: null };
const wish = { engine: "planner", seed: 1, budget } as const;

function instance(seed: number): Instance {
  const day = generatedDay({ pans: 4, ovens: 1, door: "hot", pace: "calm", seed });
  return { set: "days4", name: "four", day, problem: null, bestKnown: null, lowerBound: null };
}

function line(of: Instance, bestKnown: number | null, ...runs: Partial<Run>[]): Line {
  return summarise(
    of,
    bestKnown,
    runs.map((run) => ({ ...blank(of, wish), ...run })),
  );
}

test("the record of a day only ever gets better", () => {
  const one = instance(1);
  const first = improved({}, [one], [line(one, null, { value: 50, bound: 20 })], budget);
  expect(first["four"]).toMatchObject({ cost: 50, bound: 20, found: "10 s" });
  const worse = improved(first, [one], [line(one, 50, { value: 60, bound: 10 })], budget);
  expect(worse).toEqual(first);
  const cheaper = improved(first, [one], [line(one, 50, { value: 60, bound: 10 }, { value: 40, bound: 5 })], budget);
  expect(cheaper["four"]).toMatchObject({ cost: 40, bound: 20 });
  const tighter = improved(cheaper, [one], [line(one, 40, { value: 45, bound: 30 })], { seconds: null, steps: 99 });
  expect(tighter["four"]).toMatchObject({ cost: 40, bound: 30, found: "10 s" });
});

test("a day that has changed has no record", () => {
  const kept = improved({}, [instance(1)], [line(instance(1), null, { value: 50, bound: 20 })], budget);
  expect(bestKnownOf(instance(1), kept)).toBe(50);
  expect(bestKnownOf(instance(2), kept)).toBeNull();
  const anew = improved(kept, [instance(2)], [line(instance(2), null, { value: 70, bound: 1 })], budget);
  expect(anew["four"]).toMatchObject({ cost: 70, bound: 1 });
});

test("faulty runs are no record, and a bound above a known plan is a fault", () => {
  const one = instance(1);
  expect(improved({}, [one], [line(one, null, { value: 50, faults: ["too hot"] })], budget)).toEqual({});
  expect(line(one, 40, { value: 50, bound: 45 }).faults).toHaveLength(1);
  expect(line(one, null, { value: 50, bound: 45 }, { value: 44, bound: 30 }).faults).toHaveLength(1);
});

test("figures of several seeds are medians, the bound the highest, and no plan at all is no figure", () => {
  const one = instance(1);
  const three = line(one, 40, { value: 50, bound: 20 }, { value: 42, bound: 30 }, { value: 44, bound: 10 });
  expect(three).toMatchObject({ value: 44, worst: 50, best: 42, bound: 30, gapPercent: 10 });
  expect(three.boundGapPercent).toBeCloseTo((100 * 14) / 44, 10);
  expect(line(one, 40, { value: 50 }, { value: null }).value).toBeNull();
});
