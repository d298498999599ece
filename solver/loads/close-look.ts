/** How a recipe book looks closer at one load: on which shelves it bakes, laid out with ever more effort. */
import type { CloseLook } from "./asked-load.ts";
import { recipesFor } from "./recipe.ts";
import type { RecipeBook } from "./recipe-book.ts";
import { SEARCH_BUCKET_K } from "./recipe-book.ts";
import type { ShelfWays } from "./shelf-ways.ts";

/** `kinds` ascending. */
export function closeLook(book: RecipeBook, ways: ShelfWays, oven: number, kinds: readonly number[]): CloseLook {
  const { day } = book;
  return {
    ways: () => {
      const isAllowed = kinds.every((kind) => day.kinds[kind]!.ovens.includes(oven));
      if (!isAllowed || !book.company.mayMeet(oven, kinds)) return [];
      const different = [...new Set(kinds)];
      return ways.of(
        different.map((kind) => day.kinds[kind]!),
        different.map((kind) => kinds.filter((other) => other === kind).length),
      );
    },
    laid: (shelfSet, effort) =>
      recipesFor(day, oven, kinds, { ...effort, laying: "dealt", shelfSet }).next().value ?? undefined,
    minutes: (recipe) =>
      ways.chambersC.map((chamberC) => book.firings(recipe, chamberC, SEARCH_BUCKET_K)[0]?.unloadMinutes ?? Infinity),
  };
}
