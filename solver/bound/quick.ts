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

export function quickBound(book: RecipeBook): Bound {
  const { day } = book;
  const chains = chainsOf(day);
  const charges = leftOverCharges(day);
  const crew = crewFloor(day, chains);
  const late = lateFloor(day, chains);
  const gas = leastGasCost(day, chains);
  let best: Bound | undefined;
  let charged = 0;
  // A plan that leaves `left` pans over pays at least the cheapest charges, and bakes the others at what remains of each part.
  for (let left = 0; left <= day.pans.length; left++) {
    if (left > 0) charged += charges[left - 1]!;
    if (best !== undefined && charged >= best.total) break;
    const parts = { gas: gas(left), crew: crew(left), late: late(left) };
    const total = parts.gas + parts.crew + parts.late + charged;
    if (Number.isFinite(total) && (best === undefined || total < best.total)) best = { total, ...parts };
  }
  return safely(best ?? { total: 0, gas: 0, crew: 0, late: 0 });
}

/** Rounding of sums of money must not lift a bound above a plan that meets it. */
function safely({ total, gas, crew, late }: Bound): Bound {
  const keep = 1 - 1e-9;
  return { total: total * keep, gas: gas * keep * keep, crew: crew * keep * keep, late: late * keep * keep };
}

/** Per pan with a coat to plan, what leaving its last coat costs; cheapest first, the rest cost nothing to leave. */
function leftOverCharges(day: DayModel): number[] {
  const charges = day.pans.map(({ line, due }) => {
    if (due.every(({ held }) => held !== null)) return Infinity;
    return day.request.lines[line]!.leftOverCost / due.length;
  });
  return charges.sort((a, b) => a - b);
}

/** Staffed minutes to the last `done`, priced. Infinity where so many pans left over are too few. */
function crewFloor(day: DayModel, chains: Chains): (left: number) => number {
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
  const dones = chains.chains.map((chain) => chain.done).sort((a, b) => b - a);
  const heldDone = request.held.reduce((last, load) => Math.max(last, load.done), request.planFromMinute);
  return (left) => {
    let finish = dones[left] ?? -Infinity;
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
