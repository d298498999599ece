/** Where annealing goes next: nothing is lost or doubled, repairs take their share and no more, the budget is kept. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { Neighbours } from "../../../../solver/sequence/neighbours.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

function neighboursOf(pans: number) {
  const request = requestOf(generatedDay({ pans, ovens: 1, door: "hot", pace: "overloaded", seed: 11 }));
  const timetable = new Timetable(new RecipeBook(dayModel(request), 0), SEARCH_BUCKET_K);
  const evaluator = new Evaluator(timetable);
  const sequence: Sequence = { ...PLAIN_TASTE, loads: carefulHand(timetable) };
  evaluator.accept(sequence);
  const neighbours = new Neighbours(evaluator, seededRandom(3));
  const draft = new Draft(timetable.book, sequence.loads);
  const next = (isSpentAfter: (steps: number) => boolean = () => false) =>
    neighbours.next(sequence, draft, Infinity, isSpentAfter);
  return { evaluator, neighbours, sequence, next };
}

const bakesOf = ({ loads }: Sequence): number[] => loads.flatMap(({ bakes }) => bakes).sort((a, b) => a - b);

describe("neighbours of a sequence", () => {
  it("bake the same, each bake once, by moves, refills and repairs", () => {
    const { evaluator, neighbours, sequence, next } = neighboursOf(20);
    neighbours.isLargeDay = true;
    let repairs = 0;
    for (let round = 0; round < 1500; round++) {
      const before = neighbours.steps;
      const neighbour = next();
      if (neighbours.steps > before + 1) repairs++;
      if (neighbour === undefined) continue;
      evaluator.cost(neighbour);
      const bakes = bakesOf(neighbour);
      expect(new Set(bakes).size).toBe(bakes.length);
      // A repair may leave out what costs more than leaving it.
      if (neighbours.steps <= before + 1) expect(bakes).toEqual(bakesOf(sequence));
    }
    expect(repairs).toBeGreaterThan(0);
  });

  it("are repairs for their share on a large day: once one has taken more, moves come first", () => {
    const { evaluator, neighbours, next } = neighboursOf(20);
    neighbours.isLargeDay = true;
    let repairSteps = 0;
    for (let round = 0; round < 6000; round++) {
      const before = neighbours.steps;
      const neighbour = next();
      const own = neighbours.steps - before;
      if (own > 1) {
        const share = repairSteps / (evaluator.timed + before);
        expect(share).toBeLessThanOrEqual(0.3);
        repairSteps += own;
      } else if (neighbour !== undefined) evaluator.cost(neighbour);
    }
    expect(repairSteps / (evaluator.timed + neighbours.steps)).toBeGreaterThan(0.2);
  });

  it("are no repairs where the budget would not last for one", () => {
    const { neighbours, next } = neighboursOf(20);
    for (let round = 0; round < 1500; round++) next((steps) => steps > 0);
    expect(neighbours.steps).toBe(0);
  });

  it("are repairs and no refills on a day that is not large", () => {
    const { neighbours, next } = neighboursOf(20);
    for (let round = 0; round < 500; round++) {
      const before = neighbours.steps;
      next();
      expect(neighbours.steps - before).not.toBe(1);
    }
    expect(neighbours.steps).toBeGreaterThan(0);
  });
});
