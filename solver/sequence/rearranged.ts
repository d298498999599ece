/**
 * For the last hand on a sequence: kinds of a load on other shelves, all of them where they are few, else two. Slow metal often
 * gets the warm shelf only where quick metal makes room for it, and all may stand a shelf warmer. Looked at before they are
 * timed: most layouts bake neither sooner nor on less gas.
 */
import type { DayModel } from "../day/day-model.ts";
import type { FiringOption } from "../heat/options.ts";
import { shelfSets } from "../loads/place-load.ts";
import { heatOf } from "../loads/recipe.ts";
import type { Evaluator } from "./evaluate.ts";
import { firingMet, LOOK_K } from "./firing-met.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";
import { plainLoad } from "./sequence.ts";

/** One kind on other shelves. */
export function* reshelved(day: DayModel, load: PlannedLoad): Generator<PlannedLoad> {
  const { space } = day.request.ovens[load.oven]!;
  if (space.kind !== "shelves") return;
  const sets = shelfSets(space).length;
  const kinds = new Set(load.bakes.map((bake) => day.bakes[bake]!.kind));
  const now = load.shelfSet ?? Array.from(kinds, () => 0);
  for (let kind = 0; kind < kinds.size; kind++)
    for (let set = 0; set < sets; set++)
      if (set !== now[kind]) yield { ...plainLoad(load), shelfSet: now.with(kind, set) };
}

/** Loads of more kinds than this have too many layouts to look at, two of them changed; so many in all may be looked at. */
const MOST_KINDS = 8;
const MOST_LAYOUTS = 1300;
const TINY = 1e-9;

/** Load `at` of the sequence that `exact` accepted last, on other shelves, with each set-point that gains something there. */
export function* rearranged(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const met = firingMet(exact, sequence, at);
  if (met === undefined || new Set(met.recipe.kinds).size < 2) return;
  const { book } = exact.timetable;
  const now = book.firings(met.recipe, met.chamberC, LOOK_K);
  for (const load of allRearranged(exact, sequence, at)) {
    const other = book.recipeOn(load.oven, met.recipe.kinds, load.shelfSet!)!;
    for (const { setPointC } of gains(book.firings(other, met.chamberC, LOOK_K), now)) yield { ...load, setPointC };
  }
}

/** The same load on all other shelves that heat differently. */
export function* allRearranged(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const { timetable } = exact;
  const load = sequence.loads[at]!;
  const { space } = timetable.day.request.ovens[load.oven]!;
  const met = firingMet(exact, sequence, at);
  if (met === undefined || space.kind !== "shelves") return;
  const { recipe } = met;
  const kinds = new Set(recipe.kinds).size;
  if (kinds > MOST_KINDS) return;
  const seen = new Set([heatOf(recipe)]);
  const sets = shelfSets(space).length;
  const layouts =
    sets ** kinds <= MOST_LAYOUTS
      ? allLayouts(kinds, sets)
      : twoMoved(load.shelfSet ?? Array.from({ length: kinds }, () => 0), sets);
  for (const shelfSet of layouts) {
    const other = timetable.book.recipeOn(load.oven, recipe.kinds, shelfSet);
    if (other === undefined || seen.has(heatOf(other))) continue;
    seen.add(heatOf(other));
    yield { ...plainLoad(load), shelfSet };
  }
}

function* allLayouts(kinds: number, sets: number): Generator<readonly number[]> {
  for (let code = 0; code < sets ** kinds; code++)
    yield Array.from({ length: kinds }, (_, kind) => Math.floor(code / sets ** kind) % sets);
}

function* twoMoved(now: readonly number[], sets: number): Generator<readonly number[]> {
  for (let one = 0; one < now.length; one++)
    for (let other = one + 1; other < now.length; other++)
      for (let oneSet = 0; oneSet < sets; oneSet++)
        for (let otherSet = 0; otherSet < sets; otherSet++)
          if (oneSet !== now[one] && otherSet !== now[other]) yield now.with(one, oneSet).with(other, otherSet);
}

/** Firings that none of `now` beats in both minutes and gas. */
function gains(options: readonly FiringOption[], now: readonly FiringOption[]): FiringOption[] {
  return options.filter(
    ({ unloadMinutes, gasKWh }) =>
      !now.some((one) => one.unloadMinutes <= unloadMinutes && one.gasKWh <= gasKWh + TINY),
  );
}
