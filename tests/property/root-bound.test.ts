/**
 * What the prover says of all pans at once, before any search, is never more than any plan costs: not where the oven owes a
 * clean burn as the day begins, and not where leaving pans over is so cheap that plans do.
 */
import { describe, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import { proveBound } from "../../solver/bound/prove.ts";
import { planFiring } from "../../solver/plan.ts";
import type { PlanRequest } from "../../solver/shop.ts";
import { stepBudget } from "../../solver/stop.ts";
import { generatedDay } from "../help/days.ts";
import { requestOf } from "../help/exact-bound.ts";

const PATIENCE = 240_000;
const SEEDS = Array.from({ length: 12 }, (_, seed) => seed + 700);

/** The day's ovens have last baked silicone, which leaves them in need of a clean burn; pans may be left over at this price. */
function soiledDay(seed: number, leftOverPerPan: number): DayFile {
  const pace = seed % 3 === 0 ? "calm" : "overloaded";
  const door = seed % 2 === 0 ? "hot" : "cold";
  const file = generatedDay({ pans: 3 + (seed % 5), ovens: 1, door, pace, seed, sprayers: 1 });
  return {
    ...file,
    prices: { ...file.prices, leftOverPerPan },
    ovens: file.ovens.map((oven) => ({ ...oven, lastGroups: ["silicone"] })),
  };
}

interface Seen {
  readonly cost: number;
  readonly pansLeft: boolean;
  readonly burns: boolean;
}

/** Every better plan on the way. */
function plansOf(request: PlanRequest): Seen[] {
  const seen: Seen[] = [];
  for (const progress of planFiring(request, { seed: 1, progress: stepBudget(1_500), gapPercent: 0 })) {
    if (progress === undefined) continue;
    const { cost, leftOver, loads } = progress.plan();
    seen.push({
      cost: cost.total,
      pansLeft: leftOver.length > 0,
      burns: loads.some(({ kind }) => kind === "clean burn"),
    });
  }
  return seen;
}

describe.each([0.5, 5, 45])("soiled ovens, pans left over for %s each", (price) => {
  it(
    "are bounded before any search",
    () => {
      const all: Seen[] = [];
      for (const seed of SEEDS) {
        const request = requestOf(soiledDay(seed, price));
        const first = proveBound(request, () => Infinity).next().value;
        const plans = plansOf(request);
        for (const { cost } of plans) expect(first.total, `seed ${seed}`).toBeLessThanOrEqual(cost + 1e-6);
        all.push(...plans);
      }
      expect(all.some(({ burns }) => burns)).toBe(true);
      if (price < 1) expect(all.some(({ pansLeft }) => pansLeft)).toBe(true);
    },
    PATIENCE,
  );
});

describe("a clean burn that is owed", () => {
  it("raises what is said before any search", () => {
    const firstBound = (file: DayFile): number => proveBound(requestOf(file), () => Infinity).next().value.total;
    const raised = SEEDS.map((seed) => {
      const soiled = soiledDay(seed, 1_000);
      const clean = { ...soiled, ovens: soiled.ovens.map((oven) => ({ ...oven, lastGroups: [] })) };
      return firstBound(soiled) / firstBound(clean);
    });
    expect(Math.min(...raised)).toBeGreaterThanOrEqual(1 - 1e-9);
    expect(raised.filter((ratio) => ratio > 1.02).length).toBeGreaterThan(SEEDS.length / 3);
  });
});
