/** Loads filled by asking of many bakes at once hold what loads filled one by one do. */
import { describe, expect, it, vi } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { LoadFiller } from "../../../../solver/sequence/load-filler.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { areaLine, smallRequest } from "../../../help/requests.ts";

/** First come, first served; a kind that found no room is not asked about again. */
function oneByOne(book: RecipeBook, oven: number, asked: readonly number[]): number[] {
  const full = new Set<number>();
  const taken: number[] = [];
  let kinds: readonly number[] = [];
  for (const bake of asked) {
    const { kind } = book.day.bakes[bake]!;
    if (full.has(kind)) continue;
    const more = [...kinds, kind].sort((a, b) => a - b);
    if (book.recipe(oven, more) === undefined) {
      full.add(kind);
      continue;
    }
    kinds = more;
    taken.push(bake);
  }
  return taken;
}

describe("a load filled by rank", () => {
  it("takes each that fits beside those before it, and passes over those that do not", () => {
    // The oven takes 20 dm²; these take 10 each but for two.
    const big = { shape: { kind: "area", dm2: 16 } } as const;
    const small = { shape: { kind: "area", dm2: 4 } } as const;
    const lines = [areaLine("A"), areaLine("big", big), areaLine("B"), areaLine("small", small)];
    const filler = new LoadFiller(new RecipeBook(dayModel(smallRequest({ lines })), 0));
    // Twice: the second time it knows how much a full load holds.
    for (let round = 0; round < 2; round++) {
      expect(filler.fill(0, [0, 1, 2, 3])).toEqual([0, 2]);
      expect(filler.fill(0, [1, 0, 2, 3])).toEqual([1, 3]);
      expect(filler.fill(0, [3])).toEqual([3]);
      expect(filler.fill(0, [])).toEqual([]);
    }
  });

  it("is what filling one by one makes of it, in fewer questions", () => {
    const wish = { pans: 40, ovens: 1, door: "hot", pace: "calm", seed: 4 } as const;
    const day = dayModel(requestOf(generatedDay(wish)));
    const book = new RecipeBook(day, 0);
    const filler = new LoadFiller(book);
    const fits = vi.spyOn(book, "fits");
    const random = seededRandom(2);
    let same = 0;
    let pans = 0;
    const rounds = 150;
    for (let round = 0; round < rounds; round++) {
      const asked = day.bakes.map((_, bake) => ({ bake, at: random.next() }));
      const order = asked.sort((a, b) => a.at - b.at).map(({ bake }) => bake);
      const filled = filler.fill(0, order);
      const kinds = filled.map((bake) => day.bakes[bake]!.kind).sort((a, b) => a - b);
      expect(book.recipe(0, kinds)).toBeDefined();
      pans += filled.length;
      if (filled.join() === oneByOne(book, 0, order).join()) same++;
    }
    // A pan more may keep light metal from overbaking, and greedy layouts may succeed with more pans than they fail with.
    expect(same / rounds).toBeGreaterThan(0.9);
    const taking = fits.mock.results.filter(({ value }) => value).length;
    expect(taking).toBeLessThan(0.7 * pans);
  });
});
