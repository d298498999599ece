import { describe, expect, test } from "vitest";
import type { PlanFile } from "../../api/contract/plan.ts";
import { planned, validDay } from "../help/planned.ts";
import { ORIGIN, publicDay } from "../help/public-days.ts";
import { lineId } from "../help/public-jobs.ts";
import type { JobProblem } from "../help/public-jobs.ts";
import { fixtureFolder, publicSets, readPublicSet } from "../help/public-sets.ts";
import { worthOf } from "../help/public-value.ts";

/** Origins of instances and values: fixtures/public/README.md. */
const instances = publicSets.flatMap((set) => readPublicSet(set, fixtureFolder));

describe("open instances planned as days", () => {
  const SEEDS = [1, 2, 3];
  /** Jobs are timed far quicker than shelves are packed. */
  const STEPS = { "weighted tardiness": 300_000, "load time": 300_000, loads: 20_000 };
  test.each(instances)(
    "$set $name: sound by the set's own definition, priced as its objective",
    async ({ day, problem, bestKnown, lowerBound }) => {
      const goal = (bestKnown ?? Infinity) + 1e-6;
      let least = Infinity;
      for (const seed of SEEDS) {
        const { plan } = await planned(day, STEPS[problem.objective], seed);
        const { value, faults } = worthOf(problem, plan);
        expect(faults).toEqual([]);
        expect(plan.leftOver).toEqual([]);
        expect(plan.cost.total).toBeCloseTo(value, 2);
        expect(value).toBeGreaterThanOrEqual((lowerBound ?? 0) - 1e-6);
        expect(plan.search.bestPossibleCost).toBeLessThanOrEqual((bestKnown ?? value) + 0.01);
        least = Math.min(least, value);
        if (least <= goal) break;
      }
      expect(least).toBeLessThanOrEqual(goal);
    },
    180_000,
  );
});

test("instances of every set come with the project", () => {
  expect(new Set(instances.map(({ set }) => set)).size).toBe(publicSets.length);
});

describe("weighing a published sequence of 40 jobs", () => {
  /** OR-Library, wt40 no. 1 (as copied in public repositories): optimum 913; earliest due first gives 1588. */
  const minutes = [
    26, 24, 79, 46, 32, 35, 73, 74, 14, 67, 86, 46, 78, 40, 29, 94, 64, 27, 90, 55, 35, 52, 36, 69, 85, 95, 14, 78, 37,
    86, 44, 28, 39, 12, 30, 68, 70, 9, 49, 50,
  ];
  const weight = [
    1, 10, 9, 10, 10, 4, 3, 2, 10, 3, 7, 3, 1, 3, 10, 4, 7, 7, 4, 7, 5, 3, 5, 4, 9, 5, 2, 8, 10, 4, 7, 4, 9, 5, 7, 7, 5,
    10, 1, 3,
  ];
  const due = [
    1588, 1620, 1731, 1773, 1694, 1487, 1566, 1844, 1727, 1636, 1599, 1539, 1855, 1645, 1709, 1660, 1582, 1836, 1484,
    1559, 1772, 1510, 1512, 1795, 1522, 1509, 1598, 1658, 1826, 1628, 1650, 1833, 1627, 1528, 1541, 1497, 1481, 1446,
    1579, 1814,
  ];
  const best = [
    19, 38, 6, 36, 26, 23, 25, 34, 12, 35, 20, 17, 27, 11, 2, 33, 14, 31, 37, 22, 7, 15, 5, 30, 3, 1, 28, 10, 39, 16, 9,
    24, 4, 21, 29, 18, 32, 40, 8, 13,
  ];
  const problem: JobProblem = {
    objective: "weighted tardiness",
    ovens: 1,
    capacity: 1,
    jobs: minutes.map((m, i) => ({
      minutes: m,
      size: 1,
      release: 0,
      due: due[i] ?? 0,
      weight: weight[i] ?? 0,
      family: 0,
    })),
  };

  test("an optimal sequence is worth 913, the one by due times 1588", async () => {
    const { plan } = await planned(publicDay("wt40-1", problem), 1);
    const byDue = due.map((d, i) => [d, i + 1] as const).toSorted((a, b) => a[0] - b[0]);
    expect(worthOf(problem, inOrder(plan, problem, best))).toEqual({ value: 913, faults: [] });
    expect(
      worthOf(
        problem,
        inOrder(
          plan,
          problem,
          byDue.map(([, job]) => job),
        ),
      ).value,
    ).toBe(1588);
  });

  test("the planner finds no better and nearly as good", async () => {
    const { plan } = await planned(publicDay("wt40-1", problem), 15_000);
    expect(plan.cost.total).toBeGreaterThanOrEqual(913 - 0.01);
    expect(plan.cost.total).toBeLessThanOrEqual(1588);
    expect(plan.search.bestPossibleCost).toBeLessThanOrEqual(913.01);
  });

  test("a sequence that overlaps, leaves a job out or starts too early is refused", async () => {
    const { plan } = await planned(publicDay("wt40-1", problem), 1);
    const sound = inOrder(plan, problem, best);
    const [first, second, ...rest] = sound.loads;
    if (first === undefined || second === undefined) throw new Error("two loads were asked for");
    const refused = (loads: PlanFile["loads"], of: JobProblem = problem): readonly string[] =>
      worthOf(of, { ...sound, loads }).faults;
    expect(refused([first, { ...second, doorClosesAt: first.doorClosesAt }, ...rest])).toContainEqual(
      expect.stringContaining("before its oven is free"),
    );
    expect(refused([first, ...rest])).toContain("not every job is done once");
    expect(refused([{ ...first, pans: [...first.pans, ...second.pans] }, ...rest])).toContainEqual(
      expect.stringContaining("holds 2 of 1"),
    );
    const late = { ...problem, jobs: problem.jobs.map((job) => ({ ...job, release: 5 })) };
    expect(refused(sound.loads, late)).toContainEqual(expect.stringContaining("before a release"));
  });
});

test("rectangles that overlap or stick out are refused", async () => {
  const problem = {
    objective: "loads",
    floor: [10, 10],
    rectangles: [
      [6, 4],
      [6, 4],
      [4, 8],
    ],
  } as const;
  const { plan } = await planned(publicDay("three rectangles", problem), 200);
  expect(worthOf(problem, plan)).toEqual({ value: 1, faults: [] });
  const moved = (xCm: number): PlanFile => ({
    ...plan,
    loads: plan.loads.map((load) => ({ ...load, pans: load.pans.map((pan) => ({ ...pan, xCm })) })),
  });
  expect(worthOf(problem, moved(5)).faults).toContainEqual(expect.stringContaining("overlap"));
  expect(worthOf(problem, moved(9)).faults).toContainEqual(expect.stringContaining("outside"));
});

test("every instance is a valid day", () => {
  for (const { day } of instances) expect(() => validDay(day)).not.toThrow();
});

/** A plan's loads retold as single jobs one after another. */
function inOrder(plan: PlanFile, problem: JobProblem, order: readonly number[]): PlanFile {
  const pans = new Map(plan.loads.flatMap((load) => load.pans.map((pan) => [pan.id, { load, pan }])));
  let start = 0;
  const loads = order.map((job) => {
    const own = pans.get(lineId(job - 1));
    if (own === undefined) throw new Error(`job ${job} is in no load`);
    const doorClosesAt = new Date(ORIGIN + start * 60_000).toISOString();
    start += problem.jobs[job - 1]?.minutes ?? 0;
    return { ...own.load, doorClosesAt, pans: [own.pan] };
  });
  return { ...plan, loads };
}
