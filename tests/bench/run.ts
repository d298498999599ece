/** One run: an instance, an engine, a seed and a budget -> what came of it. Every plan passes the checker or is a fault. */
import { mkdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import type { PlanFile } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { PlanFault } from "../../api/planning/plan-fault.ts";
import { planDay } from "../../api/planning/plan-day.ts";
import type { DayProgress } from "../../api/planning/plan-day.ts";
import { worthOf } from "../help/public-value.ts";
import { runHighs } from "./highs-engine.ts";
import type { Instance } from "./instances.ts";
import type { Budget, Engine } from "./wish.ts";

export interface Run {
  readonly set: string;
  readonly name: string;
  readonly engine: Engine;
  readonly seed: number;
  /** The set's objective, or the cost; null where there is no plan. */
  readonly value: number | null;
  /** Lower bound that the engine claims; 0 where none. */
  readonly bound: number;
  readonly firstValue: number | null;
  readonly firstSeconds: number | null;
  readonly seconds: number;
  readonly lpSolves: number;
  readonly steps: number;
  readonly status: string;
  readonly leftOver: number;
  readonly faults: readonly string[];
}

export interface RunWish {
  readonly engine: Engine;
  readonly seed: number;
  readonly budget: Budget;
}

export async function runOnce(instance: Instance, wish: RunWish): Promise<Run> {
  const began = performance.now();
  try {
    if (wish.engine === "highs") return await runHighs(instance, wish);
    return await runPlanner(instance, wish);
  } catch (error) {
    const words = error instanceof PlanFault ? keepFault(instance, wish, error) : String(error);
    if (!(error instanceof PlanFault)) console.error(error);
    return { ...blank(instance, wish), seconds: (performance.now() - began) / 1000, status: "fault", faults: [words] };
  }
}

export function blank({ set, name }: Instance, { engine, seed }: RunWish): Run {
  return {
    set,
    name,
    engine,
    seed,
    value: null,
    bound: 0,
    firstValue: null,
    firstSeconds: null,
    seconds: 0,
    lpSolves: 0,
    steps: 0,
    status: "",
    leftOver: 0,
    faults: [],
  };
}

async function runPlanner(instance: Instance, wish: RunWish): Promise<Run> {
  const read = readDay(instance.day);
  if (!read.ok) throw new Error(`${instance.name} is no valid day: ${read.problems[0]?.message ?? ""}`);
  const plain = wish.engine === "plain";
  let first: DayProgress | undefined;
  const troubles: string[] = [];
  const { plan } = await planDay(
    read.day,
    {
      seed: wish.seed,
      seconds: wish.budget.seconds,
      steps: plain ? 1 : wish.budget.steps,
      gapPercent: 0,
      clock: { now: () => Date.now() },
      secondsNow: () => performance.now() / 1000,
      ...(plain ? {} : { trouble: (message: string) => troubles.push(message) }),
    },
    (progress) => (first ??= progress),
  );
  const { value, faults } = judge(instance, plan);
  const firstValue = first?.cost ?? null;
  return {
    ...blank(instance, wish),
    value: plain ? firstValue : value,
    bound: plan.search.bestPossibleCost,
    firstValue,
    firstSeconds: first?.seconds ?? null,
    seconds: plan.search.seconds,
    lpSolves: plan.search.lpSolves,
    steps: plan.search.steps ?? 0,
    status: plan.search.status,
    leftOver: plan.leftOver.length,
    faults: [...faults, ...troubles],
  };
}

/** An open instance is judged by its own definition; the cost of its day must say the same. */
function judge({ problem }: Instance, plan: PlanFile): Pick<Run, "faults"> & { readonly value: number } {
  const { total } = plan.cost;
  if (problem === null) return { value: total, faults: [] };
  const { value, faults } = worthOf(problem, plan);
  const same = Math.abs(total - value) <= 1e-3 * Math.max(1, value);
  // Waiting between loads is no load time, but the crew is paid for it.
  const agrees = same || (problem.objective !== "weighted tardiness" && total > value);
  return { value, faults: agrees ? faults : [...faults, `the plan says ${total}, the set's definition ${value}`] };
}

function keepFault(instance: Instance, { seed }: RunWish, { day, plan, faults, message }: PlanFault): string {
  const folder = join(process.env["OVENFUL_FAULTS"] ?? join(tmpdir(), "ovenful-faults"), `${instance.name}-${seed}`);
  mkdirSync(folder, { recursive: true });
  for (const [name, value] of Object.entries({ "day.json": day, "plan.json": plan, "faults.json": faults })) {
    writeFileSync(join(folder, name), JSON.stringify(value, null, 1));
  }
  return `${message} (${folder})`;
}
