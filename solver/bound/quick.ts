/**
 * A lower bound on the cost of every plan that obeys the rules, in milliseconds: stage 1 of the proof. Each part is
 * what no plan can avoid; leaving pans over is allowed for, pan by pan, at what it costs.
 */
import type { DayModel } from "../day/day-model.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Chains, CloserLook } from "./chains.ts";
import { chainsOf } from "./chains.ts";
import { leastGasCost } from "./gas-floor.ts";
import { finishFloor } from "./finish-floor.ts";
import { lateFloor } from "./late-floor.ts";
import { StaffedClock } from "./staffed-clock.ts";

/** Money; the parts sum to no more than the total. */
export interface Bound {
  readonly total: number;
  readonly gas: number;
  readonly crew: number;
  readonly late: number;
}

/** The parts are those of the cheapest way that is left open; the rest of the total is what leaving pans over costs there. */
export function quickBound({ day }: RecipeBook): Bound {
  return boundLeaving(day, 0) ?? { total: 0, gas: 0, crew: 0, late: 0 };
}

/** The same for plans that leave at least so many coats over; undefined where there are none. */
export function boundLeaving(day: DayModel, least: number, closer?: CloserLook): Bound | undefined {
  const chains = chainsOf(day, closer);
  const floors: Floors = {
    gas: leastGasCost(day, chains, closer),
    crew: crewFloor(day, chains),
    late: lateFloor(day, chains),
  };
  const latestFirst = leavable(day, chains).sort((a, b) => b.done - a.done);
  let best: Bound | undefined;
  let charged = 0;
  // Every plan bakes some pan as the one whose chain alone takes longest; all with longer chains are left over.
  for (let at = 0; at <= latestFirst.length; at++) {
    const done = latestFirst[at]?.done ?? -Infinity;
    if (at === 0 || done < latestFirst[at - 1]!.done) {
      // Of a pan that is left over one coat is charged for; its others may be left too.
      const charges = latestFirst.flatMap(({ charge, coats }, place) =>
        Array.from({ length: place < at ? coats - 1 : coats }, () => charge),
      );
      best = cheapest(floors, done, { at, charged, charges: charges.sort((a, b) => a - b), least }, best);
    }
    charged += latestFirst[at]?.charge ?? 0;
    if (best !== undefined && charged >= best.total) break;
  }
  return best === undefined ? undefined : safely(best);
}

interface Floors {
  readonly gas: (left: number) => number;
  readonly crew: (left: number, done: number) => number;
  readonly late: (left: number) => number;
}

/** `at` coats left over for `charged`; what each further one costs at least, cheapest first. */
interface LeftSoFar {
  readonly at: number;
  readonly charged: number;
  readonly charges: readonly number[];
  /** At least so many are left over in all. */
  readonly least: number;
}

/** Leaves none, one, two … further coats over, each at no less than the cheapest charge still open. */
function cheapest(floors: Floors, done: number, so: LeftSoFar, before: Bound | undefined): Bound | undefined {
  let best = before;
  let charged = so.charged;
  for (let more = 0; more <= so.charges.length; more++) {
    if (more > 0) charged += so.charges[more - 1]!;
    if (best !== undefined && charged >= best.total) break;
    const left = so.at + more;
    if (left < so.least) continue;
    const parts = { gas: floors.gas(left), crew: floors.crew(left, done), late: floors.late(left) };
    const total = parts.gas + parts.crew + parts.late + charged;
    if (Number.isFinite(total) && (best === undefined || total < best.total)) best = { total, ...parts };
  }
  return best;
}

/** Rounding of sums of money must not lift a bound above a plan that meets it. */
function safely({ total, gas, crew, late }: Bound): Bound {
  const keep = 1 - 1e-9;
  return { total: total * keep, gas: gas * keep * keep, crew: crew * keep * keep, late: late * keep * keep };
}

/** Pans with a coat to plan: the end of their chain, how many coats, and what leaving one of them costs. */
export function leavable(day: DayModel, { chains }: Chains): { done: number; coats: number; charge: number }[] {
  return day.pans.flatMap(({ line, due }, pan) => {
    const coats = due.filter(({ held }) => held === null).length;
    if (coats === 0) return [];
    return [{ done: chains[pan]!.done, coats, charge: day.request.lines[line]!.leftOverCost / due.length }];
  });
}

/** Staffed minutes to the last `done`, priced. Infinity where so many coats left over are too few. */
function crewFloor(day: DayModel, chains: Chains): (left: number, done: number) => number {
  const { request } = day;
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const finish = finishFloor(day, chains);
  return (left, done) => {
    const minute = finish(left, done);
    return minute === Infinity ? Infinity : (clock.read(minute) * request.prices.crewPerHour) / 60;
  };
}
