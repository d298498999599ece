import { describe, expect, it } from "vitest";
import type { Group, Load } from "../../../../solver/lp-models/cover-task.ts";
import { boundByLoads } from "../../../../solver/lp-models/load-cover-bound.ts";
import type { Priced } from "../../../../solver/lp-models/load-cover-bound.ts";
import { chooseLoads } from "../../../../solver/lp-models/partition.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import { drawFrom } from "../../../help/lp-families.ts";

/** The load of most worth whose sizes add up to at most `capacity`: an unbounded knapsack by whole sizes. */
function knapsack(
  sizes: readonly number[],
  capacity: number,
  prices: readonly number[],
): { worth: number; counts: number[] } {
  const best = Array.from({ length: capacity + 1 }, () => ({ worth: 0, counts: sizes.map(() => 0) }));
  for (let room = 1; room <= capacity; room++) {
    best[room] = best[room - 1]!;
    sizes.forEach((size, g) => {
      if (size > room) return;
      const rest = best[room - size]!;
      if (rest.worth + prices[g]! <= best[room]!.worth + 1e-12) return;
      best[room] = { worth: rest.worth + prices[g]!, counts: rest.counts.map((n, k) => (k === g ? n + 1 : n)) };
    });
  }
  return best[capacity]!;
}

function priceAtOne(sizes: readonly number[], capacity: number): (prices: readonly number[]) => Priced {
  return (prices) => {
    const { worth, counts } = knapsack(sizes, capacity, prices);
    const covers = counts.flatMap((n, g) => (n > 0 ? [[g, n] as const] : []));
    return { loads: worth > 1 + 1e-9 ? [{ covers, cost: 1 }] : [], mostRatio: worth };
  };
}

// Chvátal: Linear Programming, chapter 13 (from memory): 97, 610, 395 and 211 finals of 45, 36, 31 and 14 in from raws
// of 100 in; the relaxation needs 452.25 raws.
it("needs 452.25 raws at least in Chvátal's paper mill", () => {
  const groups = [97, 610, 395, 211].map((need) => ({ need }));
  const answer = boundByLoads(createLp(), groups, [], priceAtOne([45, 36, 31, 14], 100));
  expect(answer.bound).toBeCloseTo(452.25, 4);
  expect(answer.converged).toBe(true);
});

it("gives prices that prove the bound by themselves", () => {
  const sizes = [45, 36, 31, 14];
  const groups = [97, 610, 395, 211].map((need) => ({ need }));
  const { bound, prices } = boundByLoads(createLp(), groups, [], priceAtOne(sizes, 100));
  expect(knapsack(sizes, 100, prices).worth).toBeLessThanOrEqual(1 + 1e-9);
  expect(groups.reduce((sum, { need }, g) => sum + need * prices[g]!, 0)).toBeCloseTo(bound, 9);
});

it("stays a bound when it is stopped after one round", () => {
  const groups = [97, 610, 395, 211].map((need) => ({ need }));
  const answer = boundByLoads(createLp(), groups, [], priceAtOne([45, 36, 31, 14], 100), { rounds: 1 });
  expect(answer.converged).toBe(false);
  expect(answer.bound).toBeGreaterThan(0);
  expect(answer.bound).toBeLessThanOrEqual(452.25 + 1e-6);
});

it("never asks more for a bake than leaving it costs", () => {
  const groups: Group[] = [{ need: 5, leaveCost: 0.1 }, { need: 4 }];
  const answer = boundByLoads(createLp(), groups, [], priceAtOne([50, 50], 100));
  expect(answer.prices[0]).toBeLessThanOrEqual(0.1);
  expect(answer.bound).toBeCloseTo(0.5 + 2, 6);
});

it("is 0 where a load may cost nothing", () => {
  const free = (): Priced => ({ loads: [{ covers: [[0, 1]], cost: 0 }], mostRatio: Infinity });
  expect(boundByLoads(createLp(), [{ need: 3 }], [], free)).toMatchObject({ bound: 0 });
});

describe("pools small enough to price by looking at every load", () => {
  it("never exceeds the cheapest cover and meets the relaxation of the whole pool", () => {
    for (let seed = 1; seed <= 25; seed++) {
      const draw = drawFrom(seed);
      const groups = Array.from({ length: draw.whole(2, 7) }, () => ({
        need: draw.whole(1, 5),
        leaveCost: draw.whole(3, 20),
      }));
      const pool = Array.from({ length: draw.whole(5, 40) }, (): Load => {
        const covers = groups.flatMap((_, g) => (draw.chance(0.4) ? [[g, draw.whole(1, 3)] as const] : []));
        return { covers: covers.length > 0 ? covers : [[0, 1]], cost: 1 + 5 * draw.real() };
      });
      const worth = (load: Load, prices: readonly number[]): number =>
        load.covers.reduce((sum, [g, n]) => sum + n * prices[g]!, 0);
      const answer = boundByLoads(createLp(), groups, [], (prices) => {
        const ratios = pool.map((load) => worth(load, prices) / load.cost);
        const most = Math.max(...ratios);
        return { loads: pool.filter((_, k) => ratios[k] === most && most > 1 + 1e-9), mostRatio: most };
      });
      const cover = chooseLoads(createLp(), { groups, loads: pool })!;
      expect(answer.bound, `pool ${seed}`).toBeLessThanOrEqual(cover.value + 1e-6);
      for (const load of pool) expect(worth(load, answer.prices)).toBeLessThanOrEqual(load.cost + 1e-9);
      expect(answer.converged, `pool ${seed}`).toBe(true);
    }
  });
});
