/**
 * Which loads of a pool, and how often each, cover all bakes at least cost: the set-covering model (set partitioning
 * with `exactly`). LP relaxation, a greedy cover at its prices, columns dropped by reduced cost, branch and bound, and
 * re-solving of small parts of the best cover: the textbook order for such models. Stage 3 of planning calls it.
 */
import type { Lp } from "../lp/lp.ts";
import type { Column, LinearModel } from "../lp/model.ts";
import { coverCost, greedyCover, uncovered } from "./cover-task.ts";
import type { CoverTask } from "./cover-task.ts";

export interface CoverLimits {
  /** Linear programs that may be solved; 3000 when absent. */
  readonly solves?: number;
  /** Times each load is used in a known cover to start from. */
  readonly hint?: readonly number[];
}

export interface Cover {
  /** Times each load is used. */
  readonly chosen: readonly number[];
  readonly value: number;
  /** No cover costs less, certified. */
  readonly bound: number;
  /** `value` is the least possible from this pool. */
  readonly proven: boolean;
}

/** Different loads of the best cover re-opened at a time, at most. */
const MOST_REOPENED = 11;
/** Linear programs for one re-opened part. */
const PART_SOLVES = 400;

interface Search {
  readonly lp: Lp;
  readonly task: CoverTask;
  /** Least cost by the relaxation and, per group, its price of one more bake. */
  readonly bound: number;
  readonly prices: readonly number[];
  best: readonly number[];
  cost: number;
}

/** Undefined when the pool has no cover or none was found. Same task and limits give the same cover. */
export function chooseLoads(lp: Lp, task: CoverTask, limits: CoverLimits = {}): Cover | undefined {
  const end = lp.solves() + (limits.solves ?? 3000);
  const left = (): number => end - lp.solves();
  const relaxed = lp.solve(coverModel(task, false));
  if (relaxed.status === "infeasible") return undefined;
  const known = relaxed.status === "optimal";
  const prices = known && relaxed.duals ? relaxed.duals : task.groups.map(() => 1);
  const search: Search = { lp, task, bound: known ? relaxed.value : 0, prices, best: [], cost: Infinity };
  if (limits.hint) offer(search, limits.hint);
  offer(search, greedyCover(task, prices));
  let proven = known && solveWhole(search, Math.ceil(left() / 5));
  if (!proven) improveByParts(search, end);
  if (!proven && known && left() > 1) proven = solveWhole(search, left());
  if (search.cost === Infinity) return undefined;
  const bound = proven ? search.cost : Math.min(search.cost, search.bound);
  return { chosen: search.best, value: search.cost, bound, proven };
}

function offer(search: Search, times: readonly number[]): void {
  const cost = coverCost(search.task, times);
  if (cost >= search.cost) return;
  search.best = times;
  search.cost = cost;
}

/**
 * Branch and bound over the loads that can still belong to a better cover: those whose reduced cost fits between bound
 * and best. True when it came to its end, so that the best cover is proven.
 */
function solveWhole(search: Search, nodes: number): boolean {
  const { task, prices } = search;
  const gap = search.cost - search.bound + 1e-6 * Math.max(1, Math.abs(search.bound));
  const kept = task.loads.flatMap((load, k) => {
    const reduced = load.covers.reduce((sum, [g, count]) => sum - count * (prices[g] ?? 0), load.cost);
    return reduced <= gap || (search.best[k] ?? 0) > 0 ? [k] : [];
  });
  const part = { ...task, loads: kept.flatMap((k) => task.loads[k] ?? []) };
  const start =
    search.cost < Infinity
      ? pointOf(
          part,
          kept.map((k) => search.best[k] ?? 0),
        )
      : undefined;
  const answer = search.lp.solve(coverModel(part, true), { nodes, work: nodes * 1e7 }, start);
  if (answer.status === "optimal" || answer.status === "feasible") offer(search, spread(task, kept, answer.x));
  return answer.status === "optimal" || answer.status === "infeasible";
}

/**
 * Re-opens a few related loads of the best cover at a time and covers their bakes anew, more of them at a time when a
 * whole round gained nothing, until `end` linear programs are solved or everything has been open at once.
 */
