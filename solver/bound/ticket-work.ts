/** What each ticket still asks of one sort of hands, and how long after the middle of that work its promise has passed. */
import type { Ticket } from "../day/day-model.ts";
import type { HandBag } from "./hand-bag.ts";

const NONE = -1;

export class TicketWork {
  readonly #tickets: readonly Ticket[];
  /** Per ticket: minutes of its tasks; 0 where it has none or nothing is lost by being late. */
  readonly minutes: Float64Array;
  /** Per ticket: minutes by the hands' clock from the middle of its work to its hand-over at the soonest, less those to its promise. */
  readonly late: Float64Array;
  /** Per ticket: the first task of its last group, tasks with the same tail being one. */
  readonly #group: Int32Array;
  /** Per first task of a group: that of the group before it, minutes of all its tasks, and those weighted with their spans. */
  #before = new Int32Array(0);
  #minutes = new Float64Array(0);
  #spans = new Float64Array(0);

  constructor(tickets: readonly Ticket[]) {
    this.#tickets = tickets;
    this.minutes = new Float64Array(tickets.length);
    this.late = new Float64Array(tickets.length);
    this.#group = new Int32Array(tickets.length);
  }

  /** Answers how many tickets compete. */
  gather(bag: HandBag): number {
    this.minutes.fill(0);
    this.#group.fill(NONE);
    if (this.#before.length < bag.count) {
      this.#before = new Int32Array(bag.count);
      this.#minutes = new Float64Array(bag.count);
      this.#spans = new Float64Array(bag.count);
    }
    for (let task = 0; task < bag.count; task++) this.#add(bag, task);
    let some = 0;
    for (let ticket = 0; ticket < this.#group.length; ticket++) {
      if (this.minutes[ticket] === 0) continue;
      some++;
      this.late[ticket] = this.#latest(bag, ticket);
    }
    return some;
  }

  #add(bag: HandBag, task: number): void {
    const ticket = bag.tickets[task]!;
    const minutes = bag.minutes[task]!;
    if (ticket < 0 || minutes === 0) return;
    const { promised, latePerHour } = this.#tickets[ticket]!;
    if (promised === null || latePerHour <= 0) return;
    this.minutes[ticket]! += minutes;
    let group = this.#group[ticket]!;
    while (group !== NONE && bag.readyTails[group] !== bag.readyTails[task]) group = this.#before[group]!;
    if (group === NONE) {
      group = task;
      this.#before[group] = this.#group[ticket]!;
      this.#group[ticket] = group;
      this.#minutes[group] = 0;
      this.#spans[group] = 0;
    }
    this.#minutes[group]! += minutes;
    this.#spans[group]! += minutes * bag.spans[task]!;
  }

  /**
   * The last of a group ends half of the group's work after its middle, and any of its tasks half a span after its own: the mean
   * over all groups. Or all of the ticket's work as one group, with the shortest tail.
   */
  #latest(bag: HandBag, ticket: number): number {
    const { hands, clock } = bag.work;
    const { promised } = this.#tickets[ticket]!;
    let mean = 0;
    let shortest = Infinity;
    for (let group = this.#group[ticket]!; group !== NONE; group = this.#before[group]!) {
      const minutes = this.#minutes[group]!;
      const half = Math.max(minutes / hands, this.#spans[group]! / minutes) / 2;
      mean += minutes * (half - clock.read(promised! - bag.readyTails[group]!));
      shortest = Math.min(shortest, bag.readyTails[group]!);
    }
    const all = this.minutes[ticket]!;
    return Math.max(mean / all, all / hands / 2 - clock.read(promised! - shortest));
  }
}
