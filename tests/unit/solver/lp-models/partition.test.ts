import { beforeAll, describe, expect, it } from "vitest";
import { chooseLoads } from "../../../../solver/lp-models/partition.ts";
import type { CoverTask, Load } from "../../../../solver/lp-models/cover-task.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import type { LinearModel, Row } from "../../../../solver/lp/model.ts";
import { openHighs } from "../../../help/highs.ts";
import { drawFrom } from "../../../help/lp-families.ts";

/** Every set of pans that fits one load, costing the longest bake in it. */
function allLoads(minutes: readonly number[], size: readonly number[], capacity: number): Load[] {
  const loads: Load[] = [];
  for (let set = 1; set < 1 << minutes.length; set++) {
    const pans = minutes.map((_, p) => p).filter((p) => set & (1 << p));
    if (pans.reduce((sum, p) => sum + size[p]!, 0) > capacity) continue;
    loads.push({ covers: pans.map((p) => [p, 1] as const), cost: Math.max(...pans.map((p) => minutes[p]!)) });
  }
  return loads;
}

/** Least total oven time of one oven whose load lasts as long as its longest bake. */
function leastOvenTime(
  minutes: readonly number[],
  size: readonly number[],
  capacity: number,
  exactly: boolean,
): number {
  const groups = minutes.map(() => ({ need: 1 }));
  const cover = chooseLoads(createLp(), { groups, loads: allLoads(minutes, size, capacity), exactly });
  expect(cover?.proven).toBe(true);
  expect(cover?.bound).toBeCloseTo(cover!.value, 9);
  return cover!.value;
}

// Small batch-oven cases made for this project; optima by full enumeration, the first also by the full-batches-in-
// longest-time-order rule for alike sizes (from memory).
describe.each([{ exactly: true }, { exactly: false }])(
  "least oven time with every pan in one load, exactly: $exactly",
  ({ exactly }) => {
    it("is 21 for seven alike pans, three to a load", () => {
      expect(leastOvenTime([12, 10, 8, 7, 5, 3, 2], [1, 1, 1, 1, 1, 1, 1], 3, exactly)).toBeCloseTo(21, 9);
    });

    it("is 155 where four full loads work out", () => {
      expect(leastOvenTime([60, 60, 45, 45, 30, 30, 20, 20], [6, 4, 5, 5, 7, 3, 6, 4], 10, exactly)).toBeCloseTo(
        155,
        9,
      );
    });

    it("is 185 where the area alone would allow less", () => {
      expect(leastOvenTime([60, 60, 45, 45, 30, 30, 20, 20], [7, 4, 6, 5, 3, 3, 2, 6], 10, exactly)).toBeCloseTo(
        185,
        9,
      );
    });
  },
);

// Chvátal: Linear Programming, chapter 13, cutting raws of 100 in (from memory): 453 raws, relaxation 452.25.
it("cuts the 1313 finals of Chvátal's paper mill from 453 raws", () => {
  const widths = [45, 36, 31, 14];
  const loads: Load[] = [];
  for (let a = 0; a <= 2; a++)
    for (let b = 0; b <= 2; b++)
      for (let c = 0; c <= 3; c++)
        for (let d = 0; d <= 7; d++) {
          const counts = [a, b, c, d];
          const covers = counts.flatMap((n, g) => (n > 0 ? [[g, n] as const] : []));
          if (covers.length > 0 && counts.reduce((sum, n, g) => sum + n * widths[g]!, 0) <= 100)
            loads.push({ covers, cost: 1 });
        }
  const groups = [97, 610, 395, 211].map((need) => ({ need }));
  expect(chooseLoads(createLp(), { groups, loads })).toMatchObject({ value: 453, proven: true });
});

describe("bakes that may be left", () => {
  const loads: Load[] = [{ covers: [[0, 2]], cost: 5 }];

  it("leaves a bake where the load costs more than leaving it", () => {
    const cover = chooseLoads(createLp(), { groups: [{ need: 3, leaveCost: 4 }], loads });
    expect(cover).toMatchObject({ chosen: [1], value: 9, proven: true });
  });

  it("buys a half-empty load where leaving costs more", () => {
    const cover = chooseLoads(createLp(), { groups: [{ need: 3, leaveCost: 6 }], loads });
    expect(cover).toMatchObject({ chosen: [2], value: 10, proven: true });
  });

  it("finds no cover where bakes may not be left and nothing covers them", () => {
    expect(chooseLoads(createLp(), { groups: [{ need: 1 }, { need: 1 }], loads })).toBeUndefined();
    expect(chooseLoads(createLp(), { groups: [{ need: 3 }], loads, exactly: true })).toBeUndefined();
  });
});

