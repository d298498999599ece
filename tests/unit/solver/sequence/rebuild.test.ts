import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { insertAll, without } from "../../../../solver/sequence/rebuild.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const coats = [fixedCoat({ name: "primer" }), fixedCoat({ name: "top coat" })];
const coatings = [{ id: "two-coat", name: "two coats", coats }];
const day = dayModel(smallRequest({ coatings, lines: [areaLine("A"), areaLine("B")] }));
const book = new RecipeBook(day, 0);
/** Bakes 0 and 1 are A's primer and top coat, 2 and 3 are B's. */
const draft = (loads: readonly (readonly number[])[]): Draft =>
  new Draft(
    book,
    loads.map((bakes) => newLoad(0, bakes)),
  );

describe("taking bakes out of a sequence", () => {
  it("takes the later coats of the pan along and drops loads that are empty then", () => {
    const { loads, taken } = without(draft([[0, 2], [1], [3]]), [0]);
    expect(taken).toEqual([0, 1]);
    expect(loads.map((load) => load.bakes)).toEqual([[2], [3]]);
  });

  it("does not take a coat that stands in no load, so that it cannot come back twice", () => {
    const gappy = draft([[0, 2], [3]]);
    expect(gappy.missing()).toEqual([1]);
    expect(without(gappy, [0]).taken).toEqual([0]);
  });
});

describe("putting bakes back", () => {
  const evaluator = new Evaluator(new Timetable(book, EXACT_BUCKET_K));
  const put = (mayTry: number): number[] => {
    let asked = 0;
    const isSpent = (): boolean => asked++ >= mayTry;
    const loads = insertAll(evaluator, [], [0, 1, 2, 3], PLAIN_TASTE, seededRandom(1), () => 0, isSpent);
    return loads.flatMap(({ bakes }) => bakes);
  };

  it("puts all of them back", () => {
    expect(put(Infinity).toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3]);
  });

  it("leaves the rest out once the budget is spent", () => {
    expect(put(0)).toEqual([]);
    expect(put(1)).toHaveLength(1);
  });
});
