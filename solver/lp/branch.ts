/**
 * Branch and bound over LP relaxations: dives to the better child, starts the next dive at the open node of least bound,
 * chooses the branching column by one-pivot penalties (Driebeek 1966, from memory). Every bound and every claim of emptiness it prunes by has been certified
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
  /** A solved relaxation whose box holds this node's. */
  readonly from: Relaxation;
  readonly box: Box;
  readonly bound: number;
}

/** Open nodes that may keep their parent's tableau to start from; later ones start from the root's. */
const KEPT = 60;

export interface Effort {
  /** Relaxations to solve at most. */
  readonly nodes: number;
  /** True once no pivots are left. */
  readonly spent: () => boolean;
}

/** Searches below `root`; `start` is a known point, used when it is feasible. */
export function branchAndBound(model: LinearModel, root: Relaxation, effort: Effort, start?: readonly number[]): Found {
  const search = beginSearch(model, root.box, start);
  const open: Node[] = [];
  let next: Node | undefined = { from: root, box: root.box, bound: root.bound };
  let lost = Infinity;
  for (let left = effort.nodes; next && left > 0 && !effort.spent(); left--) {
    const visit = expand(search, next, open.length < KEPT ? undefined : root);
    lost = Math.min(lost, visit.lost);
    if (visit.children) open.push(visit.children[1]);
    next = visit.children?.[0] ?? (visit.empty ? open.pop() : takeLeast(open));
    while (next && isHopeless(search, next.bound)) next = takeLeast(open);
  }
  if (next) open.push(next);
  const bound = open.reduce((least, node) => Math.min(least, node.bound), Math.min(lost, search.bestCost));
  return { x: search.best, bound, proven: isHopeless(search, bound) || (bound === Infinity && !search.best) };
}

interface Visit {
  /** The child to dive into and the other one. */
  readonly children?: readonly [Node, Node];
  /** No point here at all: the dive goes on with the node left aside last. */
  readonly empty: boolean;
  /** Bound of what could not be settled here. */
  readonly lost: number;
}

/** Solves a node and splits it; `root` given: the second child starts from there, to save its parent's memory. */
function expand(search: Search, node: Node, root: Relaxation | undefined): Visit {
  const here = node.box === node.from.box ? node.from : node.from.within(node.box);
  if (here.status === "infeasible") return { empty: true, lost: Infinity };
  const bound = Math.max(node.bound, roundUp(search, here.bound));
  if (here.status !== "optimal") return { empty: true, lost: bound };
  if (isHopeless(search, bound)) return { empty: false, lost: Infinity };
  const column = chooseColumn(search.model, here);
  if (column === undefined) return { empty: false, lost: takeWholePoint(search, here, bound) };
  const [first, second] = childBoxes(here, column);
  const children = [
    { from: here, box: first, bound },
    { from: root ?? here, box: second, bound },
  ] as const;
  return { children, empty: false, lost: Infinity };
}

/** Removes and returns the open node of least bound, the newest of equals. */
function takeLeast(open: Node[]): Node | undefined {
  let least = open.length - 1;
  for (let k = least - 1; k >= 0; k--) if ((open[k]?.bound ?? 0) < (open[least]?.bound ?? 0)) least = k;
  return open.splice(least, 1)[0];
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

/** The boxes on either side of the column's value, the one to search first first: mostly up, which settles more. */
function childBoxes(here: Relaxation, column: number): [Box, Box] {
  const value = here.x[column] ?? 0;
  const low = { low: here.box.low, high: here.box.high.slice() };
  low.high[column] = Math.floor(value);
  const high = { low: here.box.low.slice(), high: here.box.high };
  high.low[column] = Math.ceil(value);
  return value - Math.floor(value) < 0.35 ? [low, high] : [high, low];
}
