/**
 * What is sure about the pans that a set leaves out. Taking pans out of a plan leaves a plan of the others that costs no more,
 * as long as their firings may stay as heat without pans: gas of the pans falls away and nobody is later. So the cost of the
 * set alone, with the finish that all pans together ask for and the hand-over that the others' tickets cannot undercut, is a
 * bound for all pans.
 */
import type { DayModel } from "../day/day-model.ts";
import type { Chains } from "./chains.ts";
import { chainsOf } from "./chains.ts";
import { finishFloor } from "./finish-floor.ts";
import { leavable } from "./quick.ts";
import { StaffedClock } from "./staffed-clock.ts";

export class OutsideFloor {
  readonly #day: DayModel;
  readonly #chains: Chains;
  /** By how many coats are left over: the last firing ends no sooner; and what the crew costs until then. */
  readonly #finish: readonly number[];
  readonly #crew: readonly number[];

  constructor(day: DayModel) {
    this.#day = day;
    this.#chains = chainsOf(day);
    const { request } = day;
    const clock = new StaffedClock(request.staffed, request.planFromMinute);
    const finish = finishFloor(day, this.#chains);
    const latestFirst = leavable(day, this.#chains).sort((a, b) => b.done - a.done);
    this.#finish = Array.from({ length: day.bakes.length + 1 }, (_, left) => {
      const ends = finish(left, latestFirst[left]?.done ?? -Infinity);
      return Math.min(ends, day.horizonEnd);
    });
    this.#crew = this.#finish.map((minute) => (clock.read(minute) * request.prices.crewPerHour) / 60);
  }

  leastFinish(left: number): number {
    return this.#finish[Math.min(left, this.#finish.length - 1)]!;
  }

  /** Per ticket: its pans outside are ready no sooner. A pan left over counts as ready when work goes on. */
  ticketBase(inside: ReadonlySet<number>, ticketReady: Float64Array): Float64Array {
    const base = Float64Array.from(ticketReady);
    this.#day.pans.forEach(({ ticket }, pan) => {
      if (inside.has(pan)) return;
      const ready = Math.min(this.#chains.chains[pan]!.ready, this.#day.request.nextOpenMinute);
      base[ticket] = Math.max(base[ticket]!, ready);
    });
    return base;
  }

  /** What leaving pans outside over may save of the crew's time beyond its price. */
  maySave(inside: ReadonlySet<number>): number {
    const { request, pans } = this.#day;
    const charges = pans
      .flatMap(({ line, due }, pan) =>
        inside.has(pan)
          ? []
          : due.filter(({ held }) => held === null).map(() => request.lines[line]!.leftOverCost / due.length),
      )
      .sort((a, b) => a - b);
    let most = 0;
    const coatsInside = pans.reduce((sum, { due }, pan) => sum + (inside.has(pan) ? due.length : 0), 0);
    for (let left = 0; left <= coatsInside; left++) {
      let charged = 0;
      charges.forEach((charge, at) => {
        charged += charge;
        const crew = this.#crew[Math.min(left + at + 1, this.#crew.length - 1)]!;
        most = Math.max(most, this.#crew[Math.min(left, this.#crew.length - 1)]! - crew - charged);
      });
    }
    return most;
  }
}
