import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leastCost } from "../help/brute-force.ts";
import { planned } from "../help/planned.ts";
import { publicDay } from "../help/public-days.ts";
import type { JobProblem } from "../help/public-jobs.ts";
import { worthOf } from "../help/public-value.ts";
import { anyTinyDay, tinyDayFile } from "../help/tiny-days.ts";
import type { TinyKind } from "../help/tiny-days.ts";

const PATIENCE = 180_000;

describe("published and hand-made problems of one oven with a known optimum", () => {
  /** Figures as in the sources named; those made here were enumerated in full. */
  const cases: readonly (readonly [words: string, optimum: number, problem: JobProblem])[] = [
    [
      "full firings in the order of length are best where all pieces are of one size (rule: common knowledge of the field, from memory)",
      21,
      loadTime(3, [12, 10, 8, 7, 5, 3, 2], [1, 1, 1, 1, 1, 1, 1]),
    ],
    [
      "four full firings of pairs (made here)",
      155,
      loadTime(10, [60, 60, 45, 45, 30, 30, 20, 20], [6, 4, 5, 5, 7, 3, 6, 4]),
    ],
    [
      "five firings where the area alone would take four (made here)",
      185,
      loadTime(10, [60, 60, 45, 45, 30, 30, 20, 20], [7, 4, 6, 5, 3, 3, 2, 6]),
    ],
    [
      "pairs for three promises (made here)",
      65,
      tardy(2, [40, 40, 40, 25, 25, 60], [40, 60, 90, 70, 100, 110], [1, 3, 1, 2, 1, 2]),
    ],
    [
      "toy 4.1 of the public repository weightedTardinessPB_progDynamique",
      67,
      tardy(1, [12, 8, 15, 9], [16, 26, 25, 27], [4, 5, 3, 5]),
    ],
    ["toy 4.2 of the same", 42, tardy(1, [12, 3, 15, 9], [16, 26, 25, 27], [4, 5, 3, 5])],
    [
      "total tardiness of five jobs (M. Pinedo, Scheduling; from memory, enumerated)",
      370,
      tardy(1, [121, 79, 147, 83, 130], [260, 266, 266, 336, 337], [1, 1, 1, 1, 1]),
    ],
  ];

  test.each(cases)("%s: %d", async (title, optimum, problem) => {
    const { plan } = await planned(publicDay(title, problem), 3000);
    expect(worthOf(problem, plan)).toEqual({ value: optimum, faults: [] });
    expect(plan.cost.total).toBeCloseTo(optimum, 2);
    expect(plan.search.bestPossibleCost).toBeLessThanOrEqual(optimum + 0.01);
  });
});

describe("tiny days whose every plan has been tried", () => {
  const kinds: readonly (TinyKind & { readonly words: string; readonly runs: number })[] = [
    { words: "one oven, three pans of two coats, hands enough", ovens: 1, sprayers: 0, pans: 3, coats: 2, runs: 20 },
    { words: "one oven, four pans of one coat, one sprayer", ovens: 1, sprayers: 1, pans: 4, coats: 1, runs: 20 },
    { words: "one oven, two pans of three coats, one sprayer", ovens: 1, sprayers: 1, pans: 2, coats: 3, runs: 20 },
    { words: "two ovens, four pans of one coat, hands enough", ovens: 2, sprayers: 0, pans: 4, coats: 1, runs: 20 },
    { words: "two ovens, two pans of two coats, one sprayer", ovens: 2, sprayers: 1, pans: 2, coats: 2, runs: 20 },
  ];

  test.each(kinds)(
    "at most $words: the plan costs the least there is, and the bound no more",
    async ({ runs, ...kind }) => {
      await fc.assert(
        fc.asyncProperty(anyTinyDay(kind), async (tiny) => {
          const least = leastCost(tiny);
          const { plan } = await planned(tinyDayFile(tiny), 2500);
          expect(plan.cost.total).toBeCloseTo(least, 2);
          expect(plan.search.bestPossibleCost).toBeLessThanOrEqual(least + 0.01);
        }),
        { seed: 20260310, numRuns: runs },
      );
    },
    PATIENCE,
  );
});

function loadTime(capacity: number, minutes: readonly number[], sizes: readonly number[]): JobProblem {
  const jobs = minutes.map((m, i) => ({
    minutes: m,
    size: sizes[i] ?? NaN,
    release: 0,
    due: null,
    weight: 0,
    family: 0,
  }));
  return { objective: "load time", ovens: 1, capacity, jobs };
}

/** Unit sizes, all released at once. */
function tardy(
  capacity: number,
  minutes: readonly number[],
  due: readonly number[],
  weight: readonly number[],
): JobProblem {
  const jobs = minutes.map((m, i) => ({
    minutes: m,
    size: 1,
    release: 0,
    due: due[i] ?? NaN,
    weight: weight[i] ?? NaN,
    family: 0,
  }));
  return { objective: "weighted tardiness", ovens: 1, capacity, jobs };
}
