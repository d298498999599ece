/** Runs of one instance and engine over its seeds -> one line of figures; lines of one set -> medians and worst. */
import type { Instance } from "./instances.ts";
import type { Run } from "./run.ts";
import type { Engine } from "./wish.ts";

export interface Line {
  readonly set: string;
  readonly name: string;
  readonly engine: Engine;
  /** Median over the seeds; null where a seed has no plan. */
  readonly value: number | null;
  readonly worst: number | null;
  readonly best: number | null;
  readonly bestKnown: number | null;
  /** 100 × (value − best known) / best known. */
  readonly gapPercent: number | null;
  /** The highest over the seeds: each holds for every plan. */
  readonly bound: number;
  /** 100 × (value − bound) / value. */
  readonly boundGapPercent: number | null;
  readonly firstSeconds: number | null;
  readonly seconds: number;
  readonly lpSolves: number;
  readonly steps: number;
  readonly leftOver: number;
  readonly status: string;
  readonly faults: readonly string[];
}

export function summarise(instance: Instance, bestKnown: number | null, runs: readonly Run[]): Line {
  const first = runs[0];
  if (first === undefined) throw new Error(`${instance.name} was not run`);
  const values = runs.flatMap(({ value }) => value ?? []);
  const whole = values.length === runs.length;
  const value = whole ? median(values) : null;
  const bound = Math.max(...runs.map((run) => run.bound));
  const firsts = runs.flatMap(({ firstSeconds }) => firstSeconds ?? []);
  return {
    set: instance.set,
    name: instance.name,
    engine: first.engine,
    value,
    worst: whole ? Math.max(...values) : null,
    best: values.length > 0 ? Math.min(...values) : null,
    bestKnown,
    gapPercent: value === null || bestKnown === null ? null : share(value - bestKnown, bestKnown),
    bound,
    boundGapPercent: value === null ? null : share(value - bound, value),
    firstSeconds: firsts.length > 0 ? median(firsts) : null,
    seconds: median(runs.map(({ seconds }) => seconds)),
    lpSolves: median(runs.map(({ lpSolves }) => lpSolves)),
    steps: median(runs.map(({ steps }) => steps)),
    leftOver: Math.max(...runs.map(({ leftOver }) => leftOver)),
    status: [...new Set(runs.map(({ status }) => status))].join("/"),
    faults: [...runs.flatMap((run) => run.faults), ...boundFaults(instance, bestKnown, bound, values)],
  };
}

/** A bound above a plan is wrong, whoever found the plan. */
function boundFaults(instance: Instance, bestKnown: number | null, bound: number, values: readonly number[]): string[] {
  const least = Math.min(...values, bestKnown ?? Infinity);
  const above = bound > least * (1 + 1e-6) + 1e-3 ? [`the bound ${bound} is above a known plan of ${least}`] : [];
  const { lowerBound } = instance;
  const below =
    lowerBound !== null && values.some((value) => value < lowerBound - 1e-6)
      ? [`a plan of ${Math.min(...values)} is below the published bound ${lowerBound}`]
      : [];
  return [...above, ...below];
}

function share(part: number, whole: number): number | null {
  if (whole === 0) return part === 0 ? 0 : null;
  return (100 * part) / whole;
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? NaN) + (sorted[Math.ceil(middle)] ?? NaN)) / 2;
}
