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
import { ExactSearch } from "./exact-search.ts";
import type { Grain } from "./grain.ts";
import { COARSE, FINE } from "./grain.ts";
import type { KindTimes } from "./kind-times.ts";
import { kindTimes } from "./kind-times.ts";
import { LoadSets } from "./load-sets.ts";
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
/** More labels than that do not fit into memory. */
const MOST_LABELS = 400_000;

/**
 * Yields whenever there is something new and now and then in between, so that the caller can listen. `upper`: the cost of the
 * best plan known, asked again and again; nothing above it is looked at.
 */
export function* proveBound(request: PlanRequest, upper: () => number): Generator<ProofState, ProofState> {
  const day = dayModel(request);
  let best: ProofState = { total: 0, labels: 0, ended: false };
  const start = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K).startState();
  const pans = day.pans.flatMap(({ due }, pan) => (start.panStep[pan]! < due.length ? [pan] : []));
  // Pinned loads stand in the midst of what the exact search puts in order.
  const pinned = day.request.held.some(({ state }) => state === "pinned");
  if (pinned || pans.length === 0) return best;
  const shop = { day, start, upper };
  const better = (total: number, labels: number, ended: boolean): ProofState =>
    (best = { total: Math.max(best.total, total), labels: best.labels + labels, ended: best.ended || ended });
  if (pans.length <= FEW_PANS) {
    for (const grain of [COARSE, FINE]) {
      const search = searchOf(shop, tablesOf(day, grain), pans);
      for (; !search.ended && search.labels < MOST_LABELS;) {
        const before = search.labels;
        for (let round = 0; round < 8 && search.step(); round++);
        yield better(search.bound, search.labels - before, search.ended);
      }
      if (!search.ended) break;
    }
    return best;
  }
  return best;
}

interface Shop {
  readonly day: DayModel;
  readonly start: ShopState;
  readonly upper: () => number;
}

interface Tables {
  readonly sets: LoadSets;
  readonly times: ReadonlyMap<number, readonly KindTimes[]>;
}

function tablesOf(day: DayModel, grain: Grain): Tables {
  const sets = new LoadSets(day, grain);
  const kinds = [...new Set(day.bakes.map(({ kind }) => kind))];
  return { sets, times: kindTimes(sets, kinds) };
}

function searchOf({ start, upper }: Shop, { sets, times }: Tables, pans: readonly number[]): ExactSearch {
  return new ExactSearch(proofTask(sets, times, start, pans), {
    upper,
    ticketBase: Float64Array.from(start.ticketReady),
    leastFinish: -Infinity,
  });
}
