import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { chooseLateRuin } from "../../../../solver/sequence/late-ruin.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, smallRequest } from "../../../help/requests.ts";

/** Loads of two pans, 40 minutes each; A and B are promised by minute 40, so that only the first load serves them. */
const rush = { promisedMinute: 40, latePerHour: 60 };
const day = dayModel(smallRequest({ lines: [areaLine("C"), areaLine("D"), areaLine("A", rush), areaLine("B", rush)] }));
const timetable = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K);
const taste = { haste: 1, heatCredit: 0 };

function accepted(loads: readonly (readonly number[])[]): { evaluator: Evaluator; draft: Draft } {
  const sequence: Sequence = { ...taste, loads: loads.map((bakes) => newLoad(0, bakes)) };
  const evaluator = new Evaluator(timetable);
  evaluator.accept(sequence);
  return { evaluator, draft: new Draft(timetable.book, sequence.loads) };
}

describe("a ruin for the sake of a late ticket", () => {
  it("takes a late ticket out, and of the rest only whole loads fired before its last", () => {
    for (let seed = 0; seed < 40; seed++) {
      const { evaluator, draft } = accepted([[0], [1, 2], [3]]);
      const ruin = chooseLateRuin(draft, evaluator, seededRandom(seed))!;
      // A is ready at minute 80, B at 120; C and D were promised nothing.
      expect(["A", "B"]).toContain(day.tickets[ruin.ticket]!.name);
      expect(ruin.bakes).toContain(day.tickets[ruin.ticket]!.name === "A" ? 2 : 3);
      if (day.tickets[ruin.ticket]!.name === "A") expect(ruin.bakes).not.toContain(3);
    }
  });

  it("has nothing to do where all promises hold", () => {
    const { evaluator, draft } = accepted([
      [2, 3],
      [0, 1],
    ]);
    expect(chooseLateRuin(draft, evaluator, seededRandom(1))).toBeUndefined();
  });
});
