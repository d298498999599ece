/**
 * A lower bound on the cost of every plan that obeys the rules, in milliseconds: stage 1 of the proof. Each part is
 * what no plan can avoid; leaving pans over is allowed for, pan by pan, at what it costs.
 */
import type { DayModel } from "../day/day-model.ts";
import type { RecipeBook } from "../loads/recipe.ts";
import type { Chains } from "./chains.ts";
import { chainsOf } from "./chains.ts";
import { leastGasCost } from "./gas-floor.ts";
import type { TaskSet } from "./hand-finish.ts";
import { finishOf, taskSets } from "./hand-finish.ts";
import { ovenSets } from "./oven-sets.ts";
import { StaffedClock } from "./staffed-clock.ts";

/** Money; the parts sum to no more than the total. */
export interface Bound {
  readonly total: number;
  readonly gas: number;
  readonly crew: number;
  readonly late: number;
}

/** The parts are those of the cheapest way that is left open; the rest of the total is what leaving pans over costs there. */
export function quickBound(book: RecipeBook): Bound {
  const { day } = book;
  const chains = chainsOf(day);
  const floors: Floors = { gas: leastGasCost(day, chains), crew: crewFloor(day, chains), late: lateFloor(day, chains) };
  const latestFirst = leavable(day, chains).sort((a, b) => b.done - a.done);
  let best: Bound | undefined;
  let charged = 0;
  // Every plan bakes some pan as the one whose chain alone takes longest; all with longer chains are left over.
  for (let at = 0; at <= latestFirst.length; at++) {
    const done = latestFirst[at]?.done ?? -Infinity;
    if (at === 0 || done < latestFirst[at - 1]!.done) {
      const charges = latestFirst.slice(at).map((pan) => pan.charge);
      best = cheapest(floors, done, { at, charged, charges: charges.sort((a, b) => a - b) }, best);
    }
    charged += latestFirst[at]?.charge ?? 0;
    if (best !== undefined && charged >= best.total) break;
  }
  return safely(best ?? { total: 0, gas: 0, crew: 0, late: 0 });
}

interface Floors {
  readonly gas: (left: number) => number;
  readonly crew: (left: number, done: number) => number;
  readonly late: (left: number) => number;
}

/** `at` pans left over for `charged`; what each further one costs at least, cheapest first. */
interface LeftSoFar {
  readonly at: number;
  readonly charged: number;
  readonly charges: readonly number[];
}

/** Leaves none, one, two … further pans over, each at no less than the cheapest charge still open. */
function cheapest(floors: Floors, done: number, so: LeftSoFar, before: Bound | undefined): Bound | undefined {
  let best = before;
  let charged = so.charged;
  for (let more = 0; more <= so.charges.length; more++) {
    if (more > 0) charged += so.charges[more - 1]!;
    if (best !== undefined && charged >= best.total) break;
    const left = so.at + more;
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

/** Pans with a coat to plan: the end of their chain, and what leaving the last coat costs. */
function leavable(day: DayModel, { chains }: Chains): { done: number; charge: number }[] {
  return day.pans.flatMap(({ line, due }, pan) => {
    if (due.every(({ held }) => held !== null)) return [];
    return [{ done: chains[pan]!.done, charge: day.request.lines[line]!.leftOverCost / due.length }];
  });
}

/** Staffed minutes to the last `done`, priced. Infinity where so many pans left over are too few. */
function crewFloor(day: DayModel, chains: Chains): (left: number, done: number) => number {
  const { request } = day;
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const breaks = request.staffed.length - 1;
  const { sprayers, changeoverMinutes } = request.booth;
  const always = new StaffedClock([{ from: request.planFromMinute, to: Infinity }], request.planFromMinute);
  const ovenClock = request.ovens.every((oven) => oven.attended) ? clock : always;
  const places: readonly (readonly [TaskSet[], number, StaffedClock])[] = [
    [request.benches > 0 ? taskSets(chains.bench, 0, 0) : [], request.benches, clock],
    [sprayers > 0 ? taskSets(chains.booth, changeoverMinutes, sprayers * (1 + breaks)) : [], sprayers, clock],
    [ovenSets(day, chains.bakes), request.ovens.length, ovenClock],
  ];
  const heldDone = request.held.reduce((last, load) => Math.max(last, load.done), request.planFromMinute);
  return (left, done) => {
    let finish = done;
    for (const [sets, machines, on] of places) finish = Math.max(finish, finishOf(sets, machines, on, left));
    if (finish > day.horizonEnd + TINY_MINUTES) return Infinity;
    return (clock.read(Math.max(heldDone, finish)) * request.prices.crewPerHour) / 60;
  };
}

const TINY_MINUTES = 1e-6;

/** Each ticket as if it had the shop to itself; a left pan frees at most one ticket, down to the lateness of an open one. */
function lateFloor(day: DayModel, { chains }: Chains): (left: number) => number {
  let sum = 0;
  const freed: number[] = [];
  for (const { promised, pans, latePerHour } of day.tickets) {
    if (promised === null) continue;
    const price = (ready: number): number => (Math.max(0, ready - promised) * latePerHour) / 60;
    const open = price(day.request.nextOpenMinute);
    const ready = Math.max(...pans.map((pan) => chains[pan]!.ready));
    const alone = Number.isFinite(ready) ? price(ready) : open;
    sum += alone;
    freed.push(Math.max(0, alone - open));
  }
  freed.sort((a, b) => b - a);
  return (left) => freed.slice(0, left).reduce((rest, one) => rest - one, sum);
}
