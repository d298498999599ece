/**
 * Tightens the bound while somebody else searches: exact search over all pans where they are few, over growing sets of them
 * where they are many. Every figure handed out is a bound on every plan of the request, however far the search has come.
 */
import type { DayModel } from "../day/day-model.ts";
import { dayModel } from "../day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../loads/recipe.ts";
import type { ShopState } from "../sequence/shop-state.ts";
import { Timetable } from "../sequence/timetable.ts";
import type { PlanRequest } from "../shop.ts";
import type { CloserLook } from "./chains.ts";
import { ExactSearch } from "./exact-search.ts";
import type { Grain } from "./grain.ts";
import { boundLeaving } from "./quick.ts";
import { COARSE, COARSE_AS_IS, FINE, FINEST, PART, PART_OF_MANY } from "./grain.ts";
import { kindTimes } from "./kind-times.ts";
import { closeShares } from "./load-shares.ts";
import { LoadSets } from "./load-sets.ts";
import { GrownSets } from "./grown-sets.ts";
import type { ProofTables } from "./proof-task.ts";
import { OwedBurns } from "./owed-burn.ts";
import { proofTask } from "./proof-task.ts";

export interface ProofState {
  /** No plan costs less. */
  readonly total: number;
  /** Loads that the exact search has put after one another. */
  readonly labels: number;
  /** The exact search over all pans has ended: nothing it tells apart is cheaper than `total`. */
  readonly ended: boolean;
}

/** At most so many pans are searched all together from the start. */
const FEW_PANS = 14;
/** Up to so many it does not pay to begin with some of them. */
const VERY_FEW_PANS = 7;
/** More labels than that do not fit into memory. */
const MOST_LABELS = 400_000;

interface Pass {
  readonly grain: Grain;
  /** At which lone bakes are looked at. */
  readonly lone: Grain;
  /** See ExactSearchOptions. */
  readonly rides: boolean;
  /** See ExactSearchOptions. */
  readonly closer?: Grain;
}

/** Searches over all pans, each slower than the one before and closer to the plans; the next begins when one has ended. */
const PASSES: readonly Pass[] = [
  { grain: COARSE, lone: COARSE, rides: true },
  { grain: COARSE_AS_IS, lone: COARSE, rides: false },
  { grain: COARSE_AS_IS, closer: FINE, lone: FINE, rides: false },
  { grain: COARSE_AS_IS, closer: FINEST, lone: FINE, rides: false },
];

/**
 * Yields whenever there is something new and now and then in between, so that the caller can listen. `upper`: the cost of the
 * best plan known, asked again and again; nothing above it is looked at. The first figure comes of a look at all pans at once,
 * before any search.
 */
export function* proveBound(request: PlanRequest, upper: () => number): Generator<ProofState, ProofState> {
  const day = dayModel(request);
  let best: ProofState = { total: 0, labels: 0, ended: false };
  const start = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K).startState();
  const pans = day.pans.flatMap(({ due }, pan) => (start.panStep[pan]! < due.length ? [pan] : []));
  // Pinned loads stand in the midst of what the exact search puts in order.
  const pinned = day.request.held.some(({ state }) => state === "pinned");
  if (pinned || pans.length === 0) return best;
  const better = (total: number, labels: number, ended: boolean): ProofState =>
    (best = { total: Math.max(best.total, total), labels: best.labels + labels, ended: best.ended || ended });
  const many = pans.length > FEW_PANS;
  const part = tablesOf(new LoadSets(day, many ? PART_OF_MANY : PART));
  // All baked, or some left over: whichever is cheaper.
  const leaving = boundLeaving(day, 1, closerLook(day, start, part.times))?.total ?? Infinity;
  const all = new ExactSearch(proofTask(part, start, pans), {
    upper: () => Infinity,
    ticketBase: Float64Array.from(start.ticketReady),
    leastFinish: () => -Infinity,
    bakesAll: true,
  });
  yield better(Math.min(all.bound, leaving), 0, false);
  if (pans.length > VERY_FEW_PANS) {
    const sets = new GrownSets(day, start, part);
    for (let labelsPerTry = 500; labelsPerTry <= (many ? MOST_LABELS : 4_000); labelsPerTry *= 4) {
      // Who leaves nothing over is looked at closer where leaving something is known to be dearer.
      const allBakedBy = leaving >= upper() ? all.leastFinish : undefined;
      for (const { total, labels } of sets.grow({ pans, upper, labelsPerTry, allBakedBy }))
        yield better(total, labels, false);
    }
    if (many) return best;
  }
  const known = new Map<Grain, LoadSets>();
  const setsOf = (grain: Grain): LoadSets => {
    const made = known.get(grain) ?? new LoadSets(day, grain);
    known.set(grain, made);
    return made;
  };
  let alone: ProofTables | undefined;
  for (const { grain, lone, rides, closer } of PASSES) {
    if (alone?.sets.grain !== lone) alone = tablesOf(setsOf(lone));
    const search = new ExactSearch(proofTask({ ...alone, sets: setsOf(grain) }, start, pans), {
      upper,
      ticketBase: Float64Array.from(start.ticketReady),
      leastFinish: () => -Infinity,
      rides,
      ...(closer === undefined ? {} : { closer: setsOf(closer) }),
    });
    for (; !search.ended && search.labels < MOST_LABELS;) {
      const before = search.labels;
      for (let round = 0; round < 8 && search.step(); round++);
      yield better(search.bound, search.labels - before, search.ended);
    }
    if (!search.ended) break;
  }
  return best;
}

/** Lone bakes and loads of whole pans as the exact search knows them, and ovens that owe a clean burn as the day begins. */
function closerLook(day: DayModel, start: ShopState, times: ProofTables["times"]): CloserLook {
  const burns = new OwedBurns(day, times);
  const opensFrom = (kind: number, oven: number): number =>
    start.ovenSoiled[oven] === 1 && burns.needsClean[kind]!
      ? burns.cleanFrom(oven, start.ovenFree[oven]!, start.ovenChamberC[oven]!)
      : -Infinity;
  return { times, shares: closeShares(day), opensFrom };
}

function tablesOf(sets: LoadSets): ProofTables {
  const { day } = sets;
  const kinds = [...new Set(day.bakes.map(({ kind }) => kind))];
  return { sets, times: kindTimes(sets, kinds) };
}
