/** How closely a load is looked at by how often it is asked for. */
import { describe, expect, it } from "vitest";
import type { CloseLook } from "../../../../solver/loads/asked-load.ts";
import { AskedLoad } from "../../../../solver/loads/asked-load.ts";
import type { Recipe } from "../../../../solver/loads/recipe.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const day = dayModel(requestOf(generatedDay({ pans: 6, ovens: 1, door: "hot", pace: "calm", seed: 1 })));
const any = new RecipeBook(day, 0).recipe(0, [0])!;
/** Told apart by what they weigh. */
const recipe = (massKg: number): Recipe => ({ ...any, massKg });
const massOf = (found: Recipe | undefined): number | undefined => found?.massKg;

/** Each way, by its first number, takes the effort of the table to be laid out, and bakes in the minutes of the other. */
function lookOf(
  efforts: readonly number[],
  minutes: readonly (readonly number[])[] = efforts.map(() => [30]),
): { readonly look: CloseLook; readonly tried: (readonly [way: number, effort: number])[] } {
  const tried: (readonly [number, number])[] = [];
  const look: CloseLook = {
    ways: () => efforts.map((_, way) => [way]),
    laid: ([way], { effort }) => {
      tried.push([way!, effort]);
      return effort >= efforts[way!]! ? recipe(way!) : undefined;
    },
    minutes: ({ massKg }) => minutes[massKg] ?? [20],
  };
  return { look, tried };
}

const NEVER = Infinity;

describe("a load that is asked for", () => {
  it("is not looked at closely while it is glanced at a few times, and ever more closely after that", () => {
    const { look, tried } = lookOf([1000]);
    const load = new AskedLoad(undefined, look);
    let foundAt = 0;
    for (let asked = 1; foundAt === 0 && asked < 100_000; asked++) {
      if (load.glance() !== undefined) foundAt = asked;
      if (asked < 16) expect(tried).toEqual([]);
    }
    expect(foundAt).toBe(256);
    expect(tried).toEqual([
      [0, 0],
      [0, 400],
      [0, 1000],
    ]);
    for (let asked = 0; asked < 40_000; asked++) load.glance();
    expect(tried.length).toBe(3);
  });

  it("is looked at once as soon as its recipe is wanted", () => {
    const { look, tried } = lookOf([0, 400]);
    expect(massOf(new AskedLoad(undefined, look).recipe())).toBe(0);
    expect(tried).toEqual([
      [0, 0],
      [1, 0],
    ]);
  });

  it("is not looked at for ever where no layout is found, nor again where there is no way at all", () => {
    const { look, tried } = lookOf([NEVER]);
    const load = new AskedLoad(undefined, look);
    for (let asked = 0; asked < 100_000; asked++) expect(load.recipe()).toBeUndefined();
    const often = tried.length;
    expect(often).toBeLessThan(10);
    for (let asked = 0; asked < 100_000; asked++) load.recipe();
    expect(tried.length).toBe(often);

    let ways = 0;
    const none = new AskedLoad(undefined, { ...look, ways: () => (ways++, []) });
    for (let asked = 0; asked < 100_000; asked++) none.recipe();
    expect(ways).toBe(1);
  });

  it("is studied at once until it has a recipe, with no more effort than allowed", () => {
    const { look } = lookOf([4000]);
    expect(massOf(new AskedLoad(undefined, look).study(1000))).toBeUndefined();
    expect(massOf(new AskedLoad(undefined, look).study(Infinity))).toBe(0);
    // As when it is asked for as often: the layout found is the same.
    const asked = new AskedLoad(undefined, look);
    let found: Recipe | undefined;
    for (let times = 0; found === undefined && times < 10_000; times++) found = asked.glance();
    expect(massOf(found)).toBe(0);
  });

  it("keeps the arrangements that some chamber bakes soonest, the one first that most chambers bake", () => {
    const { look } = lookOf(
      [0, 0, 0, 0],
      [
        [40, 30, NEVER],
        [NEVER, 25, NEVER],
        [40, 31, 35],
        [41, 32, 36],
      ],
    );
    const found = new AskedLoad(undefined, look).recipe()!;
    expect(massOf(found)).toBe(2);
    expect(found.others.map(massOf)).toEqual([0, 1]);
    // Each knows of all others.
    for (const other of found.others)
      expect([other, ...other.others].map(massOf).toSorted((a, b) => a! - b!)).toEqual([0, 1, 2]);
  });

  it("has no recipe that no chamber bakes", () => {
    const { look } = lookOf([0], [[NEVER, NEVER]]);
    expect(new AskedLoad(undefined, look).study(Infinity)).toBeUndefined();
  });

  it("keeps the recipe that it had, and has others besides only where some chambers do not bake that", () => {
    for (const [minutes, others] of [
      [[30, 30], []],
      [[30, NEVER], [1]],
    ] as const) {
      const { look } = lookOf([0, 0], [minutes, [33, 40]]);
      const load = new AskedLoad(recipe(0), { ...look, ways: () => [[1]] });
      expect(load.recipe()?.others).toEqual([]);
      for (let asked = 0; asked < 2000; asked++) load.glance();
      const found = load.recipe()!;
      expect([found, ...found.others].map(massOf).toSorted((a, b) => a! - b!)).toEqual([0, ...others]);
    }
  });
});
