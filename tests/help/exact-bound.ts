/** The exact search over a whole request, as the prover runs it. */
import type { Day, DayFile } from "../../api/contract/day.ts";
import { readDay } from "../../api/day/read-day.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { ExactSearch } from "../../solver/bound/exact-search.ts";
import type { Grain } from "../../solver/bound/grain.ts";
import { COARSE } from "../../solver/bound/grain.ts";
import { proveBound } from "../../solver/bound/prove.ts";
import { LoadSets } from "../../solver/bound/load-sets.ts";
import { loneTables } from "../../solver/bound/lone-tables.ts";
import { proofTask } from "../../solver/bound/proof-task.ts";
import { dayModel } from "../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../solver/loads/recipe-book.ts";
import type { FiringPlan } from "../../solver/firing-plan.ts";
import { planFiring } from "../../solver/plan.ts";
import { Timetable } from "../../solver/sequence/timetable.ts";
import type { PlanRequest } from "../../solver/shop.ts";
import { stepBudget } from "../../solver/stop.ts";

export function requestOf(file: DayFile): PlanRequest {
  return toRequest(soundDay(file));
}

export function soundDay(file: DayFile): Day {
  const read = readDay(file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.day;
}

export interface ExactWish {
  /** Nothing dearer is looked at. */
  readonly upper: number;
  readonly labels: number;
  readonly dominance?: boolean;
  readonly grain?: Grain;
  readonly rides?: boolean;
  readonly closer?: Grain;
  readonly together?: number;
}

export interface Exact {
  readonly bound: number;
  readonly ended: boolean;
  readonly labels: number;
}

/** Runs until it ends or has made so many labels. */
export function exactBound(request: PlanRequest, wish: ExactWish): Exact {
  const day = dayModel(request);
  const start = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K).startState();
  const sets = new LoadSets(day, wish.grain ?? COARSE);
  const pans = day.pans.flatMap(({ due }, pan) => (start.panStep[pan]! < due.length ? [pan] : []));
  const search = new ExactSearch(proofTask({ sets, ...loneTables(sets, start.ovenChamberC) }, start, pans), {
    upper: () => wish.upper,
    ticketBase: Float64Array.from(start.ticketReady),
    leastFinish: () => -Infinity,
    ...(wish.dominance === undefined ? {} : { dominance: wish.dominance }),
    ...(wish.rides === undefined ? {} : { rides: wish.rides }),
    ...(wish.together === undefined ? {} : { together: wish.together }),
    ...(wish.closer === undefined ? {} : { closer: new LoadSets(day, wish.closer) }),
  });
  while (search.labels < wish.labels && search.step());
  return { bound: search.bound, ended: search.ended, labels: search.labels };
}

/** The best that the prover says within so many labels, with sets of pans and all. */
export function provenBound(request: PlanRequest, upper: number, labels: number): number {
  let total = 0;
  for (const state of proveBound(request, () => upper)) {
    total = Math.max(total, state.total);
    if (state.labels >= labels) break;
  }
  return total;
}

/** The best plan of so many steps. */
export function planOf(request: PlanRequest, steps: number, seed = 1): FiringPlan {
  const run = planFiring(request, { seed, progress: stepBudget(steps), gapPercent: 0 });
  for (;;) {
    const { done, value } = run.next();
    if (done === true) return value;
  }
}

/** What it costs. */
export function plannedCost(request: PlanRequest, steps: number): number {
  return planOf(request, steps).cost.total;
}
