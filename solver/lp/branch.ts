/**
 * Branch and bound over LP relaxations: depth first, the better child first, the branching column chosen by one-pivot
 * penalties (Driebeek 1966, from memory). Every bound and every claim of emptiness it prunes by has been certified
 * against the model, so "proven" means proven; nodes and pivots are counted, never seconds.
 */
import { isFeasible } from "./certificate.ts";
import { costOf } from "./model.ts";
import type { Box, LinearModel } from "./model.ts";
import type { Relaxation } from "./relaxation.ts";

export interface Found {
  /** Best point found, undefined when none. */
  readonly x: readonly number[] | undefined;
  /** Certified least cost of any point, minimising sense. */
  readonly bound: number;
  /** Nothing better than `x` exists (or no point at all, when `x` is undefined). */
  readonly proven: boolean;
}

interface Search {
  readonly model: LinearModel;
  readonly box: Box;
  readonly sign: 1 | -1;
  /** All costs are whole multiples of 1 on integer columns, so every point's cost is whole. */
  readonly wholeCosts: boolean;
  best: readonly number[] | undefined;
  bestCost: number;
}

interface Node {
  readonly from: Relaxation;
  readonly move: { readonly column: number; readonly side: "low" | "high"; readonly value: number } | undefined;
  readonly bound: number;
}

/** Searches at most `nodes` relaxations below `root`; `start` is a known point, used when it is feasible. */
export function branchAndBound(model: LinearModel, root: Relaxation, nodes: number, start?: readonly number[]): Found {
  const search = beginSearch(model, root.box, start);
  const open: Node[] = [{ from: root, move: undefined, bound: root.bound }];
  let left = nodes;
  let lost = Infinity;
  while (open.length > 0 && left > 0) {
    const node = open.pop();
    if (!node || isHopeless(search, node.bound)) continue;
    left--;
    const here = node.move ? node.from.tighten(node.move.column, node.move.side, node.move.value) : node.from;
    if (here.status === "infeasible") continue;
    const bound = Math.max(node.bound, roundUp(search, here.bound));
    if (here.status !== "optimal") {
      lost = Math.min(lost, bound);
      continue;
    }
    if (isHopeless(search, bound)) continue;
    const column = chooseColumn(model, here);
    if (column === undefined) lost = Math.min(lost, takeWholePoint(search, here, bound));
    else open.push(...children(here, column, bound));
  }
  const bound = open.reduce((least, node) => Math.min(least, node.bound), Math.min(lost, search.bestCost));
  return { x: search.best, bound, proven: isHopeless(search, bound) || (bound === Infinity && !search.best) };
}

function beginSearch(model: LinearModel, box: Box, start: readonly number[] | undefined): Search {
  const sign = model.sense === "max" ? -1 : 1;
  const wholeCosts = model.columns.every((c) => c.cost === 0 || (c.integer === true && Number.isInteger(c.cost)));
  const search: Search = { model, box, sign, wholeCosts, best: undefined, bestCost: Infinity };
  if (start) offer(search, start);
  return search;
}

/** Keeps the point when it is feasible and better. */
function offer(search: Search, x: readonly number[]): void {
  const cost = search.sign * costOf(search.model, x);
  if (cost >= search.bestCost || !isFeasible(search.model, search.box, x)) return;
  search.best = x;
  search.bestCost = cost;
}

function isHopeless(search: Search, bound: number): boolean {
  return bound >= search.bestCost - 1e-9 * Math.max(1, Math.abs(search.bestCost));
}

function roundUp(search: Search, bound: number): number {
  return search.wholeCosts && Number.isFinite(bound) ? Math.ceil(bound - 1e-6) : bound;
}

/**
 * Offers the relaxation's whole point; when rounding the last 1e-6 away moved it off a row or off its cost, solves the
 * continuous columns again. Returns the bound left unproven: Infinity when the branch is settled.
 */
function takeWholePoint(search: Search, here: Relaxation, bound: number): number {
  const almost = bound + 1e-7 * Math.max(1, Math.abs(bound));
  offer(
    search,
    here.x.map((v, j) => (search.model.columns[j]?.integer ? Math.round(v) : v)),
  );
  if (isHopeless(search, almost)) return Infinity;
  const again = here.fix(here.x.map(Math.round));
  if (again.status === "optimal") offer(search, again.x);
  return isHopeless(search, almost) ? Infinity : bound;
}

/** The column to branch on, undefined when all integer columns are whole. */
function chooseColumn(model: LinearModel, here: Relaxation): number | undefined {
  let chosen: number | undefined;
  let chosenScore = -1;
  model.columns.forEach((column, j) => {
    const value = here.x[j] ?? 0;
    const away = Math.abs(value - Math.round(value));
    if (!column.integer || away <= 1e-6) return;
    const { down, up } = here.penalty(j);
    const score = Math.max(down, 1e-6) * Math.max(up, 1e-6) * (1 + away);
    if (score <= chosenScore * (1 + 1e-9)) return;
    chosen = j;
    chosenScore = score;
  });
  return chosen;
}

/** The two children, the one to search first last. */
function children(here: Relaxation, column: number, bound: number): Node[] {
  const value = here.x[column] ?? 0;
  const { down, up } = here.penalty(column);
  const low: Node = { from: here, move: { column, side: "high", value: Math.floor(value) }, bound };
  const high: Node = { from: here, move: { column, side: "low", value: Math.ceil(value) }, bound };
  const lowFirst = Math.abs(down - up) > 1e-9 ? down < up : value - Math.floor(value) < 0.5;
  return lowFirst ? [high, low] : [low, high];
}
