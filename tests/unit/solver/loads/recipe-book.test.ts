import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { likelyStarts } from "../../../../solver/loads/recipe.ts";
import { firingOptions, isFireable } from "../../../../solver/heat/options.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { generatedDay } from "../../../help/days.ts";
import { seededRandom } from "../../../../solver/random.ts";

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
        const layout = book.recipeOn(0, [kind], [set])?.layout;
        if (layout && set > 2) seen.add(10 * set + layout.place(0).shelf);
      }
    });
    // Three shelves of different warmth: the last three sets are one shelf each, warm to cool.
    const warmFirst = space.shelves
      .map((_, at) => at)
      .sort((a, b) => space.shelves[b]!.offsetC - space.shelves[a]!.offsetC);
    expect([...seen].toSorted((a, b) => a - b)).toEqual(warmFirst.map((shelf, at) => 10 * (at + 3) + shelf));
  });
});

/** Loads of the first oven that grow by kinds drawn by lot until they have eight pans. */
function* growingLoads(count: number): Generator<readonly number[]> {
  const random = seededRandom(7);
  const inFirst = [...day.kinds.keys()].filter((kind) => day.kinds[kind]!.ovens.includes(0));
  for (let round = 0; round < count; round++) {
    const kinds: number[] = [];
    while (kinds.length < 8) {
      kinds.push(inFirst[random.below(inFirst.length)]!);
      yield kinds.toSorted((a, b) => a - b);
    }
  }
}

describe("firings at a set-point told", () => {
  const book = new RecipeBook(day, 0);
  const recipes = day.kinds.flatMap((_, kind) => book.recipe(0, [kind]) ?? []);

  it("are worked out where the search's lists pass them over, as firings of the oven's every step have them", () => {
    const { ambientC, ovens } = day.request;
    const { cycle } = ovens[0]!;
    if (cycle.kind !== "thermal") throw new Error("The day's first oven does not warm up");
    let between = 0;
    for (const recipe of recipes)
      for (const chamberC of [ambientC, 200, 300]) {
        const listed = book.firings(recipe, chamberC, SEARCH_BUCKET_K).map(({ setPointC }) => setPointC);
        const bucketC = Math.round(chamberC / SEARCH_BUCKET_K) * SEARCH_BUCKET_K;
        // None is left out because it leaves the chamber as warm as another.
        const every = firingOptions(cycle, ambientC, recipe.members, bucketC, { alikeChamberK: 0 });
        for (const option of every) {
          expect(book.firingsAt(recipe, chamberC, SEARCH_BUCKET_K, option.setPointC)).toEqual([option]);
          if (!listed.includes(option.setPointC)) between++;
        }
      }
    expect(between).toBeGreaterThan(100);
  });

  it("are none where the windows cannot be kept", () => {
    for (const recipe of recipes)
      expect(book.firingsAt(recipe, 20, SEARCH_BUCKET_K, day.request.ambientC + 5), recipe.kinds.join()).toEqual([]);
  });
});

describe("whether loads fit", () => {
  it("is what laying them out and firing them says, in all but a few of a thousand", () => {
    const told = new RecipeBook(day, 0);
    const laid = new RecipeBook(day, 0);
    let asked = 0;
    let wrong = 0;
    for (const kinds of growingLoads(400)) {
      asked++;
      if (told.fits(0, kinds) !== (laid.recipe(0, kinds) !== undefined)) wrong++;
    }
    expect(asked).toBeGreaterThan(1000);
    expect(wrong).toBeLessThanOrEqual(asked * 0.003);
  });

  it("is asked of each load on days of few pans: one pan more may keep light metal from overbaking beside heavy metal", () => {
    const few = dayModel(requestOf(generatedDay({ pans: 10, ovens: 1, door: "cold", pace: "calm", seed: 473 })));
    const book = closeBook(few, 0);
    const top = (id: string): number =>
      few.kinds.findIndex(({ line, coat }) => line.id === id && coat.name === "top coat");
    const [heavy, light, other] = [top("T-102-B"), top("T-103-A"), top("T-104-A")];
    const fits = [[light], [heavy], [heavy, light], [heavy, heavy, light], [heavy, heavy, light, other]].map((kinds) =>
      book.fits(0, kinds),
    );
    expect(fits).toEqual([true, true, false, true, true]);
    expect(book.company.mayMeet(0, [heavy, light])).toBe(true);
  });

  it("is not looked for on some of the shelves where all of them are too few", () => {
    const book = new RecipeBook(day, 0);
    let tooMany = 0;
    for (const kinds of growingLoads(200)) {
      const some = [...new Set(kinds)];
      if (
        book.recipeOn(
          0,
          kinds,
          some.map(() => 0),
        ) !== undefined
      )
        continue;
      tooMany++;
      for (const set of [1, 2, 3, 4, 5])
        expect(
          book.recipeOn(
            0,
            kinds,
            some.map(() => set),
          ),
        ).toBeUndefined();
    }
    expect(tooMany).toBeGreaterThan(50);
  });
});

// Of the sets of three shelves the last three are one shelf each.
const SINGLE = [3, 4, 5];

