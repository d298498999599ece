/** Tasks of one sort of hands that are still to do, gathered afresh for each label: when they can be through at the soonest. */
import type { HandsAtWork } from "./busy.ts";
import { TASK } from "./busy.ts";

export class HandBag {
  readonly work: HandsAtWork;
  count = 0;
  readonly heads: Float64Array;
  readonly minutes: Float64Array;
  /** From begin to end of what the task is part of: its load where an oven shares its time among bakes, else the task itself. */
  readonly spans: Float64Array;
  readonly paints: Int32Array;
  /** From the end of the task to the last done of its pan, and to the hand-over of its ticket. */
  readonly tails: Float64Array;
  readonly readyTails: Float64Array;
  /** -1: of no ticket that counts. */
  readonly tickets: Int32Array;
  readonly #order: Int32Array;

  constructor(work: HandsAtWork, most: number) {
    this.work = work;
    this.heads = new Float64Array(most);
    this.minutes = new Float64Array(most);
    this.spans = new Float64Array(most);
    this.paints = new Int32Array(most);
    this.tails = new Float64Array(most);
    this.readyTails = new Float64Array(most);
    this.tickets = new Int32Array(most);
    this.#order = new Int32Array(most);
  }

  add(head: number, minutes: number, paint: number, tail: number, readyTail: number, ticket: number): void {
    const at = this.count++;
    this.heads[at] = head;
    this.minutes[at] = minutes;
    this.spans[at] = minutes;
    this.paints[at] = paint;
    this.tails[at] = tail;
    this.readyTails[at] = readyTail;
    this.tickets[at] = ticket;
  }

  /** Tasks of loads that the label has, in a list of busy.ts: their pans too are done no sooner than their tails say. */
  addList(tasks: readonly number[]): void {
    for (let at = 0; at < tasks.length; at += TASK)
      this.add(tasks[at]!, tasks[at + 1]!, tasks[at + 2]!, tasks[at + 4]!, 0, -1);
  }

  /** Latest head first. */
  sorted(): Int32Array {
    const { heads } = this;
    const order = this.#order;
    for (let at = 0; at < this.count; at++) {
      let place = at;
      while (place > 0 && heads[order[place - 1]!]! < heads[at]!) {
        order[place] = order[place - 1]!;
        place--;
      }
      order[place] = at;
    }
    return order;
  }

  /** No plan's last done is sooner: over all heads r and tails q, r + the work between + q. */
  finish(): number {
    const { hands, changeoverMinutes, freeChangeovers, clock, breaks } = this.work;
    if (hands === 0 || this.count === 0) return -Infinity;
    const order = this.sorted();
    let finish = -Infinity;
    for (let at = 0; at < this.count; at++) {
      const tail = this.tails[at]!;
      let minutes = 0;
      let paints = 0;
      let colours = 0;
      for (let next = 0; next < this.count; next++) {
        const one = order[next]!;
        if (this.tails[one]! < tail) continue;
        minutes += this.minutes[one]!;
        const bit = 1 << (this.paints[one]! % 31);
        if ((paints & bit) === 0) {
          paints |= bit;
          colours++;
        }
        const span = (minutes + Math.max(0, colours - freeChangeovers) * changeoverMinutes) / hands;
        const head = this.heads[one]!;
        if (head + span + tail <= finish && !breaks) continue;
        const end = breaks ? clock.minuteOf(clock.read(head) + span) : head + span;
        if (end + tail > finish) finish = end + tail;
      }
    }
    return finish;
  }
}
