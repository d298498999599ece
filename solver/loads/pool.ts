/**
 * A pool of good loads to choose from: for each kind and oven, loads filled with their like first and then with
 * company, full ones and partial ones. Stage 3 of plan.ts lets the LP solver choose among them.
 */
import type { DayModel } from "../day/day-model.ts";
import type { Recipe } from "./recipe.ts";
import type { RecipeBook } from "./recipe-book.ts";
import { SEARCH_BUCKET_K } from "./recipe-book.ts";

export interface PoolLoad {
  readonly oven: number;
  /** How many of each kind, kinds ascending. */
  readonly counts: readonly (readonly [kind: number, count: number])[];
  /** Gas and oven minutes of its cheapest firing, in money. */
  readonly cost: number;
}

/** `need[kind]`: bakes of that kind to cover. `minutePrice`: money per minute of oven time. */
export function poolOfLoads(book: RecipeBook, need: readonly number[], minutePrice: number): PoolLoad[] {
  const { day } = book;
  const seen = new Map<string, PoolLoad>();
  const add = (oven: number, kinds: readonly number[]): void => {
    const sorted = [...kinds].sort((a, b) => a - b);
    const key = `${oven}/${sorted.join()}`;
    if (seen.has(key)) return;
    const recipe = book.recipe(oven, sorted);
    if (recipe === undefined) return;
    const cost = costOf(book, recipe, minutePrice);
    if (cost !== undefined) seen.set(key, { oven, counts: countsOf(sorted), cost });
  };
  day.kinds.forEach((kind, first) => {
    if (need[first] === 0) return;
    for (const oven of kind.ovens) {
      add(oven, [first]);
      for (const company of companies(day, first, need)) {
        const full = fill(book, oven, first, company, need);
        add(oven, full);
        const alike = full.filter((one) => one === first);
        add(oven, alike);
        add(oven, alike.slice(0, Math.ceil(alike.length / 2)));
      }
    }
  });
  return [...seen.values()];
}

/** Orders in which other kinds may join: the same coat first; near windows first; the rest by how many there are. */
function companies(day: DayModel, first: number, need: readonly number[]): number[][] {
  const { coat } = day.kinds[first]!;
  const others = day.kinds.flatMap((_, kind) => (kind !== first && need[kind]! > 0 ? [kind] : []));
  const sameCoat = others.filter((kind) => day.kinds[kind]!.coat === coat);
  const rest = others.filter((kind) => day.kinds[kind]!.coat !== coat);
  const slowness = (kind: number): number =>
    day.kinds[kind]!.body.heatJPerK / Math.max(1e-9, day.kinds[kind]!.body.exchangeM2);
  const near = (a: number, b: number): number =>
    Math.abs(slowness(a) - slowness(first)) - Math.abs(slowness(b) - slowness(first)) || a - b;
  const many = (a: number, b: number): number => need[b]! - need[a]! || a - b;
  return [
    [],
    [...sameCoat].sort(near),
    [...[...sameCoat].sort(near), ...[...rest].sort(near)],
    [...[...sameCoat].sort(many), ...[...rest].sort(many)],
  ];
}

function fill(
  book: RecipeBook,
  oven: number,
  first: number,
  company: readonly number[],
  need: readonly number[],
): number[] {
  let kinds = [first];
  for (const kind of [first, ...company]) {
    const already = kind === first ? 1 : 0;
    for (let count = already; count < need[kind]!; count++) {
      const joined = [...kinds, kind].sort((a, b) => a - b);
      if (!book.fits(oven, joined)) break;
      kinds = joined;
    }
  }
  return kinds;
}

function costOf(book: RecipeBook, recipe: Recipe, minutePrice: number): number | undefined {
  const { request } = book.day;
  const { cycle } = request.ovens[recipe.oven]!;
  const door = cycle.loadMinutes + cycle.unloadMinutes;
  if (cycle.kind === "fixed") {
    const minutes = recipe.cycleMinutes!;
    return ((cycle.gasKW * minutes) / 60) * request.prices.gasPerKWh + (minutes + door) * minutePrice;
  }
  const starts = [request.ambientC, Math.min(cycle.doorLimitC, 200)];
  const prices = starts.flatMap((startC) =>
    book
      .firings(recipe, startC, SEARCH_BUCKET_K)
      .map((option) => option.gasKWh * request.prices.gasPerKWh + (option.unloadMinutes + door) * minutePrice),
  );
  return prices.length === 0 ? undefined : Math.min(...prices);
}

function countsOf(kinds: readonly number[]): (readonly [number, number])[] {
  const counts = new Map<number, number>();
  for (const kind of kinds) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts];
}
