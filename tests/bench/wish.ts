/** What the benchmark is asked on its command line. */
import { parseArgs } from "node:util";
import { z } from "zod";
import { benchFolder } from "../help/public-sets.ts";

export const engines = ["planner", "plain", "highs"] as const;
export type Engine = (typeof engines)[number];

/** One of the two is null. */
export interface Budget {
  readonly seconds: number | null;
  readonly steps: number | null;
}

export interface BenchWish {
  /** Names of sets, or how they begin: days, days12, queiroga. */
  readonly sets: readonly string[];
  /** Only instances whose name holds this text. */
  readonly only: string;
  /** Seeds 1 … seeds. */
  readonly seeds: number;
  readonly budget: Budget;
  readonly engines: readonly Engine[];
  /** Runs at a time. */
  readonly jobs: number;
  readonly data: string;
  /** File for the results as JSON. */
  readonly json: string | null;
  /** Writes better plans and bounds of days into the kept record. */
  readonly keep: boolean;
  /** Writes the medians into the kept baseline. */
  readonly baseline: boolean;
}

export const helpText = `npm run bench -- [options]
  --sets a,b       sets, or how their names begin: days6 days8 days12 days24 days40 days80 days200
                   queiroga_twt chiang_families makespan_sf makespan_trindade rect_2dbpp (default days6,days8,days12)
  --only text      only instances whose name holds the text
  --seeds n        seeds 1 to n; figures are medians over them (default 1)
  --seconds s      limit of each run (default 10)
  --steps n        limit in steps instead: repeatable
  --engine a,b     planner, plain (its first plan only), highs (direct MILP; one oven, one family) (default planner)
  --jobs n         runs at a time (default 1; by seconds a run uses two cores)
  --data folder    folder of the open sets (default OVENFUL_BENCH_DATA, else the checkout beside, else fixtures/public)
  --json file      writes every run
  --keep           better plans and bounds of days go into fixtures/bench/best-known-days.json
  --baseline       the medians go into fixtures/bench/baseline.json
Faulty plans are kept with their day in the folder that the fault names; the exit code is 1 then.`;

const positive = z.coerce.number().positive();
const whole = z.coerce.number().int().positive();

/** Undefined where help was asked for; throws on options that do not exist or make no sense. */
export function readWish(args: readonly string[]): BenchWish | undefined {
  const text = { type: "string" } as const;
  const flag = { type: "boolean", default: false } as const;
  const { values } = parseArgs({
    args: [...args],
    options: {
      sets: { ...text, default: "days6,days8,days12" },
      only: { ...text, default: "" },
      seeds: { ...text, default: "1" },
      seconds: text,
      steps: text,
      engine: { ...text, default: "planner" },
      jobs: { ...text, default: "1" },
      data: text,
      json: text,
      keep: flag,
      baseline: flag,
      help: flag,
    },
  });
  if (values.help) return undefined;
  if (values.seconds !== undefined && values.steps !== undefined)
    throw new Error("give --seconds or --steps, not both");
  return {
    sets: values.sets.split(","),
    only: values.only,
    seeds: whole.parse(values.seeds),
    budget:
      values.steps === undefined
        ? { seconds: positive.parse(values.seconds ?? "10"), steps: null }
        : { seconds: null, steps: whole.parse(values.steps) },
    engines: z.array(z.enum(engines)).parse(values.engine.split(",")),
    jobs: whole.parse(values.jobs),
    data: values.data ?? benchFolder(),
    json: values.json ?? null,
    keep: values.keep,
    baseline: values.baseline,
  };
}
