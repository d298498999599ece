/** Lateness no plan avoids when so many coats may be left over: tickets alone, and in competition for benches and booth. */
import type { DayModel } from "../day/day-model.ts";
import type { Chains, Task } from "./chains.ts";
import { HandBag } from "./hand-bag.ts";
import { HandLate } from "./hand-late.ts";
import { StaffedClock } from "./staffed-clock.ts";

/** A left coat frees at most one ticket, down to the lateness of an open one. */
export function lateFloor(day: DayModel, { chains, bench, booth }: Chains): (left: number) => number {
  const { request, tickets } = day;
  const open = new Float64Array(tickets.length);
  const alone = Float64Array.from(tickets, ({ promised, pans, latePerHour }, ticket) => {
    if (promised === null) return 0;
    const price = (ready: number): number => (Math.max(0, ready - promised) * latePerHour) / 60;
    open[ticket] = price(request.nextOpenMinute);
    const ready = Math.max(...pans.map((pan) => chains[pan]!.ready));
    return Number.isFinite(ready) ? price(ready) : open[ticket]!;
  });
  const clock = new StaffedClock(request.staffed, request.planFromMinute);
  const work = { changeoverMinutes: 0, freeChangeovers: 0, clock, breaks: request.staffed.length > 1 };
  const competing = new HandLate(tickets);
  const floors = [
    { tasks: bench, hands: request.benches },
    { tasks: booth, hands: request.booth.sprayers },
  ].map(({ tasks, hands }) => {
    const bag = bagOf(day, tasks, new HandBag({ ...work, hands }, tasks.length));
    const { cost, less } = competing.costWithout(bag, alone);
    return { cost, freed: less.map((one, ticket) => Math.max(0, one - open[ticket]!)).sort((a, b) => b - a) };
  });
  return (left) =>
    Math.max(...floors.map(({ cost, freed }) => freed.slice(0, left).reduce((rest, one) => rest - one, cost)));
}

/** Tickets that are never whole compete for nothing. */
function bagOf(day: DayModel, tasks: readonly Task[], bag: HandBag): HandBag {
  for (const { head, minutes, kind, tail, readyTail, pan } of tasks)
    bag.add(head, minutes, kind, tail, readyTail, day.pans[pan]!.ticket);
  return bag;
}
