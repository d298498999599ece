/** Loads of sequences that come from elsewhere, which the search that hears of them has not asked for yet. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { planFiring } from "../../../../solver/index.ts";
import { closeBook, EXACT_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { studyLoads } from "../../../../solver/sequence/study-loads.ts";
import { TASTES } from "../../../../solver/sequence/taste.ts";
import { timedLoads } from "../../../../solver/sequence/timed-loads.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { DayFile } from "../../../../api/contract/day.ts";
import { gatherBenchDays } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

/**
 * Ten discs of 20 cm for one shelf whose side is 1 % longer than the shortest that takes them. Ten equal circles in a unit square have
 * a radius of 0.148204 at most, proven optimal: E. Specht, packomania.com, list csq; here with the gap around each.
 */
function tightDay(): DayFile {
  const file = structuredClone(gatherBenchDays().find(({ name }) => name === "12-cold-calm")!.day);
  const { space, ...oven } = file.ovens[0]!;
  if (space.kind !== "shelves") throw new Error("The oven has no shelves");
  const gapCm = 2;
  const sideCm = (1.01 * (20 + gapCm)) / 2 / 0.148204 + gapCm;
  const shelves = [{ ...space.shelves[1]!, widthCm: sideCm, depthCm: sideCm }];
  const line = { quantity: 10, shape: { kind: "disc" as const, diameterCm: 20 }, massKg: 1.5, material: "aluminium" };
  return { ...file, ovens: [{ ...oven, space: { ...space, gapCm, shelves } }], pans: [{ ...file.pans[0]!, ...line }] };
}

const request = requestOf(tightDay());
const day = dayModel(request);
/** Anew each time: a load remembers its recipe. */
const loads = () => [newLoad(0, [...day.bakes.keys()])];

it("are found room for at once", () => {
  const studied = new Timetable(closeBook(day, 0), EXACT_BUCKET_K);
  const kinds = day.bakes.map(({ kind }) => kind);
  expect(kinds.length).toBe(10);
  studyLoads(studied, loads(), 0);
  expect(studied.book.fits(0, kinds)).toBe(false);
  studyLoads(studied, loads());
  expect(studied.book.fits(0, kinds)).toBe(true);
});

it("are taken over by a search that would not have found them in so few steps", () => {
  const planned = (handed: Sequence[]): number => {
    const options = { seed: 1, gapPercent: 0, progress: (steps: number) => steps / 50, offered: () => handed.pop() };
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
  expect(step.value!.sequence.loads.map(({ bakes }) => bakes.length)).toContain(10);
});
