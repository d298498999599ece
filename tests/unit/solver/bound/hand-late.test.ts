/** Tickets that compete for an oven or a booth, against every sequence of loads or of whole tasks, tried out. */
import { describe, expect, it } from "vitest";
import { HandBag } from "../../../../solver/bound/hand-bag.ts";
import { HandLate } from "../../../../solver/bound/hand-late.ts";
import { StaffedClock } from "../../../../solver/bound/staffed-clock.ts";
import type { Ticket } from "../../../../solver/day/day-model.ts";
import { lateCost } from "../../../../solver/day/late-cost.ts";
import { chance } from "../../../help/day-chance.ts";

/** A bake with the share of a load that it fills, or a task of the booth that fills all of it. */
interface Job {
  readonly ticket: number;
  readonly share: number;
  readonly minutes: number;
  readonly head: number;
  readonly tail: number;
}

function ticketOf(promised: number, latePerHour: number): Ticket {
  return { promised, latePerHour, pans: [] } as unknown as Ticket;
}

function costsAlone(tickets: readonly Ticket[], jobs: readonly Job[]): Float64Array {
  return Float64Array.from(tickets, (own, ticket) => {
    const ends = jobs.filter((job) => job.ticket === ticket).map(({ head, minutes, tail }) => head + minutes + tail);
    return lateCost(own, Math.max(...ends));
  });
}

function boundOf(tickets: readonly Ticket[], jobs: readonly Job[]): number {
  const clock = new StaffedClock([{ from: 0, to: 10_000 }], 0);
  const bag = new HandBag({ hands: 1, changeoverMinutes: 0, freeChangeovers: 0, clock, breaks: false }, jobs.length);
  for (const { ticket, minutes, head, tail } of jobs) bag.add(head, minutes, 0, tail, tail, ticket);
  jobs.forEach(({ share }, at) => (bag.minutes[at]! *= share));
  return new HandLate(tickets).cost(bag, costsAlone(tickets, jobs));
}

/** Of all sequences of loads that hold at most 1, each as long as its longest bake. */
function leastCost(tickets: readonly Ticket[], jobs: readonly Job[]): number {
  const ready = tickets.map(() => -Infinity);
  const after = (left: readonly Job[], free: number): number => {
    if (left.length === 0) return tickets.reduce((sum, own, ticket) => sum + lateCost(own, ready[ticket]!), 0);
    let best = Infinity;
    for (let chosen = 1; chosen < 1 << left.length; chosen++) {
      const load = left.filter((_, at) => (chosen >> at) % 2 === 1);
      if (load.reduce((sum, { share }) => sum + share, 0) > 1 + 1e-9) continue;
      const end = Math.max(free, ...load.map(({ head }) => head)) + Math.max(...load.map(({ minutes }) => minutes));
      const before = [...ready];
      for (const { ticket, tail } of load) ready[ticket] = Math.max(ready[ticket]!, end + tail);
      best = Math.min(
        best,
        after(
          left.filter((_, at) => (chosen >> at) % 2 === 0),
          end,
        ),
      );
      ready.splice(0, ready.length, ...before);
    }
    return best;
  };
  return after(jobs, 0);
}

describe("tickets that compete", () => {
  const half = (ticket: number): Job => ({ ticket, share: 0.5, minutes: 40, head: 0, tail: 0 });

  it("end with their load, whatever share of it they fill", () => {
    const two = [ticketOf(10, 60), ticketOf(10, 60)];
    // Both in one load until 40: 30 minutes late each, at 1 a minute.
    expect(boundOf(two, [half(0), half(1)])).toBeCloseTo(60, 9);
    expect(leastCost(two, [half(0), half(1)])).toBe(60);
    // Three halves: the middles of their work are at 10, 30 and 50, half a load later they end at 30, 50 and 70.
    const three = [...two, ticketOf(10, 60)];
    expect(boundOf(three, [half(0), half(1), half(2)])).toBeCloseTo(120, 9);
    expect(leastCost(three, [half(0), half(1), half(2)])).toBe(130);
  });

  it("wait for what follows each of their tasks", () => {
    // Sprayed for ten minutes twice each, 100 and 40 minutes before they are ready: middles at 10 and 30, ends of the first
    // coats no sooner than 5 after, of both 10 after.
    const twice = (ticket: number): Job[] =>
      [100, 40].map((tail) => ({ ticket, share: 1, minutes: 10, head: 0, tail }));
    const tickets = [ticketOf(80, 60), ticketOf(80, 60)];
    // Mean of the tails 70: 10 + 5 + 70 and 30 + 5 + 70 less 80 each.
    const bound = boundOf(tickets, [...twice(0), ...twice(1)]);
    expect(bound).toBeCloseTo(60, 9);
  });

  it.each(["an oven", "a booth"])("cost no plan less than said: %s", (place) => {
    const dice = chance(place.length);
    let sharper = 0;
    for (let round = 0; round < 150; round++) {
      const tickets = Array.from({ length: dice.whole(2, 3) }, () =>
        ticketOf(dice.whole(1, 6) * 10, dice.oneOf([30, 60, 120])),
      );
      const jobs = Array.from({ length: dice.whole(tickets.length, 5) }, (_, at): Job => {
        const share = place === "a booth" ? 1 : dice.oneOf([0.3, 0.5, 0.6, 0.8]);
        const ticket = at < tickets.length ? at : dice.whole(0, tickets.length - 1);
        const [head, tail] = [dice.whole(0, 4) * 10, dice.oneOf([0, 0, 30, 80])];
        return { ticket, share, minutes: dice.oneOf([10, 30, 40]), head, tail };
      });
      const bound = boundOf(tickets, jobs);
      const least = leastCost(tickets, jobs);
      expect(bound).toBeLessThanOrEqual(least + 1e-9);
      const alone = costsAlone(tickets, jobs).reduce((sum, one) => sum + one, 0);
      if (bound > alone + 1e-9) sharper++;
    }
    expect(sharper).toBeGreaterThan(10);
  });
});