function improveByParts(search: Search, end: number): void {
  let size = 3;
  while (search.cost < Infinity && size <= Math.min(MOST_REOPENED, usedLoads(search).length)) {
    const before = search.cost;
    for (const centre of usedLoads(search)) {
      if (search.lp.solves() >= end) return;
      if ((search.best[centre] ?? 0) > 0) coverPartAnew(search, related(search, centre).slice(0, size));
    }
    if (search.cost >= before - 1e-9 * Math.abs(before)) size += 2;
  }
}

function coverPartAnew(search: Search, opened: readonly number[]): void {
  const { task } = search;
  const rest = search.best.map((n, k) => (opened.includes(k) ? 0 : n));
  const open = uncovered(task, rest);
  const groups = task.groups.map((group, g) => ({ ...group, need: Math.max(0, open[g] ?? 0) }));
  const kept = task.loads.flatMap((load, k) => (load.covers.some(([g]) => (open[g] ?? 0) > 0) ? [k] : []));
  const fitting = task.exactly
    ? kept.filter((k) => task.loads[k]?.covers.every(([g, n]) => n <= (open[g] ?? 0)))
    : kept;
  const part = { ...task, groups, loads: fitting.flatMap((k) => task.loads[k] ?? []) };
  const start = pointOf(
    part,
    fitting.map((k) => (opened.includes(k) ? (search.best[k] ?? 0) : 0)),
  );
  const answer = search.lp.solve(coverModel(part, true), { nodes: PART_SOLVES, work: PART_SOLVES * 1e7 }, start);
  if (answer.status !== "optimal" && answer.status !== "feasible") return;
  const anew = spread(task, fitting, answer.x);
  offer(
    search,
    rest.map((n, k) => n + (anew[k] ?? 0)),
  );
}

function usedLoads(search: Search): number[] {
  return search.best.flatMap((n, k) => (n > 0 ? [k] : []));
}

/** A used load, then the other used ones: first those that most loads of the pool have bakes in common with, as well as with it. */
function related(search: Search, centre: number): number[] {
  const { loads } = search.task;
  const groupsOf = (k: number): Set<number> => new Set(loads[k]?.covers.map(([g]) => g));
  const own = groupsOf(centre);
  const meeting = loads.filter((load) => load.covers.some(([g]) => own.has(g)));
  const others = usedLoads(search).filter((k) => k !== centre);
  const shared = new Map(
    others.map((k) => {
      const theirs = groupsOf(k);
      return [k, meeting.filter((load) => load.covers.some(([g]) => theirs.has(g))).length] as const;
    }),
  );
  others.sort((a, b) => (shared.get(b) ?? 0) - (shared.get(a) ?? 0) || a - b);
  return [centre, ...others];
}

/** One row per group; the loads' columns first, then one for each group whose bakes may be left. */
function coverModel(task: CoverTask, integer: boolean): LinearModel {
  const columns: Column[] = task.loads.map((load) => ({ cost: load.cost, integer }));
  const kind = task.exactly ? ("=" as const) : (">=" as const);
  const rows = task.groups.map(({ need }) => ({ kind, rhs: need, columns: [] as number[], values: [] as number[] }));
  const put = (group: number, column: number, value: number): void => {
    rows[group]?.columns.push(column);
    rows[group]?.values.push(value);
  };
  task.loads.forEach((load, k) => load.covers.forEach(([group, count]) => put(group, k, count)));
  task.groups.forEach(({ leaveCost }, group) => {
    if (leaveCost !== undefined) put(group, columns.push({ cost: leaveCost }) - 1, 1);
  });
  return { sense: "min", columns, rows };
}

/** The model's point for so many times each load: what is left uncovered fills the last columns. */
function pointOf(task: CoverTask, times: readonly number[]): number[] {
  const open = uncovered(task, times);
  const leftOver = task.groups.flatMap(({ leaveCost }, g) =>
    leaveCost === undefined ? [] : [Math.max(0, open[g] ?? 0)],
  );
  return [...times, ...leftOver];
}

function spread(task: CoverTask, kept: readonly number[], x: readonly number[]): number[] {
  const times = task.loads.map(() => 0);
  kept.forEach((k, i) => (times[k] = Math.round(x[i] ?? 0)));
  return times;
}
