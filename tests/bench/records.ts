/** What is kept between benchmarks: the best plan and bound ever found of each invented day, and a baseline to compare with. */
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import type { Instance } from "./instances.ts";
import type { Line } from "./summary.ts";
import type { BenchWish, Budget } from "./wish.ts";

const file = (name: string): string => fileURLToPath(new URL(`../../fixtures/bench/${name}`, import.meta.url));
const BEST = file("best-known-days.json");
const BASELINE = file("baseline.json");

/** `day` is the start of a hash of the day: a changed day makes its figures worthless. */
const bestSchema = z.record(
  z.string(),
  z.object({ day: z.string(), cost: z.number(), bound: z.number(), found: z.string() }),
);
export type BestDays = z.output<typeof bestSchema>;

const baselineSchema = z.object({
  date: z.string(),
  machine: z.string(),
  budgets: z.record(
    z.string(),
    z.record(z.string(), z.object({ value: z.number(), bound: z.number(), steps: z.number(), lpSolves: z.number() })),
  ),
});
type Baseline = z.output<typeof baselineSchema>;

export function readBestDays(): BestDays {
  return existsSync(BEST) ? bestSchema.parse(JSON.parse(readFileSync(BEST, "utf8"))) : {};
}

/** The published value of an open instance, the record of an invented day; null where there is none for this very day. */
export function bestKnownOf(instance: Instance, best: BestDays): number | null {
  if (instance.problem !== null) return instance.bestKnown;
  const kept = best[instance.name];
  return kept !== undefined && kept.day === hashOf(instance) ? kept.cost : null;
}

/** Writes better costs and bounds into the record; answers the names that improved. */
export function keepBest(instances: readonly Instance[], lines: readonly Line[], budget: Budget): string[] {
  const before = readBestDays();
  const after = improved(before, instances, lines, budget);
  const names = Object.keys(after).filter((name) => after[name] !== before[name]);
  if (names.length > 0) writeJson(BEST, after);
  return names;
}

/** The record with better costs and bounds in place of the kept ones, never worse; faulty lines and open sets do not count. */
export function improved(
  before: BestDays,
  instances: readonly Instance[],
  lines: readonly Line[],
  budget: Budget,
): BestDays {
  const after = { ...before };
  for (const instance of instances.filter(({ problem }) => problem === null)) {
    const day = hashOf(instance);
    const kept = before[instance.name]?.day === day ? before[instance.name] : undefined;
    const sound = lines.filter((line) => line.name === instance.name && line.faults.length === 0);
    const cost = Math.min(kept?.cost ?? Infinity, ...sound.map((line) => line.best ?? Infinity));
    const bound = Math.max(kept?.bound ?? 0, ...sound.map((line) => line.bound));
    if (!Number.isFinite(cost) || (cost >= (kept?.cost ?? Infinity) && bound <= (kept?.bound ?? 0))) continue;
    const found = cost < (kept?.cost ?? Infinity) ? budgetWords(budget) : (kept?.found ?? "");
    after[instance.name] = { day, cost, bound, found };
  }
  return after;
}

function hashOf({ day }: Instance): string {
  return createHash("sha256").update(JSON.stringify(day)).digest("hex").slice(0, 16);
}

export function budgetWords({ seconds, steps }: Budget): string {
  return seconds === null ? `${steps} steps` : `${seconds} s`;
}

function readBaseline(): Baseline {
  if (!existsSync(BASELINE)) return { date: "", machine: "", budgets: {} };
  return baselineSchema.parse(JSON.parse(readFileSync(BASELINE, "utf8")));
}

/** Only lines of the planner; other budgets and instances stay as they are. */
export function keepBaseline(lines: readonly Line[], wish: BenchWish): void {
  const before = readBaseline();
  const key = baselineKey(wish);
  const own = { ...before.budgets[key] };
  for (const { engine, name, value, bound, steps, lpSolves } of lines) {
    if (engine === "planner" && value !== null) own[name] = { value, bound, steps, lpSolves };
  }
  const machine = `${cpus()[0]?.model ?? "unknown"} × ${cpus().length}, Node ${process.version}`;
  const date = new Date().toISOString().slice(0, 10);
  writeJson(BASELINE, { date, machine, budgets: { ...before.budgets, [key]: own } });
}

/** One sentence for each instance that differs from the baseline of the same budget and seeds. */
export function compareBaseline(lines: readonly Line[], wish: BenchWish): string[] {
  const { budgets, date } = readBaseline();
  const own = budgets[baselineKey(wish)];
  if (own === undefined) return ["no baseline of this budget and these seeds"];
  return lines.flatMap(({ engine, name, value, bound }) => {
    const before = own[name];
    if (engine !== "planner" || before === undefined || value === null) return [];
    const change = before.value === 0 ? value - before.value : (100 * (value - before.value)) / before.value;
    if (Math.abs(change) < 0.005 && Math.abs(bound - before.bound) < 0.005) return [];
    const words = `${name}: ${before.value.toFixed(2)} on ${date}, now ${value.toFixed(2)} (${change > 0 ? "+" : ""}${change.toFixed(2)} %)`;
    return [`${words}, bound ${before.bound.toFixed(2)}, now ${bound.toFixed(2)}`];
  });
}

function baselineKey({ budget, seeds }: BenchWish): string {
  return `${budgetWords(budget)}, ${seeds} ${seeds === 1 ? "seed" : "seeds"}`;
}

function writeJson(path: string, value: unknown): void {
  writeFileSync(path, `${JSON.stringify(value, null, 2)}\n`);
}
