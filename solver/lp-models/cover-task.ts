/** The set-covering question of `partition.ts` and what is arithmetic in it: validity, cost, a greedy answer. */

/** Alike bakes: how many there are. `leaveCost`: money for each one left uncovered; absent where none may be. */
export interface Group {
  readonly need: number;
  readonly leaveCost?: number;
}

/** One possible load: how many of which group it bakes (each group once, counts at least 1), and its cost, at least 0. */
export interface Load {
  readonly covers: readonly (readonly [group: number, count: number])[];
  readonly cost: number;
}

export interface CoverTask {
  readonly groups: readonly Group[];
  readonly loads: readonly Load[];
  /** True: no group may be covered more often than needed. Otherwise places in a load may stay empty. */
  readonly exactly?: boolean;
}

/** Bakes of each group that `times` of each load leave uncovered; negative where covered too often. */
export function uncovered(task: CoverTask, times: readonly number[]): number[] {
  const open = task.groups.map((group) => group.need);
  task.loads.forEach((load, k) => {
    const n = times[k] ?? 0;
    if (n > 0) for (const [g, count] of load.covers) open[g] = (open[g] ?? 0) - n * count;
  });
  return open;
}

/** Cost of using each load so many times and leaving the rest; Infinity where that is not allowed. */
export function coverCost(task: CoverTask, times: readonly number[]): number {
  const loads = task.loads.reduce((sum, load, k) => sum + load.cost * (times[k] ?? 0), 0);
  return uncovered(task, times).reduce((sum, open, g) => {
    if (open < 0) return task.exactly ? Infinity : sum;
    return open === 0 ? sum : sum + open * (task.groups[g]?.leaveCost ?? Infinity);
  }, loads);
}

/**
 * Takes the load with the most dual value per cost, again and again (Chvátal's greedy rule with LP prices in place of
 * counts), then drops loads no longer needed, dearest first. May leave bakes uncovered.
 */
export function greedyCover(task: CoverTask, prices: readonly number[]): number[] {
  const times = task.loads.map(() => 0);
  const open = task.groups.map((group) => group.need);
  const add = (k: number, n: number): void => {
    times[k] = (times[k] ?? 0) + n;
    for (const [g, count] of task.loads[k]?.covers ?? []) open[g] = (open[g] ?? 0) - n * count;
  };
  for (let k = bestNext(task, open, prices); k !== undefined; k = bestNext(task, open, prices)) add(k, 1);
  const dearestFirst = task.loads
    .map((_, k) => k)
    .sort((a, b) => (task.loads[b]?.cost ?? 0) - (task.loads[a]?.cost ?? 0));
  for (const k of dearestFirst)
    while ((times[k] ?? 0) > 0 && coverCost(task, without(times, k)) <= coverCost(task, times)) add(k, -1);
  return times;
}

function bestNext(task: CoverTask, open: readonly number[], prices: readonly number[]): number | undefined {
  let best: number | undefined;
  let bestRatio = 0;
  task.loads.forEach((load, k) => {
    if (task.exactly && load.covers.some(([g, count]) => count > (open[g] ?? 0))) return;
    let gain = 0;
    let saved = 0;
    for (const [g, count] of load.covers) {
      const useful = Math.max(0, Math.min(count, open[g] ?? 0));
      gain += useful * Math.max(prices[g] ?? 0, 1e-6);
      saved += useful * (task.groups[g]?.leaveCost ?? Infinity);
    }
    const ratio = gain / Math.max(load.cost, 1e-9);
    if (gain === 0 || saved < load.cost || ratio <= bestRatio * (1 + 1e-9)) return;
    best = k;
    bestRatio = ratio;
  });
  return best;
}

function without(times: readonly number[], k: number): number[] {
  return times.map((n, i) => (i === k ? n - 1 : n));
}
