import { beforeAll, describe, expect, it } from "vitest";
import { timeSequence, timingCost } from "../../../../solver/lp-models/timing.ts";
import type { TimingTask } from "../../../../solver/lp-models/timing.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import type { LinearModel, Row } from "../../../../solver/lp/model.ts";
import { openHighs } from "../../../help/highs.ts";
import { drawFrom } from "../../../help/lp-families.ts";

interface Batch {
  readonly minutes: number;
  readonly jobs: readonly { readonly promised: number; readonly weight: number }[];
}

/** Batches one after the other in one oven, each job late by its batch's end. */
function inSequence(batches: readonly Batch[]): TimingTask {
  return {
    earliest: batches.map(() => 0),
    latest: batches.map(() => Infinity),
    least: batches.slice(1).map((_, k) => [k, k + 1, batches[k]!.minutes] as const),
    lateness: batches.flatMap(({ minutes, jobs }, activity) =>
      jobs.map(({ promised, weight }) => ({ endings: [{ activity, plus: minutes }], promised, rate: weight })),
    ),
    finishRate: 0,
    finish: [],
  };
}

function permutations(n: number): number[][] {
  if (n === 0) return [[]];
  return permutations(n - 1).flatMap((p) =>
    Array.from({ length: n }, (_, k) => [...p.slice(0, k), n - 1, ...p.slice(k)]),
  );
}

describe("weighted lateness of one oven", () => {
  // Toy of the single-machine weighted-tardiness literature, asserted by a public scheduling package's tests: 67, order
  // 1-2-4-3 alone; checked by enumeration.
  it("is 67 at best for four jobs, in the order 1-2-4-3 alone", () => {
    const minutes = [12, 8, 15, 9];
    const promised = [16, 26, 25, 27];
    const weight = [4, 5, 3, 5];
    const costs = permutations(4).map((order) => {
      const task = inSequence(
        order.map((j) => ({ minutes: minutes[j]!, jobs: [{ promised: promised[j]!, weight: weight[j]! }] })),
      );
      return { order: order.map((j) => j + 1).join("-"), cost: timingCost(task, timeSequence(createLp(), task)!) };
    });
    const least = Math.min(...costs.map(({ cost }) => cost));
    expect(least).toBeCloseTo(67, 9);
    expect(costs.filter(({ cost }) => cost < 67 + 1e-6).map(({ order }) => order)).toEqual(["1-2-4-3"]);
  });

  // Small batch-oven case made for this project, optimum by full enumeration: two pans to a load.
  it("is 65 at best for six pans, two to a load, loads 1+2, 4+5, 3+6", () => {
    const minutes = [40, 40, 40, 25, 25, 60];
    const weight = [1, 3, 1, 2, 1, 2];
    const promised = [40, 60, 90, 70, 100, 110];
    const batch = (pans: readonly number[]): Batch => ({
      minutes: Math.max(...pans.map((p) => minutes[p]!)),
      jobs: pans.map((p) => ({ promised: promised[p]!, weight: weight[p]! })),
    });
    const cost = (loads: readonly (readonly number[])[]): number => {
      const task = inSequence(loads.map(batch));
      return timingCost(task, timeSequence(createLp(), task)!);
    };
    expect(
      cost([
        [0, 1],
        [3, 4],
        [2, 5],
      ]),
    ).toBeCloseTo(65, 9);
    const pairings = [
      [0, 1],
      [0, 2],
      [0, 3],
      [0, 4],
      [0, 5],
    ].flatMap(([a, b]) => {
      const rest = [0, 1, 2, 3, 4, 5].filter((p) => p !== a && p !== b);
      return [1, 2, 3].map((k) => [[a!, b!], [rest[0]!, rest[k]!], rest.filter((_, i) => i !== 0 && i !== k)]);
    });
    const all = pairings.flatMap((loads) => permutations(3).map((order) => cost(order.map((k) => loads[k]!))));
    expect(Math.min(...all)).toBeCloseTo(65, 9);
  });
});

// Critical-path worked example in the form of every planning textbook; numbers made here: 0 →(5) 1 →(7) 3, 0 →(9) 2 →(2) 3.
it("starts everything so that the crew can go home after the longest path", () => {
  const task: TimingTask = {
    earliest: [0, 0, 0, 0],
    latest: [99, 99, 99, 99],
    least: [
      [0, 1, 5],
      [1, 3, 7],
      [0, 2, 9],
      [2, 3, 2],
    ],
    lateness: [],
    finishRate: 0.5,
    finish: [{ activity: 3, plus: 30 }],
  };
  const start = timeSequence(createLp(), task)!;
  expect(start[0]).toBe(0);
  expect(start[3]).toBe(12);
  expect(timingCost(task, start)).toBe(21);
});

it("starts later where waiting costs gas and nothing is late", () => {
  const task: TimingTask = {
    earliest: [0, 60],
    latest: [90, 60],
    least: [[0, 1, 25]],
    lateness: [],
    finishRate: 1,
    finish: [{ activity: 1, plus: 10 }],
    slope: [-0.01, 0],
  };
  expect(timeSequence(createLp(), task)).toEqual([35, 60]);
});

