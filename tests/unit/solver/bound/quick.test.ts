/** The quick bound against every plan of tiny days, and against published optima of batching on one machine. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { quickBound } from "../../../../solver/bound/quick.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { chance } from "../../../help/day-chance.ts";

interface Job {
  readonly minutes: number;
  readonly dm2: number;
  readonly ready: number;
  readonly leftOver: number;
}

const GAS_KW = 20;
const PRICES = { gasPerKWh: 0.1, crewPerHour: 12, movePerPan: 0 };

/** One oven with a fixed cycle and no door work, one unsprayed coat per pan; every minute is staffed. */
function shopOf(jobs: readonly Job[], dm2: number, gasPerKWh = PRICES.gasPerKWh): PlanRequest {
  return {
    planFromMinute: 0,
    staffed: [{ from: 0, to: 100_000 }],
    nextOpenMinute: 100_000,
    ambientC: 20,
    prices: { ...PRICES, gasPerKWh },
    gas: { kind: "natural", unit: "m3", grossKWhPerUnit: 11, kgCO2ePerKWh: 0.18, unitsLeft: null, maxDrawKW: null },
    benches: 0,
    booth: { sprayers: 0, changeoverMinutes: 0, handleAtC: 40, coolFilmWPerM2K: 12 },
    finishMinutes: 0,
    mixing: { rule: "any", neverTogether: [], cleanBurn: null },
    coatings: jobs.map(({ minutes }, index) => ({
      id: `c${index}`,
      name: `${minutes} minutes`,
      coats: [
        {
          name: "bake",
          sprayMinutes: 0,
          flashMinutes: 0,
          maxWaitMinutes: null,
          mixGroup: "all",
          solventMlPerM2: 0,
          inspectMinutes: 0,
          ovens: null,
          paint: "none",
          window: null,
          cycleMinutes: minutes,
        },
      ],
    })),
    ovens: [
      {
        id: "box",
        name: "Box oven",
        cycle: { kind: "fixed", loadMinutes: 0, unloadMinutes: 0, gasKW: GAS_KW },
        space: { kind: "area", dm2 },
        maxLoadKg: Infinity,
        maxSolventMl: Infinity,
        attended: true,
        lastGroups: [],
      },
    ],
    lines: jobs.map((job, index) => ({
      id: `p${index}`,
      ticket: `t${index}`,
      quantity: 1,
      coating: index,
      nextCoat: 1,
      sprayed: false,
      readyMinute: job.ready,
      prepMinutes: 0,
      promisedMinute: null,
      latePerHour: 0,
      leftOverCost: job.leftOver,
      shape: { kind: "area", dm2: job.dm2 },
      heightCm: 1,
      massKg: 1,
      specificHeatJPerKgK: 900,
      metalLimitC: Infinity,
    })),
    held: [],
    inForce: [],
  };
}

/** The cheapest of all sequences of loads, pans left over or not, tried one by one. */
function cheapestPlan(jobs: readonly Job[], dm2: number): number {
  const all = (1 << jobs.length) - 1;
  const members = (set: number): Job[] => jobs.filter((_, index) => (set >> index) & 1);
  const go = (rest: number, free: number, gasMinutes: number): number => {
    const left = members(rest).reduce((sum, job) => sum + job.leftOver, 0);
    const gas = ((gasMinutes * GAS_KW) / 60) * PRICES.gasPerKWh;
    let best = (free * PRICES.crewPerHour) / 60 + gas + left;
    for (let load = rest; load > 0; load = (load - 1) & rest) {
      const pans = members(load);
      if (pans.reduce((sum, pan) => sum + pan.dm2, 0) > dm2) continue;
      const minutes = Math.max(...pans.map((pan) => pan.minutes));
      const opens = Math.max(free, ...pans.map((pan) => pan.ready));
      best = Math.min(best, go(rest & ~load, opens + minutes, gasMinutes + minutes));
    }
    return best;
  };
  return go(all, 0, 0);
}

const boundOf = (request: PlanRequest) => quickBound(new RecipeBook(dayModel(request), 1));

describe("the quick bound", () => {
  it("is at most the cheapest of all plans of four pans, and mostly near it", () => {
    const dice = chance(7);
    let reached = 0;
    for (let day = 0; day < 120; day++) {
      const jobs = Array.from({ length: 4 }, () => ({
        minutes: dice.whole(5, 60),
        dm2: dice.whole(2, 10),
        ready: dice.whole(0, 60),
        leftOver: dice.oneOf([0.5, 3, 8, 1000]),
      }));
      const cheapest = cheapestPlan(jobs, 10);
      const { total, gas, crew, late } = boundOf(shopOf(jobs, 10));
      expect(total).toBeLessThanOrEqual(cheapest + 1e-9);
      expect(gas + crew + late).toBeLessThanOrEqual(total);
      reached += total / cheapest;
    }
    expect(reached / 120).toBeGreaterThan(0.6);
  });

  // Best known total load times as collected with their sources in the development benchmarks (makespan_sf).
  it("stays below the best known total load times of published batching instances, by a tenth at most in the mean", () => {
    const text = (name: string): string =>
      readFileSync(new URL(`../../../../../shared/benchmarks/dev/${name}`, import.meta.url), "utf8");
    const { instances } = JSON.parse(text("makespan_sf.json")) as {
      instances: { name: string; capacity: number; jobs: [number, number][] }[];
    };
    const known = new Map(
      text("best_known.csv")
        .split("\n")
        .filter((row) => row.startsWith("makespan_sf,"))
        .map((row) => row.split(","))
        .map((cells) => [cells[1], Number(cells[4])] as const),
    );
    const shares = instances.slice(0, 12).map(({ name, capacity, jobs }) => {
      const pans = jobs.map(([minutes, dm2]) => ({ minutes, dm2, ready: 0, leftOver: 1e6 }));
      const minutes = (boundOf(shopOf(pans, capacity, 0)).crew * 60) / PRICES.crewPerHour;
      const best = known.get(name)!;
      expect(minutes).toBeLessThanOrEqual(best + 1e-6);
      return minutes / best;
    });
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeGreaterThan(0.85);
  });
});
