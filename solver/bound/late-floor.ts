/** Lateness no plan avoids when so many coats may be left over: tickets alone, and in competition for hands and ovens. */
import type { DayModel } from "../day/day-model.ts";
import { lateCost } from "../day/late-cost.ts";
import type { Chains, Task } from "./chains.ts";
import type { HandsAtWork } from "./busy.ts";
import { HandBag } from "./hand-bag.ts";
import { HandLate } from "./hand-late.ts";
import type { Shares } from "./load-shares.ts";
import { StaffedClock } from "./staffed-clock.ts";

/** A left coat frees at most one ticket, down to the lateness of an open one. */
export function lateFloor(day: DayModel, { chains, bench, booth, bakes, shares }: Chains): (left: number) => number {
  const { request, tickets } = day;
  const open = new Float64Array(tickets.length);
  const alone = Float64Array.from(tickets, (own, ticket) => {
    open[ticket] = lateCost(own, request.nextOpenMinute);
    const ready = Math.max(...own.pans.map((pan) => chains[pan]!.ready));
    return Number.isFinite(ready) ? lateCost(own, ready) : open[ticket]!;
  });
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const always = new StaffedClock([{ from: request.planFromMinute, to: Infinity }], request.planFromMinute);
  const attended = request.ovens.every((oven) => oven.attended);
  const breaks = request.staffed.length > 1;
  const competing = new HandLate(tickets);
  const hands = { changeoverMinutes: 0, freeChangeovers: 0 };
  const ovens = { clock: attended ? clock : always, breaks: attended && breaks, hands: request.ovens.length };
  const floors = [
    bagOf(day, bench, { ...hands, hands: request.benches, clock, breaks }),
    bagOf(day, booth, { ...hands, hands: request.booth.sprayers, clock, breaks }),
    inParts(bagOf(day, bakes, { ...hands, ...ovens }), shares),
  ].map((bag) => {
    const { cost, less } = competing.costWithout(bag, alone);
    return { cost, freed: less.map((one, ticket) => Math.max(0, one - open[ticket]!)).sort((a, b) => b - a) };
  });
  return (left) =>
    Math.max(...floors.map(({ cost, freed }) => freed.slice(0, left).reduce((rest, one) => rest - one, cost)));
}

/** Tickets that are never whole compete for nothing. */
function bagOf(day: DayModel, tasks: readonly Task[], work: HandsAtWork): HandBag {
  const bag = new HandBag(work, tasks.length);
  for (const { head, minutes, kind, tail, readyTail, pan } of tasks)
    bag.add(head, minutes, kind, tail, readyTail, day.pans[pan]!.ticket);
  return bag;
}

/**
 * Of its load's minutes each bake takes the share that it fills, by the measure that all together fill most of: no load holds
 * more than 1 of any.
 */
function inParts(bag: HandBag, shares: readonly Shares[]): HandBag {
  const { minutes, paints: kinds, count } = bag;
  const filled = (shares[0] ?? []).map(() => 0);
  for (let at = 0; at < count; at++)
    filled.forEach((_, measure) => (filled[measure]! += minutes[at]! * shares[kinds[at]!]![measure]!));
  const fullest = filled.indexOf(Math.max(...filled));
  for (let at = 0; at < count; at++) minutes[at]! *= shares[kinds[at]!]![fullest] ?? 0;
  return bag;
}
