import { expect, test } from "vitest";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { startProver } from "../../../../api/planning/prover.ts";
import type { PlanRequest } from "../../../../solver/index.ts";
import { generatedDay } from "../../../help/days.ts";
import { validDay } from "../../../help/planned.ts";

const PATIENCE = 120_000;

async function until(true_: () => boolean): Promise<void> {
  while (!true_()) await new Promise((resolve) => setTimeout(resolve, 20));
}

test(
  "a process of its own proves a bound while others plan, and is ended at any moment",
  async () => {
    const day = validDay(generatedDay({ pans: 5, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 }));
    const told: string[] = [];
    const prover = startProver(toRequest(day), 1e6, (message) => told.push(message));
    expect(prover.bound()).toBe(0);
    await until(() => prover.bound() > 0);
    prover.know(1e5);
    prover.end();
    expect(told).toEqual([]);
  },
  PATIENCE,
);

test(
  "a proof that breaks is told, once",
  async () => {
    const told: string[] = [];
    const prover = startProver({} as PlanRequest, 100, (message) => told.push(message));
    await until(() => told.length > 0);
    expect(told).toHaveLength(1);
    expect(told[0]).toContain("the proof of how good the plan is has failed");
    expect(prover.bound()).toBe(0);
  },
  PATIENCE,
);