describe("a book that looks closer", () => {
  const calm = dayModel(requestOf(generatedDay({ pans: 24, ovens: 1, door: "hot", pace: "calm", seed: 1 })));
  const close = closeBook(calm, 0);
  const random = seededRandom(3);
  const loads = Array.from({ length: 600 }, () =>
    Array.from({ length: 2 + random.below(6) }, () => random.below(calm.kinds.length)).toSorted((a, b) => a - b),
  );

  it("has the recipes of the plain one, and others for loads that it refuses", () => {
    let plain = 0;
    let closer = 0;
    for (const kinds of loads) {
      const recipe = close.recipe(0, kinds);
      const known = close.plain.recipe(0, kinds);
      if (known !== undefined) expect(recipe).toBe(known);
      if (known !== undefined) plain++;
      else if (recipe !== undefined) closer++;
    }
    expect(plain).toBeGreaterThan(50);
    expect(closer).toBeGreaterThan(20);
  });

  it("finds shelves for every two kinds that bake on any, as trying all shelves says", () => {
    const bakeOn = (kinds: readonly number[], sets: readonly number[]): boolean => {
      const told = close.recipeOn(0, kinds, sets);
      return (
        told !== undefined &&
        [20, 120, 200].some((chamberC) => close.firings(told, chamberC, SEARCH_BUCKET_K).length > 0)
      );
    };
    const refused = { plain: 0, close: 0 };
    for (let one = 0; one < calm.kinds.length; one++)
      for (let other = one + 1; other < calm.kinds.length; other++) {
        const kinds = [one, other];
        if (close.plain.recipe(0, kinds) !== undefined) continue;
        if (!SINGLE.some((warm) => SINGLE.some((cool) => bakeOn(kinds, [warm, cool])))) continue;
        refused.plain++;
        if (close.recipe(0, kinds) === undefined) refused.close++;
      }
    expect(refused.plain).toBeGreaterThan(5);
    expect(refused.close).toBe(0);
  });

  it.each([401, 404, 407, 421])(
    "does so for every two lots of alike pans, however much their windows have to spare, day %i",
    (seed) => {
      const wish = { pans: 7, ovens: 1, door: seed % 2 === 0 ? "hot" : "cold", pace: "calm", seed } as const;
      const few = dayModel(requestOf(generatedDay(wish)));
      const { ovens, ambientC } = few.request;
      const cycle = ovens[0]!.cycle as ThermalCycle;
      const book = closeBook(few, 0);
      const lots = few.kinds.map((_, kind) => few.bakes.flatMap((bake) => (bake.kind === kind ? [kind] : [])));
      let baked = 0;
      for (const [at, lot] of lots.entries())
        for (const other of lots.slice(at + 1)) {
          const kinds = [...lot, ...other];
          const onShelves = SINGLE.flatMap((warm) => SINGLE.map((cool) => book.recipeOn(0, kinds, [warm, cool])));
          const starts = likelyStarts(cycle, ambientC);
          const bakes = onShelves.some(
            (recipe) => recipe && starts.some((startC) => isFireable(cycle, ambientC, recipe.members, startC)),
          );
          if (!bakes) continue;
          baked++;
          expect(book.recipe(0, kinds), kinds.join()).toBeDefined();
        }
      expect(baked).toBeGreaterThan(2);
    },
  );

  it("has room for what must be dealt out to shelves, as the plain one has on days of more pans, and neither of many", () => {
    const wish = { pans: 24, ovens: 1, door: "cold", pace: "calm", seed: 2, sprayers: 1 } as const;
    const request = requestOf(generatedDay(wish));
    // Six pans of one primer take 68 of the shelves' 126 dm².
    const kinds = [6, 6, 6, 9, 9, 13];
    const withMore = (pans: number): RecipeBook => {
      const lines = request.lines.map((line, at) => (at === 0 ? { ...line, quantity: line.quantity + pans } : line));
      const more = dayModel({ ...request, lines });
      expect(more.pans).toHaveLength(24 + pans);
      return closeBook(more, 0);
    };
    const laid = [0, 1, 21, 22].map((pans) => {
      const book = withMore(pans);
      return [book.plain.recipe(0, kinds), book.recipe(0, kinds)].map((recipe) => recipe?.layout?.pans);
    });
    expect(laid).toEqual([
      [undefined, 6],
      [6, 6],
      [6, 6],
      [undefined, undefined],
    ]);
  });

  it("tells a search of many pans of plain loads only, and makes the others where they are asked for", () => {
    const many = closeBook(day, 0);
    expect([close.fitsClosely, many.fitsClosely, close.plain.fitsClosely]).toEqual([true, false, false]);
    let asked = 0;
    for (const kinds of growingLoads(150)) {
      expect(many.fits(0, kinds)).toBe(many.plain.fits(0, kinds));
      if (!many.fits(0, kinds) && many.recipe(0, kinds) !== undefined) asked++;
    }
    expect(asked).toBeGreaterThan(10);
  });

  it("is the plain one where no oven warms its shelves unevenly", () => {
    const fixed = dayModel(
      requestOf(generatedDay({ pans: 8, ovens: 1, door: "hot", pace: "calm", seed: 1, cycle: "fixed" })),
    );
    const book = closeBook(fixed, 0);
    expect(book.plain).toBe(book);
  });
});
