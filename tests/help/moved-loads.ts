/** What a move of the search makes of loads. */
import { dayModel } from "../../solver/day/day-model.ts";
import { RecipeBook } from "../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../solver/random.ts";
import type { Move } from "../../solver/sequence/draft.ts";
import { Draft } from "../../solver/sequence/draft.ts";
import { newLoad } from "../../solver/sequence/sequence.ts";
import type { PlanRequest } from "../../solver/shop.ts";

/** Bakes of each load of oven 0, in ascending order, as the move leaves them: one for each of so many draws that found something to do. */
export function movedLoads(
  move: Move,
  request: PlanRequest,
  loads: readonly (readonly number[])[],
  draws = 400,
): number[][][] {
  const draft = new Draft(
    new RecipeBook(dayModel(request), 0),
    loads.map((bakes) => newLoad(0, bakes)),
  );
  const random = seededRandom(5);
  const sorted = (bakes: readonly number[]): number[] => bakes.toSorted((a, b) => a - b);
  return Array.from({ length: draws }, () => move(draft, random))
    .filter((found) => found !== undefined)
    .map((found) => found.map(({ bakes }) => sorted(bakes)));
}

/** Of pans with bakes 0 and 1, 2 and 3, … none is top-coated before, or with, its primer. */
export function isCoatedInOrder(loads: readonly (readonly number[])[], pans: number): boolean {
  const at = (bake: number): number => loads.findIndex((bakes) => bakes.includes(bake));
  return Array.from({ length: pans }, (_, pan) => [at(2 * pan), at(2 * pan + 1)] as const).every(
    ([primer, top]) => primer < 0 || top < 0 || primer < top,
  );
}
