import { expect, test } from "vitest";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { startBeside } from "../../../../api/planning/beside.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { planFiring, stepBudget } from "../../../../solver/index.ts";
import type { PlanRequest, Sequence } from "../../../../solver/index.ts";
import { closeBook, EXACT_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { generatedDay } from "../../../help/days.ts";
import { validDay } from "../../../help/planned.ts";

const PATIENCE = 120_000;
const FEW_STEPS = 20;

async function until(true_: () => boolean): Promise<void> {
  while (!true_()) await new Promise((resolve) => setTimeout(resolve, 20));
}

test(
  "a process of its own proves a bound while others plan, and is ended at any moment",
  async () => {
    const day = validDay(generatedDay({ pans: 5, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 }));
    const told: string[] = [];
    const task = { type: "prove", request: toRequest(day), cost: 1e6 } as const;
    const prover = startBeside(task, (message) => told.push(message));
    expect(prover.bound()).toBe(0);
    await until(() => prover.bound() > 0);
    prover.know(1e5, { haste: 1, heatCredit: 0, loads: [] });
    prover.end();
    expect(told).toEqual([]);
  },
  PATIENCE,
);

test(
  "a proof that breaks is told, once",
  async () => {
    const told: string[] = [];
    const task = { type: "prove", request: {} as PlanRequest, cost: 100 } as const;
    const prover = startBeside(task, (message) => told.push(message));
    await until(() => told.length > 0);
    expect(told).toHaveLength(1);
    expect(told[0]).toContain("the process that proves bounds beside the search has failed");
    expect(prover.bound()).toBe(0);
  },
  PATIENCE,
);

/** Of a plan of few steps. */
function lastCost(request: PlanRequest, offered: () => Sequence | undefined): number {
  let cost = Infinity;
  for (const step of planFiring(request, { seed: 1, gapPercent: 0, progress: stepBudget(FEW_STEPS), offered }))
    if (step !== undefined) ({ cost } = step);
  return cost;
}

test(
  "a proof hands over the plan of the loads that it ends on",
  async () => {
    const request = toRequest(
      validDay(generatedDay({ pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 })),
    );
    const known = lastCost(request, () => undefined);
    const told: string[] = [];
    const prover = startBeside({ type: "prove", request, cost: 1.06 * known }, (message) => told.push(message));
    let sequence: Sequence | undefined;
    await until(() => (sequence ??= prover.offered()) !== undefined);
    const exact = new Timetable(closeBook(dayModel(request), 0), EXACT_BUCKET_K);
    expect(new Evaluator(exact).cost(sequence!)).toBeLessThan(1.06 * known);
    prover.end();
    expect(told).toEqual([]);
  },
  PATIENCE,
);

test(
  "a second search hands over sequences that the first can take, and takes those that it is told of",
  async () => {
    const day = validDay(generatedDay({ pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 }));
    const request = toRequest(day);
    const told: string[] = [];
    const other = startBeside({ type: "search", request, seed: 9, seconds: 60 }, (message) => told.push(message));
    const exact = new Timetable(closeBook(dayModel(request), 0), EXACT_BUCKET_K);
    const costOf = (one: Sequence): number => new Evaluator(exact).cost(one);
    const alone = lastCost(request, () => undefined);
    // The first ones may be no better than what a search alone comes to in few steps.
    let sequence: Sequence | undefined;
    await until(() => {
      const found = other.offered();
      if (found !== undefined && costOf(found) < alone) sequence = found;
      return sequence !== undefined;
    });
    // It looked at the bound first.
    expect(other.bound()).toBeGreaterThan(0);
    const handed = [sequence!];
    const planned = lastCost(request, () => handed.pop());
    expect(handed).toEqual([]);
    expect(planned).toBeLessThanOrEqual(costOf(sequence!) + 1e-9);
    expect(planned).toBeGreaterThanOrEqual(other.bound() - 1e-9);
    other.know(0, sequence!);
    other.end();
    expect(told).toEqual([]);
  },
  PATIENCE,
);