describe("pools as planning makes them", () => {
  let reference: (model: LinearModel) => { status: string; value: number };
  beforeAll(async () => {
    reference = await openHighs();
  });

  it("never beats the reference solver, meets it where it says so, and keeps its bound below it", () => {
    let excess = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const task = pool(seed, 5 + (seed % 4), 30, seed % 3 === 0);
      const cover = chooseLoads(createLp(), task)!;
      const truth = reference(toModel(task));
      expect(truth.status).toBe("optimal");
      expect(cover.bound, `pool ${seed}`).toBeLessThanOrEqual(truth.value + 1e-6);
      expect(cover.value, `pool ${seed}`).toBeGreaterThanOrEqual(truth.value - 1e-6);
      if (cover.proven) expect(cover.value, `pool ${seed}`).toBeCloseTo(truth.value, 6);
      expect(coverCostByHand(task, cover.chosen), `pool ${seed}`).toBeCloseTo(cover.value, 9);
      excess += cover.value / truth.value - 1;
    }
    expect(excess / 12).toBeLessThan(0.01);
  }, 60_000);

  it("starts from a known cover and never ends above it", () => {
    const task = pool(4, 20, 120, false);
    const good = chooseLoads(createLp(), task)!;
    const again = chooseLoads(createLp(), task, { solves: 1, hint: good.chosen })!;
    expect(again.value).toBeLessThanOrEqual(good.value);
  }, 30_000);

  it("keeps to the programs it may solve and gives the same cover twice", () => {
    const task = pool(9, 40, 300, false);
    const [one, two] = [createLp(), createLp()];
    expect(chooseLoads(one, task, { solves: 500 })).toEqual(chooseLoads(two, task, { solves: 500 }));
    expect(one.solves()).toBeLessThan(1000);
    expect(one.solves()).toBe(two.solves());
  }, 30_000);
});

/** Groups of alike pans with areas and heating speeds, loads of what fits 60 dm² and heats alike. */
function pool(seed: number, groupCount: number, loadCount: number, exactly: boolean): CoverTask {
  const draw = drawFrom(seed);
  const kinds = Array.from({ length: groupCount }, () => ({ area: draw.whole(3, 12), slow: draw.real() }));
  const groups = kinds.map(() => ({ need: draw.whole(1, 6), leaveCost: 30 }));
  const loads: Load[] = kinds.map(({ slow }, g) => ({ covers: [[g, 1]], cost: 2 + slow }));
  while (loads.length < loadCount) {
    let room = 60;
    const covers: [number, number][] = [];
    for (let tries = 0; tries < 4; tries++) {
      const g = draw.whole(0, groupCount - 1);
      const most = Math.min(groups[g]!.need, Math.floor(room / kinds[g]!.area));
      if (most === 0 || covers.some(([other]) => other === g)) continue;
      const count = draw.chance(0.7) ? most : draw.whole(1, most);
      covers.push([g, count]);
      room -= count * kinds[g]!.area;
    }
    if (covers.length === 0) continue;
    loads.push({
      covers,
      cost: 2 + 2 * Math.max(...covers.map(([g]) => kinds[g]!.slow)) + 0.05 * covers.reduce((n, [, c]) => n + c, 0),
    });
  }
  return { groups, loads, exactly };
}

function coverCostByHand(task: CoverTask, times: readonly number[]): number {
  const got = task.groups.map(() => 0);
  let cost = 0;
  times.forEach((n, k) => {
    cost += n * task.loads[k]!.cost;
    task.loads[k]!.covers.forEach(([g, count]) => (got[g] = got[g]! + n * count));
  });
  task.groups.forEach(({ need, leaveCost }, g) => (cost += Math.max(0, need - got[g]!) * leaveCost!));
  if (task.exactly) task.groups.forEach(({ need }, g) => expect(got[g]).toBeLessThanOrEqual(need));
  return cost;
}

function toModel(task: CoverTask): LinearModel {
  const loads = task.loads.length;
  const rows = task.groups.map(({ need }, g): Row => {
    const at = task.loads.flatMap(({ covers }, k) =>
      covers.filter(([own]) => own === g).map(([, count]) => [k, count] as const),
    );
    return {
      kind: task.exactly ? "=" : ">=",
      rhs: need,
      columns: [...at.map(([k]) => k), loads + g],
      values: [...at.map(([, count]) => count), 1],
    };
  });
  const columns = [
    ...task.loads.map(({ cost }) => ({ cost, integer: true })),
    ...task.groups.map((g) => ({ cost: g.leaveCost! })),
  ];
  return { sense: "min", columns, rows };
}
