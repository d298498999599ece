/**
 * What covering all bakes by loads costs at least, by column generation: a master program over the loads known so far,
 * and a callback that prices all loads that could exist. Never trusts the master: any prices, scaled down until no load
 * is worth more than it costs, prove a bound (weak duality), so a failed or unfinished run only weakens it.
 */
import type { Lp } from "../lp/lp.ts";
import type { Column, LinearModel, Row } from "../lp/model.ts";
import type { Group, Load } from "./cover-task.ts";

/** The answer to "which loads are worth most at these prices per bake of each group?". */
export interface Priced {
  /** Loads worth more than they cost, best first; they join the master program. */
  readonly loads: readonly Load[];
  /**
   * Greatest worth / cost of any load that could exist, or anything above it. 0 when no load is worth anything. The
   * bound is only as true as this figure.
   */
  readonly mostRatio: number;
}

export interface LoadBound {
  /** Money that no set of loads covering all bakes (or leaving them at `leaveCost`) stays below. */
  readonly bound: number;
  /** Certificate: a price per bake of each group at which no load costs less than it is worth; their sum is the bound. */
  readonly prices: readonly number[];
  readonly rounds: number;
  /** The prices are the best there are: no load improves the master program any more. */
  readonly converged: boolean;
}

export interface BoundLimits {
  /** Master programs, 60 when absent. */
  readonly rounds?: number;
  /** Loads kept in the master program, 1500 when absent. */
  readonly loads?: number;
}

/** Part of the new prices in those priced; the rest are the best so far (Wentges smoothing, textbook). */
const NEW = 0.5;

/**
 * `groups`: alike bakes together. `known`: loads to start from. A group that no load covers and that may not be left
 * adds nothing to the bound.
 */
export function boundByLoads(
  lp: Lp,
  groups: readonly Group[],
  known: readonly Load[],
  price: (prices: readonly number[]) => Priced,
  limits: BoundLimits = {},
): LoadBound {
  let best: LoadBound = { bound: 0, prices: groups.map(() => 0), rounds: 0, converged: false };
  const tryPrices = (prices: readonly number[]): readonly Load[] => {
    const priced = price(prices);
    const proven = certify(groups, prices, priced.mostRatio);
    if (proven.bound > best.bound) best = { ...best, ...proven };
    return priced.loads;
  };
  const most = limits.loads ?? 1500;
  let loads = [...known, ...groups.flatMap((_, g) => tryPrices(groups.map((_unused, k) => (k === g ? 1 : 0))))];
  for (let round = 1; round <= (limits.rounds ?? 60); round++) {
    const answer = lp.solve(master(groups, loads));
    if (answer.status !== "optimal" || !answer.duals) return best;
    const duals = answer.duals.map((y) => Math.max(0, y));
    const smooth = duals.map((y, g) => NEW * y + (1 - NEW) * (best.prices[g] ?? 0));
    const fresh = newOnes(loads, [...tryPrices(smooth), ...tryPrices(duals)]);
    // The master's value bounds the best prices' from above, so reaching it ends the search.
    best = { ...best, rounds: round, converged: best.bound >= answer.value - 1e-6 * Math.max(1, answer.value) };
    if (best.converged || fresh.length === 0) return best;
    loads = [...cheapestAt(duals, loads, most - fresh.length), ...fresh];
  }
  return best;
}

/** Prices at which no load is worth more than it costs and no bake more than leaving it, and their sum over all bakes. */
function certify(
  groups: readonly Group[],
  prices: readonly number[],
  mostRatio: number,
): Pick<LoadBound, "bound" | "prices"> {
  const scaled = groups.map(({ leaveCost }, g) => {
    const given = Math.max(0, prices[g] ?? 0);
    return Math.min(given === 0 || mostRatio <= 0 ? 0 : given / mostRatio, leaveCost ?? Infinity);
  });
  return { bound: groups.reduce((sum, { need }, g) => sum + need * (scaled[g] ?? 0), 0), prices: scaled };
}

/** Cover every bake that some known load covers, or leave it at its price. */
function master(groups: readonly Group[], loads: readonly Load[]): LinearModel {
  const columns: Column[] = loads.map((load) => ({ cost: load.cost }));
  const rows = groups.map(({ need }) => ({
    kind: ">=" as const,
    rhs: need,
    columns: [] as number[],
    values: [] as number[],
  }));
  loads.forEach((load, k) =>
    load.covers.forEach(([g, count]) => {
      rows[g]?.columns.push(k);
      rows[g]?.values.push(count);
    }),
  );
  groups.forEach(({ leaveCost }, g) => {
    if (leaveCost === undefined) return;
    rows[g]?.columns.push(columns.push({ cost: leaveCost }) - 1);
    rows[g]?.values.push(1);
  });
  const coverable = rows.map((row): Row => (row.columns.length > 0 ? row : { ...row, rhs: 0 }));
  return { sense: "min", columns, rows: coverable };
}

function newOnes(loads: readonly Load[], priced: readonly Load[]): Load[] {
  const seen = new Set(loads.map(keyOf));
  return priced.filter((load) => {
    const isNew = !seen.has(keyOf(load));
    seen.add(keyOf(load));
    return isNew;
  });
}

function keyOf(load: Load): string {
  return `${load.cost}:${load.covers.map(([g, count]) => `${g}x${count}`).join()}`;
}

/** The `most` loads of least reduced cost, in their order. */
function cheapestAt(prices: readonly number[], loads: readonly Load[], most: number): readonly Load[] {
  if (loads.length <= most) return loads;
  const reduced = loads.map((load) => load.covers.reduce((rest, [g, n]) => rest - n * (prices[g] ?? 0), load.cost));
  const order = loads.map((_, k) => k).sort((a, b) => (reduced[a] ?? 0) - (reduced[b] ?? 0) || a - b);
  const kept = new Set(order.slice(0, Math.max(0, most)));
  return loads.filter((_, k) => kept.has(k));
}
