import fc from "fast-check";
import { expect, test } from "vitest";
import type { Day, DayFile } from "../../api/contract/day.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { planFiring, stepBudget } from "../../solver/index.ts";
import { anyDay } from "../help/any-day.ts";
import { chance } from "../help/day-chance.ts";
import { planned, validDay } from "../help/planned.ts";

const STEPS = 350;
const fixed = { seed: 20260310, endOnFailure: true };
const PATIENCE = 180_000;
/** Rounding of the bound and of money in the file. */
const CENT = 0.01;

test(
  "the plan of any day passes the checker, costs no more than the careful hand's and no less than the bound",
  async () => {
    await fc.assert(
      fc.asyncProperty(anyDay, async (day) => {
        const { plan, costs, bounds } = await planned(day, STEPS);
        expect(costs.length).toBeGreaterThan(0);
        expect(plan.cost.total).toBeLessThanOrEqual((costs[0] ?? 0) + CENT);
        expect(costs).toEqual(costs.toSorted((a, b) => b - a));
        for (const bound of [...bounds, plan.search.bestPossibleCost]) {
          expect(bound).toBeLessThanOrEqual(plan.cost.total + CENT);
        }
      }),
      { ...fixed, numRuns: 24 },
    );
  },
  PATIENCE,
);

test(
  "planning leaves the request as it was",
  () => {
    fc.assert(
      fc.property(anyDay, (file) => {
        const request = frozen(toRequest(validDay(file)));
        const before = JSON.stringify(request);
        for (const _ of planFiring(request, { seed: 1, gapPercent: 0, progress: stepBudget(60) }));
        expect(JSON.stringify(request)).toBe(before);
      }),
      { ...fixed, numRuns: 6 },
    );
  },
  PATIENCE,
);

test(
  "the same day, seed and steps give the same plan to the letter",
  async () => {
    await fc.assert(
      fc.asyncProperty(anyDay, fc.integer({ min: 0, max: 1e6 }), async (day, seed) => {
        const [one, other] = [await planned(day, STEPS, seed), await planned(day, STEPS, seed)];
        expect(JSON.stringify(other.plan)).toBe(JSON.stringify(one.plan));
      }),
      { ...fixed, numRuns: 3 },
    );
  },
  PATIENCE,
);

test(
  "no seed finds a plan below the bound of another",
  async () => {
    await fc.assert(
      fc.asyncProperty(anyDay, async (day) => {
        const plans = [await planned(day, STEPS, 1), await planned(day, STEPS, 2), await planned(day, 3 * STEPS, 3)];
        const bounds = plans.map(({ plan }) => plan.search.bestPossibleCost);
        const costs = plans.map(({ plan }) => plan.cost.total);
        expect(Math.max(...bounds)).toBeLessThanOrEqual(Math.min(...costs) + CENT);
      }),
      { ...fixed, numRuns: 6 },
    );
  },
  PATIENCE,
);

test(
  "a day with its pans in another order and under other names is bounded by what the first day costs, and the other way round",
  async () => {
    await fc.assert(
      fc.asyncProperty(anyDay, fc.integer({ min: 1, max: 1e6 }), async (day, seed) => {
        const [one, other] = [await planned(day, STEPS), await planned(renamed(day, seed), STEPS)];
        expect(other.plan.search.bestPossibleCost).toBeLessThanOrEqual(one.plan.cost.total + CENT);
        expect(one.plan.search.bestPossibleCost).toBeLessThanOrEqual(other.plan.cost.total + CENT);
        expect(other.plan.cost.total).toBeLessThanOrEqual((other.costs[0] ?? 0) + CENT);
      }),
      { ...fixed, numRuns: 6 },
    );
  },
  PATIENCE,
);

/** Each leaves every plan of the first day a plan of the second, at no more cost. */
const easier: readonly (readonly [words: string, change: (day: Day) => DayFile])[] = [
  ["one more shelf", (day) => ({ ...day, ovens: day.ovens.map(withOneMoreShelf) })],
  [
    "one more oven",
    (day) => ({ ...day, ovens: [...day.ovens, ...day.ovens.slice(0, 1).map((o) => ({ ...o, id: "spare" }))] }),
  ],
  [
    "one more sprayer",
    (day) => ({ ...day, booth: { ...day.booth, sprayers: day.booth.sprayers === 0 ? 0 : day.booth.sprayers + 1 } }),
  ],
  ["wider windows", (day) => ({ ...day, coatings: day.coatings.map(withWiderWindows) })],
  [
    "no promises",
    (day) => ({ ...day, pans: day.pans.map((pan) => ({ ...pan, promisedAt: null, priority: "normal" as const })) }),
  ],
  ["cheaper gas", (day) => ({ ...day, prices: { ...day.prices, gasPerKWh: day.prices.gasPerKWh / 2 } })],
];

test(
  "what makes a day easier never lifts its bound above what the harder day was planned for",
  async () => {
    await fc.assert(
      fc.asyncProperty(anyDay, fc.constantFrom(...easier), async (file, [, change]) => {
        const { day, plan } = await planned(file, STEPS);
        const eased = await planned(change(day), 1);
        expect(eased.plan.search.bestPossibleCost).toBeLessThanOrEqual(plan.cost.total + CENT);
      }),
      { ...fixed, numRuns: 14 },
    );
  },
  PATIENCE,
);

function frozen<T>(value: T): T {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}

/** Lines shuffled; tickets and lines under new names, which also sort differently. */
function renamed(day: DayFile, seed: number): DayFile {
  const lots = chance(seed);
  const lines = day.pans.map((pan) => ({ pan, lot: lots.whole(0, 1e9) })).toSorted((a, b) => a.lot - b.lot);
  const lineIds = new Map(lines.map(({ pan }, i) => [pan.id, `line ${String(i)}`]));
  const ticketIds = new Map(lines.map(({ pan }, i) => [pan.ticket ?? pan.id, `ticket ${String(i)}`]));
  const line = (id: string): string => lineIds.get(id) ?? id;
  return {
    ...day,
    pans: lines.map(({ pan }) => ({ ...pan, id: line(pan.id), ticket: ticketIds.get(pan.ticket ?? pan.id) ?? pan.id })),
    held: (day.held ?? []).map((load) => ({
      ...load,
      pans: (load.pans ?? []).map((pan) => ({ ...pan, id: line(pan.id) })),
    })),
  };
}

function withOneMoreShelf(oven: Day["ovens"][number]): Day["ovens"][number] {
  const { space } = oven;
  const last = space.kind === "shelves" ? space.shelves.at(-1) : undefined;
  if (space.kind === "area" || last === undefined) return oven;
  return { ...oven, space: { ...space, shelves: [...space.shelves, { ...last, id: "one more" }] } };
}

function withWiderWindows(coating: Day["coatings"][number]): Day["coatings"][number] {
  const wider = (bake: Day["coatings"][number]["coats"][number]["bake"]): typeof bake => ({
    ...bake,
    metalHighC: (bake.metalHighC ?? 0) + 10,
    soakMostMinutes: (bake.soakMostMinutes ?? 0) + 10,
  });
  return { ...coating, coats: coating.coats.map((coat) => ({ ...coat, bake: wider(coat.bake) })) };
}
