/** For the last hand on a sequence: the recipe of one of its loads, how warm a chamber it meets, and what pre-heat made it so. */
import type { Recipe } from "../loads/recipe.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Evaluator } from "./evaluate.ts";
import type { Sequence } from "./sequence.ts";

/** Firings are looked up for the chamber to so many K: which set-points there are does not hang on less. */
export const LOOK_K = 0.5;

/** Set-points, °C, at which a load bakes from a chamber at `chamberC`, in whichever of its arrangements. */
export function setPointsFrom(book: RecipeBook, recipe: Recipe, chamberC: number): readonly number[] {
  const options = [recipe, ...recipe.others].flatMap((one) => book.firings(one, chamberC, LOOK_K));
  return [...new Set(options.map(({ setPointC }) => setPointC))];
}

export interface FiringMet {
  readonly recipe: Recipe;
  /** That the door opens on. */
  readonly chamberC: number;
  /** Set-point, °C; undefined where there is none. */
  readonly preheatC: number | undefined;
}

/** Of load `at` of the sequence accepted last; undefined where it is not fired, or not with all its bakes. */
export function firingMet(exact: Evaluator, sequence: Sequence, at: number): FiringMet | undefined {
  const { timetable } = exact;
  const state = timetable.startState();
  state.copyFrom(exact.before(at));
  const load = sequence.loads[at]!;
  const timed = timetable.place(state, load, sequence);
  if (timed === undefined || timed.bakes.length < load.bakes.length) return undefined;
  const { recipe, slot } = timed;
  const preheat = slot.before.find(({ kind }) => kind === "preheat");
  return { recipe, chamberC: slot.chamberStartC, preheatC: preheat?.setPointC };
}
