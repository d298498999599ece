/**
 * How urgent it is to open a load for a group of bakes: what its ticket's lateness costs, discounted by the time there still is,
 * with the lateness of a pan left over as one more promise (apparent tardiness cost; Vepsalainen and Morton, Priority rules for job
 * shops with weighted tardiness costs, Management Science 33, 1987; from memory).
 */
import type { DayModel } from "../day/day-model.ts";
import type { Group } from "./dispatch-keys.ts";
import { followingMinutes, LIKELY_BAKE_MINUTES } from "./following.ts";

/** What is left over until the next morning costs as if it were paid for so many hours late. */
const LEFT_OVER_HOURS = 10;

export class Urgency {
  readonly #day: DayModel;
  readonly #groups: readonly Group[];
  /** Per group: minutes from the door to the hand-over, about. */
  readonly #toHandOver: Float64Array;
  /** Per ticket: money an hour for being left over, lateness until the morning included. */
  readonly #leftOverPerHour: Float64Array;

  constructor(day: DayModel, groups: readonly Group[]) {
    const { request, bakes, pans, tickets, horizonEnd } = day;
    this.#day = day;
    this.#groups = groups;
    this.#toHandOver = Float64Array.from(groups, (group) => {
      const { pan, step } = bakes[group.bakes[0]!]!;
      return LIKELY_BAKE_MINUTES + followingMinutes(day, pan, step) + request.finishMinutes;
    });
    this.#leftOverPerHour = Float64Array.from(tickets, ({ promised, latePerHour, pans: own }) => {
      const lateMinutes = promised === null ? 0 : request.nextOpenMinute - Math.max(promised, horizonEnd);
      const prices = own.reduce((sum, pan) => sum + request.lines[pans[pan]!.line]!.leftOverCost, 0);
      return (prices + (Math.max(0, lateMinutes) * latePerHour) / 60) / LEFT_OVER_HOURS;
    });
  }

  /** Money an hour, for a door at minute `open`; a promise so far away as `patienceMinutes` counts for a third of one that is due. */
  of(group: number, open: number, patienceMinutes: number): number {
    const { ticket } = this.#groups[group]!;
    const { promised, latePerHour } = this.#day.tickets[ticket]!;
    const handOver = open + this.#toHandOver[group]!;
    const late = promised === null ? 0 : latePerHour * discount(promised - handOver, patienceMinutes);
    return late + this.#leftOverPerHour[ticket]! * discount(this.#day.horizonEnd - handOver, patienceMinutes);
  }
}

function discount(slackMinutes: number, patienceMinutes: number): number {
  return Math.exp(-Math.max(0, slackMinutes) / patienceMinutes);
}
