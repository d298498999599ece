/**
 * Tickets that compete for the same hands cannot all be on time. For any set U of tickets Σ w·lateness ≥ Σ w·(C − d), and the
 * least Σ w·C of interruptible work with heads is had by mean busy times: always work on the ticket with most weight per
 * minute (M. Goemans' relaxation of one machine with release dates; textbook). Several hands are one that is so much faster.
 * A ticket is handed over no sooner than each of its tasks ends and its tail has passed, so no sooner than the mean of that over
 * its work; and a bake, whatever share of its load's minutes it takes, ends with the whole load, half a load after its middle.
 */
import type { Ticket } from "../day/day-model.ts";
import type { HandBag } from "./hand-bag.ts";
import { TicketWork } from "./ticket-work.ts";

export class HandLate {
  readonly #tickets: readonly Ticket[];
  readonly #work: TicketWork;
  /** Per ticket: the middle of its work, and whether it is in U. */
  readonly #middle: Float64Array;
  readonly #inside: Uint8Array;
  #left = new Float64Array(0);

  constructor(tickets: readonly Ticket[]) {
    this.#tickets = tickets;
    this.#work = new TicketWork(tickets);
    this.#middle = new Float64Array(tickets.length);
    this.#inside = new Uint8Array(tickets.length);
  }

  /** Cost of lateness no plan undercuts; `alone`: per ticket, what it costs if it has the shop to itself. */
  cost(bag: HandBag, alone: Float64Array): number {
    let best = 0;
    for (let ticket = 0; ticket < alone.length; ticket++) best += alone[ticket]!;
    if (bag.work.hands === 0 || this.#gather(bag) < 2) return best;
    for (let round = 0; round < ROUNDS; round++) {
      const cost = this.#costOfSet(bag, alone, -1);
      if (cost > best) best = cost;
      if (!this.#dropEasy(alone)) break;
    }
    return best;
  }

  /**
   * The same, and per ticket how much less it would be without that ticket; without several it is less by no more than the
   * sum, for what a ticket adds to mean busy times only grows with the company.
   */
  costWithout(bag: HandBag, alone: Float64Array): { readonly cost: number; readonly less: Float64Array } {
    const cost = this.cost(bag, alone);
    let set = Uint8Array.from(alone, () => 0);
    if (bag.work.hands > 0 && this.#gather(bag) >= 2)
      for (let round = 0; round < ROUNDS; round++) {
        if (this.#costOfSet(bag, alone, -1) >= cost) {
          set = Uint8Array.from(this.#inside);
          break;
        }
        if (!this.#dropEasy(alone)) break;
      }
    const less = Float64Array.from(alone, (own, ticket) => {
      if (set[ticket] === 0) return own;
      this.#inside.set(set);
      return cost - this.#costOfSet(bag, alone, ticket);
    });
    return { cost, less };
  }

  /** Of the set as it stands, `without` one. */
  #costOfSet(bag: HandBag, alone: Float64Array, without: number): number {
    if (without >= 0) this.#inside[without] = 0;
    this.#run(bag);
    let cost = 0;
    for (let ticket = 0; ticket < alone.length; ticket++)
      if (ticket !== without) cost += this.#inside[ticket] === 0 ? alone[ticket]! : this.#lateness(ticket);
    return cost;
  }

  /** Takes out of the set what alone says more of; false where nothing is. */
  #dropEasy(alone: Float64Array): boolean {
    let dropped = false;
    for (let ticket = 0; ticket < alone.length; ticket++) {
      if (this.#inside[ticket] === 0 || this.#lateness(ticket) >= alone[ticket]!) continue;
      this.#inside[ticket] = 0;
      dropped = true;
    }
    return dropped;
  }

  #gather(bag: HandBag): number {
    const some = this.#work.gather(bag);
    for (let ticket = 0; ticket < this.#inside.length; ticket++)
      this.#inside[ticket] = this.#work.minutes[ticket]! > 0 ? 1 : 0;
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
        const worth = this.#tickets[ticket]!.latePerHour / this.#work.minutes[ticket]!;
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
        this.#middle[ticket]! += (spent * (now + spent / 2) * hands) / this.#work.minutes[ticket]!;
        this.#left[chosen]! -= spent;
        now += spent;
      }
      if (now >= next) open++;
    }
  }

  /** May be below 0: the sum counts, not the ticket. */
  #lateness(ticket: number): number {
    return ((this.#middle[ticket]! + this.#work.late[ticket]!) * this.#tickets[ticket]!.latePerHour) / 60;
  }
}

const ROUNDS = 4;
