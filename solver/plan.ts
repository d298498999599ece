/** MAIN FLOW: from a request to a firing plan, in five stages. */
import { account } from "./account.ts";
import type { Bound } from "./bound/quick.ts";
import { quickBound } from "./bound/quick.ts";
import { dayModel } from "./day/day-model.ts";
import type { FiringPlan, Proof } from "./firing-plan.ts";
import { jobDay } from "./jobs/job-day.ts";
import { searchJobs } from "./jobs/search-jobs.ts";
import { createLp } from "./lp/lp.ts";
import { closeBook, EXACT_BUCKET_K, SEARCH_BUCKET_K, SEARCH_PACKING_EFFORT } from "./loads/recipe-book.ts";
import { seededRandom } from "./random.ts";
import { firstSequences } from "./sequence/first-sequences.ts";
import { Search } from "./sequence/search.ts";
import { Timetable } from "./sequence/timetable.ts";
import type { Sequence } from "./sequence/sequence.ts";
import { plainSequence } from "./sequence/sequence.ts";
import type { PlanRequest } from "./shop.ts";
import type { Progress } from "./stop.ts";

export interface PlanOptions {
  readonly seed: number;
  /** How far the search is through what it may spend; at 1 it ends. */
  readonly progress: Progress;
  /** Stop as soon as the plan is at most so many percent above the best possible; 0: only when proven. */
  readonly gapPercent: number;
  /** Of two searches of the same request beside each other the second goes another way. Default false. */
  readonly isSecond?: boolean;
  /** True once a person wants the search to end; asked between steps. */
  readonly stopped?: () => boolean;
  /** A bound on the cost of every plan that somebody else has proven by now; asked between steps. */
  readonly proven?: () => number;
  /** A sequence that another search of the same request has found, each once; asked between steps. */
  readonly offered?: () => Sequence | undefined;
}

/** A better plan, or a better bound, than before. `plan` writes it out in full. */
export interface PlanProgress {
  readonly cost: number;
  readonly bound: number;
  readonly steps: number;
  readonly plan: () => FiringPlan;
  /** Its loads in order, plain data, for another search of the same request. */
  readonly sequence: () => Sequence;
}

/**
 * Plans the firings of a request. Yields a `PlanProgress` for the first sound plan and each improvement, and
 * `undefined` in between so that the caller can breathe; returns the best plan. Same request, seed and steps give the
 * same plan.
 */
export function* planFiring(
  request: PlanRequest,
  options: PlanOptions,
): Generator<PlanProgress | undefined, FiringPlan> {
  // 1 Ready: pans one by one, the coats each still needs, when each may begin.
  const day = dayModel(request);
  // 2 Windows: which kinds share a firing, on which shelves, at which set-points; worked out as they are asked for.
  const book = closeBook(day, SEARCH_PACKING_EFFORT);
  const rough = new Timetable(book, SEARCH_BUCKET_K);
  const exact = new Timetable(book, EXACT_BUCKET_K);
  // 3 Loads: the careful hand's loads, and those that the LP solver chooses from a pool.
  const lp = createLp();
  const starts = firstSequences(rough, lp);
  const search = new Search({
    rough,
    exact,
    lp,
    random: seededRandom(options.seed),
    progress: options.progress,
    start: starts.next().value!,
    isSecond: options.isSecond ?? false,
  });
  let bound: Bound = { total: 0, gas: 0, crew: 0, late: 0 };
  const report = (): PlanProgress => {
    const { sequence, cost } = search.best;
    const proof = proofOf("time", bound, search.steps, lp.solves());
    const plan = (): FiringPlan => account(exact, sequence, proof);
    return { cost, bound: bound.total, steps: search.steps, plan, sequence: () => plainSequence(sequence) };
  };
  yield report();
  bound = quickBound(book);
  yield report();
  const tightened = (): boolean => {
    const total = options.proven?.() ?? 0;
    if (total <= bound.total) return false;
    bound = { ...bound, total };
    return true;
  };
  const takenOver = (): boolean => {
    const sequence = options.offered?.();
    return sequence !== undefined && search.offer(sequence);
  };
  for (const start of starts) {
    if (options.stopped?.() === true || options.progress(search.steps) >= 1) break;
    yield search.offer(start) ? report() : undefined;
  }
  // 4 Sequence: better orders, better company, better shelves, until proven good enough, out of budget, or stopped.
  const jobs = jobDay(day);
  const improvements =
    jobs === undefined ? search.run() : searchJobs(jobs, rough, search, seededRandom(options.seed), options.progress);
  let status: Proof["status"] = reached(search.best.cost, bound, options.gapPercent) ?? "time";
  if (status === "time")
    for (const improvement of improvements) {
      const news = [improvement !== undefined, tightened(), takenOver()];
      yield news.includes(true) ? report() : undefined;
      if (options.stopped?.() === true) status = "stopped";
      else status = reached(search.best.cost, bound, options.gapPercent) ?? "time";
      if (status !== "time") break;
    }
  if (tightened()) status = reached(search.best.cost, bound, options.gapPercent) ?? status;
  // 5 Account: the plan written out, gas and savings, who is late and what is left over.
  return account(exact, search.best.sequence, proofOf(status, bound, search.steps, lp.solves()));
}

/** A plan so near the bound counts as proven best, percent. */
const PROVEN_GAP_PERCENT = 0.1;

/** Whether the plan is proven, or as near the best possible as was asked for. */
function reached(cost: number, bound: Bound, gapPercent: number): "proven" | "good" | undefined {
  const gap = cost <= 0 ? 0 : (100 * (cost - bound.total)) / cost;
  if (gap <= PROVEN_GAP_PERCENT) return "proven";
  return gap <= gapPercent ? "good" : undefined;
}

function proofOf(status: Proof["status"], bound: Bound, steps: number, lpSolves: number): Proof {
  const { total, gas, crew, late } = bound;
  return { status, bestPossibleCost: total, unavoidable: { gas, crew, late }, steps, lpSolves };
}
