import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { generatedDay } from "../../../help/days.ts";

const day = dayModel(
  requestOf(generatedDay({ pans: 80, ovens: 2, door: "hot", pace: "calm", seed: 1, cycle: "thermal" })),
);

describe("recipes on shelves told", () => {
  it("are never taken for recipes of other kinds, whatever their numbers are", () => {
    expect(day.kinds.length).toBeGreaterThan(60);
    const book = new RecipeBook(day, 0);
    for (let kind = 0; kind < 47; kind++) {
      book.recipeOn(0, [kind], [0]);
      book.recipeOn(0, [kind], [1]);
    }
    const fresh = new RecipeBook(day, 0);
    // The characters of "/0" and "/1" are numbered 47, 48 and 49.
    for (let kind = 0; kind < 47; kind++)
      for (const last of [48, 49]) {
        const kinds = [kind, 47, last];
        expect(book.recipe(0, kinds)?.kinds, kinds.join()).toEqual(fresh.recipe(0, kinds)?.kinds);
      }
  });

  it("stand on the shelves told for their kind", () => {
    const { space } = day.request.ovens[0]!;
    if (space.kind !== "shelves") throw new Error("The day's first oven has no shelves");
    const book = new RecipeBook(day, 0);
    const seen = new Set<number>();
    day.kinds.forEach((_, kind) => {
      for (const set of [0, 1, 2, 3, 4, 5]) {
        const places = book.recipeOn(0, [kind], [set])?.places ?? [];
        for (const { shelf } of places) if (set > 2) seen.add(10 * set + shelf);
      }
    });
    // Three shelves of different warmth: the last three sets are one shelf each, warm to cool.
    const warmFirst = space.shelves
      .map((_, at) => at)
      .sort((a, b) => space.shelves[b]!.offsetC - space.shelves[a]!.offsetC);
    expect([...seen].toSorted((a, b) => a - b)).toEqual(warmFirst.map((shelf, at) => 10 * (at + 3) + shelf));
  });
});
