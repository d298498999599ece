/** May two pans share a firing? If not, why, with the numbers. */
import type { BakeKind, DayModel } from "./day/day-model.ts";
import { dayModel } from "./day/day-model.ts";
import { whyNoFiring } from "./heat/why-not.ts";
import { clashOf } from "./loads/mixing.ts";
import { EXACT_BUCKET_K, likelyStarts, RecipeBook } from "./loads/recipe.ts";
import { memberAt } from "./loads/lone-pan.ts";
import { placeLoad, shelfSets } from "./loads/place-load.ts";
import type { Reason } from "./reason.ts";
import type { Oven, PlanRequest } from "./shop.ts";

/** Either a firing that takes both next coats, or every reason against it, oven by oven. */
export type PairAnswer =
  | {
      readonly shares: true;
      readonly oven: number;
      readonly setPointC: number | null;
      /** Minutes from door closing to burner off, and how much later it could still be. */
      readonly burnerOffMinutes: number | null;
      readonly slackMinutes: number | null;
      readonly gasKWh: number;
    }
  | { readonly shares: false; readonly reasons: readonly (Reason & { readonly oven: number | null })[] };

/** A person asks once: the shelves are searched harder than in a plan. */
const PACKING_EFFORT = 300;

/** Next coats due of one pan each of two lines (indices), in an empty oven: from a cold chamber, else from a warm one. */
export function explainPair(request: PlanRequest, oneLine: number, otherLine: number): PairAnswer {
  const day = dayModel({ ...request, held: [] });
  const book = new RecipeBook(day, PACKING_EFFORT);
  const kinds = [oneLine, otherLine].map((line) => day.lineKinds[line]![request.lines[line]!.nextCoat - 1]!);
  const bakes = kinds.map((kind) => day.kinds[kind]!);
  const shared = bakes[0]!.ovens.filter((oven) => bakes[1]!.ovens.includes(oven));
  if (shared.length === 0) return { shares: false, reasons: [{ code: "no-shared-oven", numbers: {}, oven: null }] };
  const reasons: (Reason & { oven: number | null })[] = [];
  for (const oven of shared) {
    const answer = inOven(
      book,
      oven,
      [...kinds].sort((a, b) => a - b),
    );
    if (answer !== undefined) return answer;
    reasons.push({ ...whyNot(day, request.ovens[oven]!, bakes), oven });
  }
  return { shares: false, reasons };
}

function inOven(book: RecipeBook, oven: number, kinds: readonly number[]): PairAnswer | undefined {
  const recipe = book.recipe(oven, kinds);
  if (recipe === undefined) return undefined;
  const { cycle } = book.day.request.ovens[oven]!;
  if (cycle.kind === "fixed") {
    const gasKWh = (cycle.gasKW * recipe.cycleMinutes!) / 60;
    return { shares: true, oven, setPointC: null, burnerOffMinutes: recipe.cycleMinutes, slackMinutes: null, gasKWh };
  }
  const { ambientC } = book.day.request;
  const options =
    likelyStarts(cycle, ambientC)
      .map((startC) => book.firings(recipe, startC, EXACT_BUCKET_K))
      .find((some) => some.length > 0) ?? [];
  const [quickest] = [...options].sort((a, b) => a.unloadMinutes - b.unloadMinutes || a.gasKWh - b.gasKWh);
  if (quickest === undefined) return undefined;
  const { setPointC, burnerOffMinutes, slackMinutes, gasKWh } = quickest;
  return { shares: true, oven, setPointC, burnerOffMinutes, slackMinutes, gasKWh };
}

function whyNot(day: DayModel, oven: Oven, bakes: readonly BakeKind[]): Reason {
  const clash = clashOf(
    day.request.mixing,
    bakes.map((bake) => bake.coat.mixGroup),
  );
  if (clash !== undefined) {
    const code = day.request.mixing.rule === "same-group" ? "same-group-only" : "never-together";
    return { code, numbers: { one: clash[0], other: clash[1] } };
  }
  const massKg = bakes[0]!.line.massKg + bakes[1]!.line.massKg;
  if (massKg > oven.maxLoadKg) return { code: "too-heavy", numbers: { massKg, maxLoadKg: oven.maxLoadKg } };
  const solventMl = bakes[0]!.solventMl + bakes[1]!.solventMl;
  if (solventMl > oven.maxSolventMl)
    return { code: "too-much-solvent", numbers: { solventMl, maxSolventMl: oven.maxSolventMl } };
  if (oven.space.kind === "area") return { code: "no-room-on-shelves", numbers: { dm2: oven.space.dm2 } };
  const { space, cycle } = oven;
  const places = placeLoad(
    space,
    bakes,
    space.shelves.map((_, index) => index),
    PACKING_EFFORT,
  );
  if (places === undefined || cycle.kind === "fixed")
    return { code: "no-room-on-shelves", numbers: { shelves: space.shelves.length } };
  const offsets = shelfSets(space)
    .at(0)!
    .map((index) => space.shelves[index]!.offsetC);
  const misses = bakes.flatMap((_, warm) => {
    // One on the warmest shelf and the other on the coolest, both ways: the pair's best chances.
    const members = bakes.map((bake, index) => memberAt(bake, index === warm ? offsets[0]! : offsets.at(-1)!));
    return whyNoFiring(cycle, day.request.ambientC, [members[0]!, members[1]!]) ?? [];
  });
  const [nearest] = misses.sort((a, b) => a.lagMinutes - a.roomMinutes - (b.lagMinutes - b.roomMinutes));
  if (nearest === undefined) return { code: "windows-do-not-meet", numbers: {} };
  const { setPointC, lagMinutes, roomMinutes } = nearest;
  const [slow, fast] = [bakes[nearest.slow]!.line.id, bakes[nearest.fast]!.line.id];
  return { code: "windows-do-not-meet", numbers: { slow, fast, setPointC, lagMinutes, roomMinutes } };
}
