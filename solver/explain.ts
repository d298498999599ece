/** May these pans share a firing? If not, why, with the numbers; and the firing that takes them, or comes nearest, drawn. */
import type { BakeKind, DayModel } from "./day/day-model.ts";
import { dayModel } from "./day/day-model.ts";
import type { DrawnFiring } from "./heat/drawn-firing.ts";
import { drawn, nearestFiring } from "./heat/drawn-firing.ts";
import { missedBy, whyNoFiring } from "./heat/why-not.ts";
import type { Member } from "./heat/members.ts";
import type { FiringOption } from "./heat/options.ts";
import { clashOf } from "./loads/mixing.ts";
import type { Recipe } from "./loads/recipe.ts";
import { likelyStarts } from "./loads/recipe.ts";
import type { RecipeBook } from "./loads/recipe-book.ts";
import { closeBook, EXACT_BUCKET_K } from "./loads/recipe-book.ts";
import { memberAt } from "./loads/lone-pan.ts";
import { placeLoad, shelfSets } from "./loads/place-load.ts";
import type { Reason } from "./reason.ts";
import type { Oven, PlanRequest, ThermalCycle } from "./shop.ts";

/** One coat (from 1) of a pan of a line (index). */
export interface AskedBake {
  readonly line: number;
  readonly coat: number;
}

/** Members as `DrawnFiring`'s; `shelves` (indices) null where no shelves take them all. */
export interface Drawing extends DrawnFiring {
  readonly oven: number;
  readonly chamberStartC: number;
  readonly bakesOf: readonly AskedBake[];
  readonly members: readonly Member[];
  readonly shelves: readonly number[] | null;
}

/** Either a firing that takes all, or every reason against it, oven by oven; `drawing` null in fixed cycles. */
export type SharedAnswer = { readonly drawing: Drawing | null } & (
  | {
      readonly shares: true;
      readonly oven: number;
      readonly setPointC: number | null;
      /** Minutes from door closing to burner off, and how much later it could still be. */
      readonly burnerOffMinutes: number | null;
      readonly slackMinutes: number | null;
      readonly gasKWh: number;
    }
  | { readonly shares: false; readonly reasons: readonly (Reason & { readonly oven: number | null })[] }
);

/** A person asks once: the shelves are searched harder than in a plan. */
const PACKING_EFFORT = 300;
/** Of closer looks at a load that hardly fits, see RecipeBook.study: a second or two where none finds room. */
const MOST_EFFORT = 2000;

/** Next coats due of one pan each of two lines (indices), in an empty oven: from a cold chamber, else from a warm one. */
export function explainPair(request: PlanRequest, oneLine: number, otherLine: number): SharedAnswer {
  const next = (line: number): AskedBake => ({ line, coat: request.lines[line]!.nextCoat });
  return explainTogether(request, [next(oneLine), next(otherLine)]);
}

/** Two bakes or more, in an empty oven; `onlyOven` (index) where no other is asked about. */
export function explainTogether(
  request: PlanRequest,
  asked: readonly AskedBake[],
  onlyOven: number | null = null,
): SharedAnswer {
  const day = dayModel({ ...request, held: [] });
  const book = closeBook(day, PACKING_EFFORT);
  const kinds = asked.map(({ line, coat }) => day.lineKinds[line]![coat - 1]!);
  const bakes = kinds.map((kind) => day.kinds[kind]!);
  const shared = bakes[0]!.ovens.filter(
    (oven) => (onlyOven === null || oven === onlyOven) && bakes.every((bake) => bake.ovens.includes(oven)),
  );
  if (shared.length === 0)
    return { shares: false, reasons: [{ code: "no-shared-oven", numbers: {}, oven: null }], drawing: null };
  for (const oven of shared) {
    const answer = inOven(book, oven, asked, kinds);
    if (answer !== undefined) return answer;
  }
  const reasons = shared.map((oven) => ({ ...whyNot(day, request.ovens[oven]!, bakes), oven }));
  const drawings = shared.flatMap((oven) => nearestIn(day, oven, asked, bakes) ?? []);
  return { shares: false, reasons, drawing: drawings[0] ?? null };
}

