/** Loads of sequences that come from elsewhere, which the search that hears of them has not asked for yet. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { planFiring } from "../../../../solver/index.ts";
import { closeBook, EXACT_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { newLoad } from "../../../../solver/sequence/moves.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { studyLoads } from "../../../../solver/sequence/study-loads.ts";
import { TASTES } from "../../../../solver/sequence/taste.ts";
import { timedLoads } from "../../../../solver/sequence/timed-loads.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { gatherBenchDays } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

// All of its top coats bake in one firing, on shelves that hardly hold them.
const request = requestOf(gatherBenchDays().find(({ name }) => name === "12-cold-calm")!.day);
const day = dayModel(request);
const loadOf = (isIn: (line: number, coat: string) => boolean) =>
  newLoad(
    0,
    [...day.bakes.keys()].filter((bake) => {
      const { pan, kind } = day.bakes[bake]!;
      return isIn(day.pans[pan]!.line, day.kinds[kind]!.coat.name);
    }),
  );
const topCoats = () => loadOf((_, coat) => coat === "top coat");

/** Anew each time: a load remembers its recipe. */
const loads = () => [
  loadOf((line, coat) => line === 3 || (line === 5 && coat === "primer")),
  loadOf((line, coat) => [1, 4, 6].includes(line) && coat === "primer"),
  topCoats(),
];

it("are found room for at once", () => {
  const studied = new Timetable(closeBook(day, 0), EXACT_BUCKET_K);
  const kinds = topCoats()
    .bakes.map((bake) => day.bakes[bake]!.kind)
    .toSorted((a, b) => a - b);
  expect(kinds.length).toBe(11);
  studyLoads(studied, [topCoats()], 0);
  expect(studied.book.fits(0, kinds)).toBe(false);
  studyLoads(studied, [topCoats()]);
  expect(studied.book.fits(0, kinds)).toBe(true);
});

it("are taken over by a search that would not have found them in so few steps", () => {
  const planned = (handed: Sequence[]): number => {
    const options = { seed: 1, gapPercent: 0, progress: (steps: number) => steps / 600, offered: () => handed.pop() };
    const planning = planFiring(request, options);
    for (;;) {
      const step = planning.next();
      if (step.done === true) return step.value.cost.total;
    }
  };
  const alone = planned([]);
  const told = planned([{ ...TASTES[0]!, loads: loads() }]);
  expect(told).toBeLessThan(alone - 1);
});

it("do not fall apart where a proof has told of them", () => {
  const exact = new Evaluator(new Timetable(closeBook(day, 0), EXACT_BUCKET_K));
  const timing = timedLoads(exact, loads(), 2000);
  let step = timing.next();
  while (step.done !== true) step = timing.next();
  expect(step.value!.sequence.loads.map(({ bakes }) => bakes.length)).toContain(11);
});
