/** On which shelves a load's kinds may stand for all of them to bake in one firing. */
import { describe, expect, it } from "vitest";
import type { BakeKind } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { ShelfWays } from "../../../../solver/loads/shelf-ways.ts";
import type { ShelfSpace } from "../../../../solver/shop.ts";
import { gatherBenchDays, generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const shelf = { widthCm: 70, depthCm: 60, clearHeightCm: 18, maxKg: 30 };
const space: ShelfSpace = {
  kind: "shelves",
  gapCm: 2,
  shelves: [
    { ...shelf, id: "low", offsetC: -6 },
    { ...shelf, id: "top", offsetC: 6 },
    { ...shelf, id: "middle", offsetC: 0 },
  ],
};
// As `shelfSets` has them, warm to cool.
const [ALL, , , TOP, , LOW] = [0, 1, 2, 3, 4, 5];

const made = dayModel(requestOf(generatedDay({ pans: 6, ovens: 1, door: "hot", pace: "calm", seed: 1 }))).kinds[0]!;

function kind(heatJPerK: number, soakMostMinutes: number): BakeKind {
  const window = { metalLowC: 250, metalHighC: 300, soakLeastMinutes: 10, soakMostMinutes };
  return { ...made, body: { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK }, highC: 300, coat: { ...made.coat, window } };
}

describe("ways to stand on the shelves", () => {
  const ways = new ShelfWays(space, demoCycle, 20);

  it("keep quick metal on the cool shelf and slow metal on the warm one where it soaks too long otherwise", () => {
    expect(ways.of([kind(800, 19), kind(3000, 19)], [3, 1])).toEqual([[LOW, TOP]]);
    expect(ways.of([kind(800, 24), kind(3000, 24)], [3, 1])).toContainEqual([ALL, TOP]);
  });

  it("are all shelves for one kind that bakes on any, and none for two that never bake together", () => {
    expect(ways.of([kind(800, 40)], [3])[0]).toEqual([ALL]);
    expect(ways.of([kind(800, 17), kind(3000, 17)], [3, 1])).toEqual([]);
  });

  it("look at chambers from the room's to the hottest that a door opens on", () => {
    expect(ways.chambersC[0]).toBe(20);
    expect(ways.chambersC.at(-1)).toBe(demoCycle.doorLimitC);
    expect(new ShelfWays(space, { ...demoCycle, doorLimitC: 15 }, 20).chambersC.at(-1)).toBe(20);
  });
});

describe("a book of few pans", () => {
  const file = generatedDay({ pans: 8, ovens: 1, door: "cold", pace: "calm", seed: 401 });
  const [oven] = file.ovens;

  it("keeps kinds apart without a firing where more shelves differ than can be told apart", () => {
    const { space } = oven!;
    if (space.kind !== "shelves") throw new Error("The day's oven has no shelves");
    const shelves = Array.from({ length: 40 }, (_, at) => ({
      ...space.shelves[0]!,
      id: `s${at}`,
      offsetC: 5 - at / 4,
    }));
    const many = dayModel(requestOf({ ...file, ovens: [{ ...oven!, space: { ...space, shelves } }] }));
    const book = closeBook(many, 0);
    for (const kind of many.kinds.keys())
      for (const other of many.kinds.keys()) {
        const kinds = [kind, other].toSorted((a, b) => a - b);
        expect(book.fits(0, kinds)).toBe(book.study(0, kinds) !== undefined);
        if (book.plain.recipe(0, kinds) !== undefined) expect(book.fits(0, kinds)).toBe(true);
      }
  });

  it("refuses what may not go into an oven, however often it is asked for", () => {
    const day = dayModel(requestOf(file));
    const barred = { ...day, kinds: day.kinds.map((one, at) => (at === 0 ? { ...one, ovens: [] } : one)) };
    const book = closeBook(barred, 0);
    for (let asked = 0; asked < 100; asked++) expect(book.fits(0, [0, 1])).toBe(false);
    expect(book.study(0, [0, 1])).toBeUndefined();
  });
});

describe("a load that hardly fits", () => {
  const { day: file } = gatherBenchDays().find(({ name }) => name === "12-cold-calm")!;
  const day = dayModel(requestOf(file));
  const coats = day.bakes.filter(({ kind: at }) => day.kinds[at]!.coat.name === "top coat").map(({ kind: at }) => at);
  const kinds = coats.toSorted((a, b) => a - b);

  it("is laid out on the shelves that its windows leave once it is asked for often enough", () => {
    expect(kinds.length).toBe(11);
    const book = closeBook(day, 0);
    expect(book.plain.recipe(0, kinds)).toBeUndefined();
    let fitsAfter = 0;
    while (!book.fits(0, kinds) && fitsAfter < 5000) fitsAfter++;
    expect(fitsAfter).toBeGreaterThan(10);
    expect(fitsAfter).toBeLessThan(5000);
    const recipe = book.recipe(0, kinds)!;
    expect(recipe.layout?.pans).toBe(11);
    const baking = [recipe, ...recipe.others].flatMap((one) =>
      [60, 110, 200].map((chamberC) => book.firings(one, chamberC, SEARCH_BUCKET_K).length),
    );
    expect(Math.max(...baking)).toBeGreaterThan(0);
  });

  it("is found at once where it is studied, on the same shelves", () => {
    const asked = closeBook(day, 0);
    while (!asked.fits(0, kinds));
    const studied = closeBook(day, 0).study(0, kinds)!;
    expect(studied.members).toEqual(asked.recipe(0, kinds)!.members);
  });
});
