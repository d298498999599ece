/** What the search compares: money, and where nothing is late a little for firings that come forward. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const coats = [fixedCoat({ name: "primer" }), fixedCoat({ name: "top coat" })];
const coatings = [{ id: "two-coat", name: "two coats", coats }];
const day = dayModel(smallRequest({ coatings, lines: [areaLine("A"), areaLine("B")] }));
const evaluator = (): Evaluator => new Evaluator(new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K));
const taste = { haste: 1, heatCredit: 0 };
/** Bakes 0 and 1 are A's primer and top coat, 2 and 3 are B's. */
const sequence = (loads: readonly (readonly number[])[]) => ({
  ...taste,
  loads: loads.map((bakes) => newLoad(0, bakes)),
});

describe("the cost of a sequence", () => {
  it("with a pull is the money plus the pull times the mean done of all bakes", () => {
    const plain = evaluator();
    const pulled = evaluator();
    pulled.pull = 2;
    const loads = [[0], [2], [1, 3]];
    const timetable = plain.timetable;
    const state = timetable.startState();
    const dones = loads.map((bakes) => timetable.place(state, newLoad(0, bakes), taste)!.slot.done);
    const mean = (dones[0]! + dones[1]! + 2 * dones[2]!) / 4 - day.request.planFromMinute;
    const cost = pulled.cost(sequence(loads));
    expect(pulled.pulled).toBeCloseTo(2 * mean, 9);
    expect(cost - pulled.pulled).toBeCloseTo(plain.cost(sequence(loads)), 9);
  });

  it("is that of an empty shop where nothing is left to bake", () => {
    const empty = new Evaluator(
      new Timetable(new RecipeBook(dayModel(smallRequest({ lines: [] })), 0), EXACT_BUCKET_K),
    );
    expect(empty.cost(sequence([]))).toBe(0);
  });

  it("is above the cutoff as soon as money and pull together are", () => {
    const pulled = evaluator();
    pulled.pull = 2;
    const cost = pulled.cost(sequence([[0], [2], [1, 3]]));
    expect(pulled.cost(sequence([[0], [2], [1, 3]]), cost - pulled.pulled / 2)).toBe(Infinity);
    expect(pulled.cost(sequence([[0], [2], [1, 3]]), cost + 1e-6)).toBeCloseTo(cost, 9);
  });
});