it("keeps a longest wait given backwards", () => {
  const task: TimingTask = {
    earliest: [0, 50],
    latest: [100, 100],
    least: [
      [0, 1, 10],
      [1, 0, -20],
    ],
    lateness: [{ endings: [{ activity: 0, plus: 0 }], promised: 0, rate: 1 }],
    finishRate: 0,
    finish: [],
  };
  expect(timeSequence(createLp(), task)).toEqual([30, 50]);
});

it("finds no times where windows close, waits contradict each other, or the task is too large", () => {
  const task: TimingTask = {
    earliest: [0, 0],
    latest: [10, 15],
    least: [[0, 1, 20]],
    lateness: [],
    finishRate: 0,
    finish: [],
  };
  expect(timeSequence(createLp(), task)).toBeUndefined();
  const round: TimingTask = {
    ...task,
    latest: [Infinity, Infinity],
    least: [
      [0, 1, 5],
      [1, 0, -4],
    ],
  };
  expect(timeSequence(createLp(), round)).toBeUndefined();
  const open: TimingTask = {
    ...task,
    least: [[0, 1, 5]],
    finishRate: 1,
    finish: [
      { activity: 1, plus: 0 },
      { activity: 0, plus: 3 },
    ],
  };
  expect(timeSequence(createLp(), open)).toBeDefined();
  expect(timeSequence(createLp(), open, { rowsTimesColumns: 2 })).toBeUndefined();
});

describe("random days", () => {
  let reference: (model: LinearModel) => { status: string; value: number };
  beforeAll(async () => {
    reference = await openHighs();
  });

  it("reaches the reference solver's cost in whole minutes, keeps every wait, or agrees that there are no times", () => {
    let none = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const task = day(seed, 4 + (seed % 12));
      const start = timeSequence(createLp(), task);
      const truth = reference(toModel(task));
      if (!start) {
        none++;
        expect(truth.status, `day ${seed}`).toBe("infeasible");
        continue;
      }
      expect(start.every(Number.isInteger)).toBe(true);
      for (const [i, j, minutes] of task.least) expect(start[j]! - start[i]!).toBeGreaterThanOrEqual(minutes);
      start.forEach((v, i) => expect(v >= task.earliest[i]! && v <= task.latest[i]!).toBe(true));
      expect(Math.abs(timingCost(task, start) - truth.value), `day ${seed}`).toBeLessThan(
        1e-5 * Math.max(1, truth.value),
      );
    }
    expect(none).toBeGreaterThan(0);
    expect(none).toBeLessThan(20);
  }, 30_000);
});

function day(seed: number, n: number): TimingTask {
  const draw = drawFrom(seed);
  const least: [number, number, number][] = [];
  for (let j = 1; j < n; j++) least.push([draw.whole(Math.max(0, j - 3), j - 1), j, draw.whole(5, 45)]);
  for (let j = 2; j < n; j += 3) least.push([j, draw.whole(0, j - 1), -draw.whole(90, 300)]);
  const any = (): number => draw.whole(0, n - 1);
  return {
    earliest: Array.from({ length: n }, () => draw.whole(0, 120)),
    latest: Array.from({ length: n }, () => (draw.chance(0.3) ? Infinity : draw.whole(250, 600))),
    least,
    lateness: Array.from({ length: n }, () => ({
      endings: [
        { activity: any(), plus: draw.whole(20, 60) },
        { activity: any(), plus: draw.whole(20, 60) },
      ],
      // Promises in fractions of a minute for some days.
      promised: draw.whole(60, 400) + (seed % 2 === 0 ? 0.25 : 0),
      rate: draw.whole(1, 9) / 10,
    })),
    finishRate: 0.3,
    finish: [
      { activity: n - 1, plus: 40 },
      { activity: 0, plus: 50 },
    ],
    slope: Array.from({ length: n }, () => (draw.chance(0.2) ? 0.002 : 0)),
  };
}

/** The same cost as a whole-number model, every wait a row. */
function toModel(task: TimingTask): LinearModel {
  const columns: { cost: number; low?: number; high?: number; integer?: boolean }[] = task.earliest.map((low, i) => ({
    cost: task.slope?.[i] ?? 0,
    low,
    high: task.latest[i]!,
    integer: true,
  }));
  const rows: Row[] = task.least.map(([i, j, rhs]) => ({ kind: ">=", rhs, columns: [j, i], values: [1, -1] }));
  const end = (cost: number, low: number, instant: number, endings: TimingTask["finish"]): void => {
    const column = columns.push({ cost, low }) - 1;
    for (const { activity, plus } of endings)
      rows.push({ kind: ">=", rhs: plus - instant, columns: [column, activity], values: [1, -1] });
  };
  task.lateness.forEach(({ rate, promised, endings }) => end(rate, 0, promised, endings));
  end(task.finishRate, -1e6, 0, task.finish);
  return { sense: "min", columns, rows };
}
