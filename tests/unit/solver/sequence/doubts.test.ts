/** When a search has its book doubt what some loads tell of others. */
import { expect, it } from "vitest";
import { stepBudget } from "../../../../solver/index.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, EXACT_BUCKET_K, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { firstSequences } from "../../../../solver/sequence/first-sequences.ts";
import { Search } from "../../../../solver/sequence/search.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

it.each([
  { pace: "calm", doubts: true },
  { pace: "overloaded", doubts: false },
] as const)("doubts are had on a $pace day: $doubts", ({ pace, doubts }) => {
  const request = requestOf(generatedDay({ pans: 26, ovens: 1, door: "hot", pace, seed: 4 }));
  const book = closeBook(dayModel(request), 0);
  expect(book.asksEach).toBe(false);
  const rough = new Timetable(book, SEARCH_BUCKET_K);
  const exact = new Timetable(book, EXACT_BUCKET_K);
  const lp = createLp();
  const start = firstSequences(rough, lp).next().value!;
  const search = new Search({
    rough,
    exact,
    lp,
    random: seededRandom(1),
    progress: stepBudget(1500),
    start,
    isSecond: true,
  });
  // The other way round, so that leaving it as it is would show.
  book.doubtsTold = !doubts;
  for (const _ of search.run());
  expect(search.steps).toBeGreaterThan(1000);
  expect(book.doubtsTold).toBe(doubts);
});
