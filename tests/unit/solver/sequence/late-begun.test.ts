/** A search that begins when some of its budget is spent gives each stage its share of the rest. */
import { afterEach, expect, it, vi } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, EXACT_BUCKET_K, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { LARGE_LOOK_AHEAD_UNTIL } from "../../../../solver/sequence/budget-shares.ts";
import { firstSequences } from "../../../../solver/sequence/first-sequences.ts";
import { LookAhead } from "../../../../solver/sequence/look-ahead.ts";
import { Search } from "../../../../solver/sequence/search.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { restOf, stepBudget } from "../../../../solver/stop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

afterEach(() => vi.restoreAllMocks());

it.each([0, 0.4, 0.9])("looks ahead for its share of the rest where %d is spent", (spent) => {
  const request = requestOf(generatedDay({ pans: 48, ovens: 2, door: "cold", pace: "overloaded", seed: 4 }));
  const book = closeBook(dayModel(request), 0);
  const rough = new Timetable(book, SEARCH_BUCKET_K);
  let through = spent;
  let looks = 0;
  const stride = (1 - spent) / 1000;
  vi.spyOn(LookAhead.prototype, "search").mockImplementation(function* () {
    for (;;) {
      looks++;
      through += stride;
      yield undefined;
    }
  });
  const search = new Search({
    rough,
    exact: new Timetable(book, EXACT_BUCKET_K),
    lp: createLp(),
    random: seededRandom(1),
    progress: () => through,
    start: firstSequences(rough, createLp()).next().value!,
    isSecond: false,
  });
  const pauses = search.run();
  const share = 1000 * LARGE_LOOK_AHEAD_UNTIL;
  for (let pause = 0; pause < share + 20; pause++) pauses.next();
  expect(looks).toBeGreaterThanOrEqual(share - 1);
  expect(looks).toBeLessThanOrEqual(share + 1);
});

it("tells the share of what is left, and ends when the whole does", () => {
  const rest = restOf(stepBudget(1000), 200);
  expect([200, 400, 1000, 1200].map(rest)).toEqual([0, 0.25, 1, 1.25]);
  expect(restOf(stepBudget(1000), 1000)(1000)).toBe(1);
  expect(restOf(stepBudget(0), 0)(0)).toBe(1);
});
