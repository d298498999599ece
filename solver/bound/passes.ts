/** Exact searches over all pans at once, each slower than the one before and closer to the plans; the next begins when one has ended. */
import type { DayModel } from "../day/day-model.ts";
import type { PlannedLoad } from "../sequence/sequence.ts";
import type { ShopState } from "../sequence/shop-state.ts";
import { ExactSearch } from "./exact-search.ts";
import { goalLoads } from "./goal-loads.ts";
import type { Grain } from "./grain.ts";
import { COARSE, COARSE_AS_IS, FINE, FINEST } from "./grain.ts";
import { LoadSets } from "./load-sets.ts";
import { loneTables } from "./lone-tables.ts";
import type { ProofTables } from "./proof-task.ts";
import { proofTask } from "./proof-task.ts";

interface Pass {
  readonly grain: Grain;
  /** At which lone bakes are looked at. */
  readonly lone: Grain;
  /** See ExactSearchOptions. */
  readonly rides: boolean;
  /** See ExactSearchOptions. */
  readonly closer?: Grain;
  /** See ExactSearchOptions. */
  readonly together: number;
}

/** Of the first, which is the coarsest. */
const TOGETHER = 8;
/** After the first. */
const PASSES: readonly Pass[] = [
  { grain: COARSE, lone: COARSE, rides: true, together: 8 },
  ...[8, 4, 2, 1, 0.5].map((together) => ({ grain: COARSE_AS_IS, closer: FINE, lone: FINE, rides: false, together })),
  ...[0.25, 0].map((together) => ({ grain: COARSE_AS_IS, closer: FINEST, lone: FINE, rides: false, together })),
];

export interface PassesWish {
  /** What the first search is made with. */
  readonly coarsest: ProofTables;
  /** Indices of the pans that still have something to bake. */
  readonly pans: readonly number[];
  readonly upper: () => number;
  /** Plans that leave more coats over are not looked at. */
  readonly mostLeft: number;
  /** Labels that one search may make. */
  readonly mostLabels: number;
}

/** How far one search has come. */
export interface Passed {
  /** No plan that leaves at most `mostLeft` coats over costs less. */
  readonly total: number;
  /** Labels made since the last one. */
  readonly labels: number;
  /** This search has ended. */
  readonly ended: boolean;
  /** The loads of the cheapest sequence that it tells apart, once it has ended on one. */
  readonly loads?: readonly PlannedLoad[];
}

/** Yields now and then until the last search has ended or one has run out of labels. */
export function* searchAll(day: DayModel, start: ShopState, wish: PassesWish): Generator<Passed, void> {
  const { pans, upper, mostLeft, mostLabels } = wish;
  const known = new Map<Grain, LoadSets>();
  const setsOf = (grain: Grain): LoadSets => {
    const made = known.get(grain) ?? new LoadSets(day, grain);
    known.set(grain, made);
    return made;
  };
  const aloneAt = (lone: Grain): ProofTables => ({
    sets: setsOf(lone),
    ...loneTables(setsOf(lone), start.ovenChamberC),
  });
  const options = { upper, ticketBase: Float64Array.from(start.ticketReady), leastFinish: () => -Infinity, mostLeft };
  const first = new ExactSearch(proofTask(wish.coarsest, start, pans), { ...options, together: TOGETHER });
  let ended = yield* untilEnd(first, mostLabels);
  let alone: ProofTables | undefined;
  for (const { grain, lone, rides, closer, together } of PASSES) {
    if (!ended) return;
    if (alone?.sets.grain !== lone) alone = aloneAt(lone);
    const search = new ExactSearch(proofTask({ ...alone, sets: setsOf(grain) }, start, pans), {
      ...options,
      rides,
      together,
      ...(closer === undefined ? {} : { closer: setsOf(closer) }),
    });
    ended = yield* untilEnd(search, mostLabels);
  }
}

/** Answers whether the search has ended; else it has run out of labels. */
function* untilEnd(search: ExactSearch, mostLabels: number): Generator<Passed, boolean> {
  while (!search.ended && search.labels < mostLabels) {
    const before = search.labels;
    for (let round = 0; round < ROUNDS && search.step(); round++);
    const { bound: total, ended, goal } = search;
    const loads = goal === undefined ? {} : { loads: goalLoads(search.task, goal) };
    yield { total, labels: search.labels - before, ended, ...loads };
  }
  return search.ended;
}

/** Steps of a search between two yields. */
const ROUNDS = 8;
