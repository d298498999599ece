/**
 * Tickets that compete for the same hands cannot all be on time. For any set U of tickets Σ w·lateness ≥ Σ w·(C − d), and the
 * least Σ w·C of interruptible work with heads is had by mean busy times: always work on the ticket with most weight per
 * minute (M. Goemans' relaxation of one machine with release dates; textbook). Several hands are one that is so much faster.
 */
import type { Ticket } from "../day/day-model.ts";
import type { HandBag } from "./hand-bag.ts";

export class HandLate {
  readonly #tickets: readonly Ticket[];
  /** Per ticket: minutes of work, tail to the hand-over, weighted middle of its work, whether it is in U. */
  readonly #minutes: Float64Array;
  readonly #tails: Float64Array;
  readonly #middle: Float64Array;
  readonly #inside: Uint8Array;
  #left = new Float64Array(0);

  constructor(tickets: readonly Ticket[]) {
    this.#tickets = tickets;
    this.#minutes = new Float64Array(tickets.length);
    this.#tails = new Float64Array(tickets.length);
    this.#middle = new Float64Array(tickets.length);
    this.#inside = new Uint8Array(tickets.length);
  }

  /** Cost of lateness no plan undercuts; `alone`: per ticket, what it costs if it has the shop to itself. */
  cost(bag: HandBag, alone: Float64Array): number {
    let lonely = 0;
    for (let ticket = 0; ticket < alone.length; ticket++) lonely += alone[ticket]!;
    if (bag.work.hands === 0) return lonely;
    const some = this.#gather(bag);
    if (some < 2) return lonely;
    let best = lonely;
    for (let round = 0; round < ROUNDS; round++) {
      this.#run(bag);
      let cost = 0;
      let dropped = false;
      for (let ticket = 0; ticket < alone.length; ticket++) {
        if (this.#inside[ticket] === 0) {
          cost += alone[ticket]!;
          continue;
        }
        const late = this.#lateness(bag, ticket);
        cost += late;
        if (late < alone[ticket]!) {
          this.#inside[ticket] = 0;
          dropped = true;
        }
      }
      if (cost > best) best = cost;
      if (!dropped) break;
    }
    return best;
  }

  #gather(bag: HandBag): number {
    this.#minutes.fill(0);
    this.#tails.fill(Infinity);
    this.#inside.fill(0);
    let some = 0;
    for (let at = 0; at < bag.count; at++) {
      const ticket = bag.tickets[at]!;
      if (ticket < 0) continue;
      const { promised, latePerHour } = this.#tickets[ticket]!;
      if (promised === null || latePerHour <= 0) continue;
      if (this.#inside[ticket] === 0) some++;
      this.#inside[ticket] = 1;
      this.#minutes[ticket]! += bag.minutes[at]!;
      if (bag.readyTails[at]! < this.#tails[ticket]!) this.#tails[ticket] = bag.readyTails[at]!;
    }
    return some;
  }

  /** Lets the hands work on the tickets of U, most weight per minute first. */
  #run(bag: HandBag): void {
    const { clock, hands } = bag.work;
    if (this.#left.length < bag.count) this.#left = new Float64Array(bag.count);
    const order = bag.sorted();
    this.#middle.fill(0);
    let now = -Infinity;
    // Heads from the last to the first of the order; `open`: how many tasks have been released.
    let open = 0;
    for (let at = 0; at < bag.count; at++) this.#left[at] = bag.minutes[at]! / hands;
    for (;;) {
      let chosen = -1;
      let most = -1;
      for (let at = 0; at < open; at++) {
        const one = order[bag.count - 1 - at]!;
        const ticket = bag.tickets[one]!;
        if (ticket < 0 || this.#inside[ticket] === 0 || this.#left[one]! <= 0) continue;
        const worth = this.#tickets[ticket]!.latePerHour / this.#minutes[ticket]!;
        if (worth > most) {
          most = worth;
          chosen = one;
        }
      }
      const next = open < bag.count ? clock.read(bag.heads[order[bag.count - 1 - open]!]!) : Infinity;
      if (chosen < 0) {
        if (next === Infinity) return;
        now = Math.max(now, next);
        open++;
        continue;
      }
      const spent = Math.min(this.#left[chosen]!, Math.max(0, next - now));
      if (spent > 0) {
        const ticket = bag.tickets[chosen]!;
        this.#middle[ticket]! += (spent * (now + spent / 2) * hands) / this.#minutes[ticket]!;
        this.#left[chosen]! -= spent;
        now += spent;
      }
      if (now >= next) open++;
    }
  }

  /** May be below 0: the sum counts, not the ticket. */
  #lateness(bag: HandBag, ticket: number): number {
    const { promised, latePerHour } = this.#tickets[ticket]!;
    const end = this.#middle[ticket]! + this.#minutes[ticket]! / bag.work.hands / 2;
    return ((end - bag.work.clock.read(promised! - this.#tails[ticket]!)) * latePerHour) / 60;
  }
}

const ROUNDS = 4;
