/**
 * Stage 3 of plan.ts: which loads bake everything at least cost in gas and oven time. The LP solver chooses from a
 * pool; alike bakes are one row, so that the model stays small.
 */
import type { Lp } from "../lp/lp.ts";
import type { Group, Load } from "../lp-models/cover-task.ts";
import { chooseLoads } from "../lp-models/partition.ts";
import type { PoolLoad } from "./pool.ts";
import { poolOfLoads } from "./pool.ts";
import type { RecipeBook } from "./recipe-book.ts";

/** Beyond these the dense tableau of the LP library slows down; the careful hand's loads must do then. */
const MOST_ROWS = 60;
const MOST_COLUMNS = 400;
/** Linear programs that the choice may solve: it starts a search, it does not end one. */
const MOST_SOLVES = 40;

/** Loads chosen, each as often as it is used; undefined where the model is too large or no cover was found. */
export function chooseFromPool(book: RecipeBook, lp: Lp, minutePrice: number): readonly PoolLoad[] | undefined {
  const { day } = book;
  const need = day.kinds.map((_, kind) => day.bakes.filter((bake) => bake.kind === kind).length);
  const rows = need.flatMap((count, kind) => (count > 0 && isBakeable(book, kind) ? [kind] : []));
  if (rows.length === 0 || rows.length > MOST_ROWS) return undefined;
  const pool = poolOfLoads(book, need, minutePrice)
    .sort((a, b) => perBake(a) - perBake(b))
    .slice(0, MOST_COLUMNS);
  const groups: Group[] = rows.map((kind) => ({ need: need[kind]! }));
  const loads: Load[] = pool.map(({ counts, cost }) => ({
    covers: counts.map(([kind, count]) => [rows.indexOf(kind), count] as const),
    cost,
  }));
  const cover = chooseLoads(lp, { groups, loads }, { solves: MOST_SOLVES });
  return cover && pool.flatMap((load, index) => Array.from({ length: cover.chosen[index]! }, () => load));
}

function isBakeable(book: RecipeBook, kind: number): boolean {
  return book.day.kinds[kind]!.ovens.some((oven) => book.recipe(oven, [kind]) !== undefined);
}

function perBake({ cost, counts }: PoolLoad): number {
  return cost / counts.reduce((sum, [, count]) => sum + count, 0);
}
