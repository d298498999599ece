/** For the last hand on a sequence: the recipe of one of its loads, and how warm a chamber it meets. */
import type { Recipe } from "../loads/recipe.ts";
import type { Evaluator } from "./evaluate.ts";
import type { Sequence } from "./sequence.ts";

/** Firings are looked up for the chamber to so many K: which set-points there are does not hang on less. */
export const LOOK_K = 0.5;

/** What load `at` of the sequence accepted last is fired as, and the chamber that its door opens on, °C; undefined where it is not fired, or not with all its bakes. */
export function firingMet(
  exact: Evaluator,
  sequence: Sequence,
  at: number,
): { readonly recipe: Recipe; readonly chamberC: number } | undefined {
  const { timetable } = exact;
  const state = timetable.startState();
  state.copyFrom(exact.before(at));
  const load = sequence.loads[at]!;
  const timed = timetable.place(state, load, sequence);
  if (timed === undefined || timed.bakes.length < load.bakes.length) return undefined;
  return { recipe: timed.recipe, chamberC: timed.slot.chamberStartC };
}