function inOven(
  book: RecipeBook,
  oven: number,
  asked: readonly AskedBake[],
  kinds: readonly number[],
): SharedAnswer | undefined {
  // A recipe runs along ascending kinds.
  const order = asked.map((_, index) => index).sort((a, b) => kinds[a]! - kinds[b]! || a - b);
  const recipe = book.study(
    oven,
    order.map((index) => kinds[index]!),
    MOST_EFFORT,
  );
  if (recipe === undefined) return undefined;
  const { cycle } = book.day.request.ovens[oven]!;
  if (cycle.kind === "fixed") {
    const gasKWh = (cycle.gasKW * recipe.cycleMinutes!) / 60;
    const minutes = { setPointC: null, burnerOffMinutes: recipe.cycleMinutes, slackMinutes: null, gasKWh };
    return { shares: true, oven, ...minutes, drawing: null };
  }
  const quickest = quickestFiring(book, recipe, cycle);
  if (quickest === undefined) return undefined;
  const { setPointC, burnerOffMinutes, slackMinutes, gasKWh } = quickest.option;
  const { ambientC } = book.day.request;
  const firing = drawn(cycle, ambientC, recipe.members, quickest.startC, quickest.option);
  const placed = order.map((_, at) => order.indexOf(at));
  const members = placed.map((at) => recipe.memberOf[at]!);
  const drawing: Drawing = {
    oven,
    chamberStartC: quickest.startC,
    bakesOf: asked,
    members: members.map((member) => recipe.members[member]!),
    shelves: recipe.layout === null ? null : placed.map((at) => recipe.layout!.place(at).shelf),
    decision: firing.decision,
    bakes: members.map((member) => firing.bakes[member]!),
    points: firing.points.map((point) => ({ ...point, metalC: members.map((member) => point.metalC[member]!) })),
  };
  return { shares: true, oven, setPointC, burnerOffMinutes, slackMinutes, gasKWh, drawing };
}

function quickestFiring(
  book: RecipeBook,
  recipe: Recipe,
  cycle: ThermalCycle,
): { readonly startC: number; readonly option: FiringOption } | undefined {
  for (const startC of likelyStarts(cycle, book.day.request.ambientC)) {
    const options = book.firings(recipe, startC, EXACT_BUCKET_K);
    if (options.length === 0) continue;
    const [option] = [...options].sort((a, b) => a.unloadMinutes - b.unloadMinutes || a.gasKWh - b.gasKWh);
    return { startC, option: option! };
  }
  return undefined;
}

/** Shelves that take all, as pans warm and cool shelves go together; else every pan as if at the chamber's temperature. */
function nearestIn(
  day: DayModel,
  oven: number,
  asked: readonly AskedBake[],
  bakes: readonly BakeKind[],
): Drawing | undefined {
  const { cycle, space } = day.request.ovens[oven]!;
  if (cycle.kind === "fixed" || space.kind === "area") return undefined;
  const shelves = placesOf(space, bakes)?.map(({ shelf }) => shelf) ?? null;
  const members = bakes.map((bake, index) =>
    memberAt(bake, shelves === null ? 0 : space.shelves[shelves[index]!]!.offsetC),
  );
  const { ambientC } = day.request;
  const firing = nearestFiring(cycle, ambientC, members);
  return { oven, chamberStartC: ambientC, bakesOf: asked, members, shelves, ...firing };
}

function placesOf(space: Extract<Oven["space"], { kind: "shelves" }>, bakes: readonly BakeKind[]) {
  for (const shelves of shelfSets(space)) {
    const places = placeLoad(space, bakes, () => shelves, PACKING_EFFORT);
    if (places !== undefined) return places;
  }
  return undefined;
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
  const massKg = bakes.reduce((sum, { line }) => sum + line.massKg, 0);
  if (massKg > oven.maxLoadKg) return { code: "too-heavy", numbers: { massKg, maxLoadKg: oven.maxLoadKg } };
  const solventMl = bakes.reduce((sum, bake) => sum + bake.solventMl, 0);
  if (solventMl > oven.maxSolventMl)
    return { code: "too-much-solvent", numbers: { solventMl, maxSolventMl: oven.maxSolventMl } };
  if (oven.space.kind === "area") return { code: "no-room-on-shelves", numbers: { dm2: oven.space.dm2 } };
  const { space, cycle } = oven;
  const places = placesOf(space, bakes);
  if (places === undefined || cycle.kind === "fixed")
    return { code: "no-room-on-shelves", numbers: { shelves: space.shelves.length } };
  const members = bakes.map((bake, index) => memberAt(bake, space.shelves[places[index]!.shelf]!.offsetC));
  return windowsApart(cycle, day.request.ambientC, bakes, members);
}

function windowsApart(
  cycle: ThermalCycle,
  ambientC: number,
  bakes: readonly BakeKind[],
  members: readonly Member[],
): Reason {
  const id = (index: number): string => bakes[index]!.line.id;
  const indices = members.map((_, index) => index);
  const hot = indices.reduce((most, index) => (members[index]!.lowC > members[most]!.lowC ? index : most), 0);
  const cool = indices.reduce((least, index) => (members[index]!.highC < members[least]!.highC ? index : least), 0);
  const needsC = members[hot]!.lowC + cycle.guardC;
  const allowsC = members[cool]!.highC - cycle.guardC;
  if (hot !== cool && needsC > allowsC)
    return { code: "ranges-do-not-meet", numbers: { hot: id(hot), cool: id(cool), needsC, allowsC } };
  const miss = whyNoFiring(cycle, ambientC, members);
  if (miss === undefined || missedBy(miss) <= 0) return { code: "windows-do-not-meet", numbers: {} };
  const { setPointC, lagMinutes, needsUntilMinute, staysUntilMinute } = miss;
  const names = { slow: id(miss.slow), fast: id(miss.fast) };
  return {
    code: "windows-do-not-meet",
    numbers: { ...names, setPointC, lagMinutes, needsUntilMinute, staysUntilMinute },
  };
}
