/** Plans of the loads that exact searches end on: often the best there are, and none that the proof could tell by itself. */
import type { DayModel } from "../day/day-model.ts";
import { closeBook, EXACT_BUCKET_K, SEARCH_PACKING_EFFORT } from "../loads/recipe-book.ts";
import { Evaluator } from "../sequence/evaluate.ts";
import type { Polished } from "../sequence/polish.ts";
import type { PlannedLoad } from "../sequence/sequence.ts";
import { timedLoads } from "../sequence/timed-loads.ts";
import { Timetable } from "../sequence/timetable.ts";

export class GoalPlans {
  readonly #day: DayModel;
  readonly #tried = new Set<string>();
  #exact: Evaluator | undefined;

  constructor(day: DayModel) {
    this.#day = day;
  }

  /** Yields undefined now and then, and at the end what costs less than `upper`. The same loads are looked at once. */
  *of(loads: readonly PlannedLoad[], upper: () => number): Generator<Polished | undefined, void> {
    const key = loads.map(({ oven, bakes }) => `${oven}/${bakes.join()}`).join(";");
    if (this.#tried.has(key)) return;
    this.#tried.add(key);
    this.#exact ??= new Evaluator(new Timetable(closeBook(this.#day, SEARCH_PACKING_EFFORT), EXACT_BUCKET_K));
    const found = yield* timedLoads(this.#exact, loads, upper());
    if (found !== undefined && found.cost < upper()) yield found;
  }
}
