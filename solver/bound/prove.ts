/**
 * Tightens the bound while somebody else searches: exact search over all pans where they are few, over growing sets of them
 * where they are many. Every figure handed out is a bound on every plan of the request, however far the search has come.
 */
import type { DayModel } from "../day/day-model.ts";
import { dayModel } from "../day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../loads/recipe-book.ts";
import type { ShopState } from "../sequence/shop-state.ts";
import { Timetable } from "../sequence/timetable.ts";
import type { Polished } from "../sequence/polish.ts";
import type { PlanRequest } from "../shop.ts";
import type { CloserLook } from "./chains.ts";
import { ExactSearch } from "./exact-search.ts";
import { boundLeaving } from "./quick.ts";
import { GoalPlans } from "./goal-plans.ts";
import { COARSE_ALONE, COARSEST, COARSEST_OF_MANY } from "./grain.ts";
import { closeShares } from "./load-shares.ts";
import { LoadSets } from "./load-sets.ts";
import type { LoneTables } from "./lone-tables.ts";
import { loneTables } from "./lone-tables.ts";
import { GrownSets } from "./grown-sets.ts";
import type { Passed } from "./passes.ts";
import { searchAll } from "./passes.ts";
import { OwedBurns } from "./owed-burn.ts";
import { proofTask } from "./proof-task.ts";

export interface ProofState {
  /** No plan costs less. */
  readonly total: number;
  /** Loads that the exact search has put after one another. */
  readonly labels: number;
  /** An exact search over all pans has ended: nothing that it tells apart is cheaper than `total`. */
  readonly ended: boolean;
  /** A plan cheaper than the best known so far, of the loads that an exact search has ended on; told once. */
  readonly better?: Polished;
}

/** More pans than that are never searched all together. */
const MOST_PANS_AT_ONCE = 30;
/** Up to so many the search over all of them comes far enough to look at nothing else. */
const FEW_PANS = 14;
/** Plans of more than a few pans that leave more coats over are bounded in closed form. */
const MOST_LEFT = 2;
/** More labels than that do not fit into memory. */
const MOST_LABELS = 400_000;

/**
 * Yields whenever there is something new and now and then in between, so that the caller can listen. `upper`: the cost of the
 * best plan known, asked again and again; nothing above it is looked at. The first figure comes of a look at all pans at once,
 * before any search.
 */
export function* proveBound(request: PlanRequest, upper: () => number): Generator<ProofState, ProofState> {
  const day = dayModel(request);
  let best: ProofState = { total: 0, labels: 0, ended: false };
  const plans = new GoalPlans(day);
  const start = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K).startState();
  const pans = day.pans.flatMap(({ due }, pan) => (start.panStep[pan]! < due.length ? [pan] : []));
  // Pinned loads stand in the midst of what the exact search puts in order.
  const pinned = day.request.held.some(({ state }) => state === "pinned");
  if (pinned || pans.length === 0) return best;
  const noted = ({ total, labels, ended }: Passed): ProofState =>
    (best = { total: Math.max(best.total, total), labels: best.labels + labels, ended: best.ended || ended });
  const few = pans.length <= FEW_PANS;
  const alone = loneTables(new LoadSets(day, COARSE_ALONE), start.ovenChamberC);
  const coarsest = { sets: new LoadSets(day, few ? COARSEST : COARSEST_OF_MANY), ...alone };
  // All baked, or some left over: whichever is cheaper.
  const closer = closerLook(day, start, alone);
  const leaving = (least: number): number => boundLeaving(day, least, closer)?.total ?? Infinity;
  const leavingSome = leaving(1);
  const all = new ExactSearch(proofTask(coarsest, start, pans), {
    upper: () => Infinity,
    ticketBase: Float64Array.from(start.ticketReady),
    leastFinish: () => -Infinity,
    mostLeft: 0,
  });
  yield noted({ total: Math.min(all.bound, leavingSome), labels: 0, ended: false });
  // Who leaves nothing over is looked at closer where leaving something is known to be dearer.
  const allBakedBy = (): number | undefined => (leavingSome >= upper() ? all.leastFinish : undefined);
  const lanes: Lane[] = [];
  if (!few) {
    const sets = new GrownSets(day, start, coarsest);
    lanes.push({ labels: 0, search: growing(sets, { pans, upper, allBakedBy }) });
  }
  if (pans.length <= MOST_PANS_AT_ONCE) lanes.push({ labels: 0, search: searchingAll() });
  while (lanes.length > 0) {
    const lane = lanes.reduce((least, one) => (one.labels < least.labels ? one : least));
    const { done, value } = lane.search.next();
    if (done === true) {
      lanes.splice(lanes.indexOf(lane), 1);
      continue;
    }
    lane.labels += value.labels;
    yield noted(value);
    if (value.loads === undefined) continue;
    for (const plan of plans.of(value.loads, upper)) yield plan === undefined ? best : { ...best, better: plan };
  }
  return best;

  function* searchingAll(): Generator<Passed, void> {
    const most = few ? day.bakes.length : MOST_LEFT;
    let mostLeft = 0;
    let others = leavingSome;
    // What is dearer than the best plan known in any case needs no closer look.
    for (; mostLeft < most && others < upper(); others = leaving(mostLeft + 1)) mostLeft++;
    const wish = { coarsest, pans, upper, mostLeft, mostLabels: MOST_LABELS };
    for (const passed of searchAll(day, start, wish)) {
      const { total, ended } = passed;
      yield { ...passed, total: Math.min(total, others), ended: ended && total <= others };
      if (total >= others) return;
    }
  }
}

/** One of the ways to a better bound, all of which take turns. */
interface Lane {
  /** Made so far: whoever has made fewest goes next. */
  labels: number;
  readonly search: Generator<Passed, void>;
}

interface Growing {
  readonly pans: readonly number[];
  readonly upper: () => number;
  readonly allBakedBy: () => number | undefined;
}

function* growing(sets: GrownSets, { pans, upper, allBakedBy }: Growing): Generator<Passed, void> {
  for (let labelsPerTry = 500; labelsPerTry <= MOST_LABELS; labelsPerTry *= 4)
    for (const { total, labels } of sets.grow({ pans, upper, labelsPerTry, allBakedBy: allBakedBy() }))
      yield { total, labels, ended: false };
}

/** Lone bakes and loads of whole pans as the exact search knows them, and ovens that owe a clean burn as the day begins. */
function closerLook(day: DayModel, start: ShopState, alone: LoneTables): CloserLook {
  const burns = new OwedBurns(day, alone.times);
  const opensFrom = (kind: number, oven: number): number =>
    start.ovenSoiled[oven] === 1 && burns.needsClean[kind]!
      ? burns.cleanFrom(oven, start.ovenFree[oven]!, start.ovenChamberC[oven]!)
      : -Infinity;
  return { ...alone, shares: closeShares(day), opensFrom };
}
