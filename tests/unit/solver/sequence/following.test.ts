import { describe, expect, it } from "vitest";
import type { DayModel } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { lateByFollowing } from "../../../../solver/sequence/following.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { insertAll } from "../../../../solver/sequence/rebuild.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const coats = [
  fixedCoat({ name: "primer", inspectMinutes: 3 }),
  fixedCoat({ name: "top coat", sprayMinutes: 4, flashMinutes: 10, inspectMinutes: 2 }),
];
const coatings = [{ id: "two-coat", name: "two coats", coats }];
const taste = { haste: 1, heatCredit: 0 };
const evaluatorOf = (day: DayModel): Evaluator => new Evaluator(new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K));
const loadsOf = (loads: readonly (readonly number[])[]) => loads.map((bakes) => newLoad(0, bakes));

describe("lateness that the coats to follow make sure of", () => {
  const lines = [areaLine("A", { promisedMinute: 60, latePerHour: 60 }), areaLine("B")];
  const evaluator = evaluatorOf(dayModel(smallRequest({ coatings, finishMinutes: 5, lines })));

  it("counts from when the pan is free again, by spraying, flash-off, a likely bake, inspection and finish", () => {
    // B's primer keeps the oven from 0 to 40, A's until 80; 80 + 3 + 4 + 10 + 70 + 2 + 5 = 174, 114 minutes after its promise.
    evaluator.cost({ ...taste, loads: loadsOf([[2], [0]]) });
    expect(lateByFollowing(evaluator, [0])).toBeCloseTo(114, 9);
    expect(lateByFollowing(evaluator, [0, 2])).toBeCloseTo(114, 9);
  });

  it("is none where no coat follows or nothing was promised", () => {
    evaluator.cost({ ...taste, loads: loadsOf([[2], [0], [1]]) });
    expect(lateByFollowing(evaluator, [1])).toBe(0);
    expect(lateByFollowing(evaluator, [2])).toBe(0);
  });
});

describe("a primer that is put back", () => {
  it("goes where its top coat is late least, though the crew then stays longer", () => {
    // In the first load it holds up the oven for 20 minutes, which costs 2; in the second it makes its pan 20 minutes later.
    const hurried = areaLine("A", { promisedMinute: 100, latePerHour: 60, readyMinute: 20 });
    const day = dayModel(smallRequest({ coatings, lines: [hurried, areaLine("B"), areaLine("C")] }));
    const start = loadsOf([[2], [4]]);
    for (let seed = 1; seed <= 8; seed++) {
      const loads = insertAll(evaluatorOf(day), start, [0, 1], taste, seededRandom(seed));
      expect(loads[0]!.bakes).toContain(0);
    }
  });
});
