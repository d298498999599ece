/** Lateness no plan avoids when so many coats may be left over: tickets alone, and in competition for hands and ovens. */
import type { DayModel } from "../day/day-model.ts";
import { lateCost } from "../day/late-cost.ts";
import type { Chains, Task } from "./chains.ts";
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
  const floors = [
    { tasks: bench, hands: request.benches, clock, breaks },
    { tasks: booth, hands: request.booth.sprayers, clock, breaks },
    {
      tasks: partsOfLoads(bakes, shares),
      hands: request.ovens.length,
      clock: attended ? clock : always,
      breaks: attended && breaks,
    },
  ].map(({ tasks, ...work }) => {
    const bag = bagOf(day, tasks, new HandBag({ ...work, changeoverMinutes: 0, freeChangeovers: 0 }, tasks.length));
    const { cost, less } = competing.costWithout(bag, alone);
    return { cost, freed: less.map((one, ticket) => Math.max(0, one - open[ticket]!)).sort((a, b) => b - a) };
  });
  return (left) =>
    Math.max(...floors.map(({ cost, freed }) => freed.slice(0, left).reduce((rest, one) => rest - one, cost)));
}

/**
 * Of its load's minutes each bake takes the share that it fills, by the measure that all together fill most of: no load holds
 * more than 1 of any.
 */
function partsOfLoads(bakes: readonly Task[], shares: readonly Shares[]): Task[] {
  const filled = (shares[0] ?? []).map((_, measure) =>
    bakes.reduce((sum, { kind, minutes }) => sum + minutes * shares[kind]![measure]!, 0),
  );
  const fullest = filled.indexOf(Math.max(...filled));
  return bakes.map((bake) => ({ ...bake, minutes: bake.minutes * (shares[bake.kind]![fullest] ?? 0) }));
}

/** Tickets that are never whole compete for nothing. */
function bagOf(day: DayModel, tasks: readonly Task[], bag: HandBag): HandBag {
  for (const { head, minutes, kind, tail, readyTail, pan } of tasks)
    bag.add(head, minutes, kind, tail, readyTail, day.pans[pan]!.ticket);
  return bag;
}
