/**
 * Lateness that no later load can take back: a pan with coats still to come is handed over no sooner than these take, from its
 * release and from when an oven comes free. Added to the cost so far, it ends the timing of a poor sequence sooner.
 */
import { bakeTimes } from "../bound/bake-times.ts";
import type { DayModel } from "../day/day-model.ts";
import { leadMinutes } from "./ready.ts";
import type { ShopState } from "./shop-state.ts";

export class SureLateness {
  readonly #day: DayModel;
  /** Those with a promise. */
  readonly #tickets: readonly number[];
  /** Per pan: where its coats begin in the next two, which end where those of the next pan begin. */
  readonly #coatsFrom: Int32Array;
  /** Per pan and due coat, while that coat is its next: minutes to the hand-over at least, from its release and from a door. */
  readonly #afterRelease: Float64Array;
  readonly #afterDoor: Float64Array;

  constructor(day: DayModel) {
    this.#day = day;
    this.#tickets = [...day.tickets.keys()].filter((ticket) => day.tickets[ticket]!.promised !== null);
    this.#coatsFrom = new Int32Array(day.pans.length + 1);
    day.pans.forEach(({ due }, pan) => (this.#coatsFrom[pan + 1] = this.#coatsFrom[pan]! + due.length));
    const coats = this.#coatsFrom[day.pans.length]!;
    this.#afterRelease = new Float64Array(coats);
    this.#afterDoor = new Float64Array(coats).fill(-Infinity);
    const inHand = day.kinds.map((_, kind) => leastToHand(day, kind));
    day.pans.forEach(({ due }, pan) => {
      let rest = day.request.finishMinutes;
      for (let step = due.length - 1; step >= 0; step--) {
        const { bake, kind } = due[step]!;
        const at = this.#coatsFrom[pan]! + step;
        // A held coat is passed with its load, whatever happens to the others.
        if (bake !== null) {
          this.#afterDoor[at] = inHand[kind]! + day.kinds[kind]!.coat.inspectMinutes + rest;
          rest = leadMinutes(day, bake) + this.#afterDoor[at]!;
        }
        this.#afterRelease[at] = rest;
      }
    });
  }

  /** Money beyond the lateness that the state itself counts; no oven opens its door before `door`, minutes. */
  cost(state: ShopState, door: number): number {
    let cost = 0;
    for (const ticket of this.#tickets) {
      if (state.ticketOpen[ticket] === 0) continue;
      const { pans, promised, latePerHour } = this.#day.tickets[ticket]!;
      const counted = Math.max(state.ticketReady[ticket]!, promised!);
      let ready = counted;
      for (const pan of pans) {
        const at = this.#coatsFrom[pan]! + state.panStep[pan]!;
        if (at >= this.#coatsFrom[pan + 1]!) continue;
        const released = state.panRelease[pan]! + this.#afterRelease[at]!;
        if (released > ready) ready = released;
        const fired = door + this.#afterDoor[at]!;
        if (fired > ready) ready = fired;
      }
      cost += ((ready - counted) * latePerHour) / 60;
    }
    return cost;
  }
}

/** Minutes from a door that opens for it until a pan of this kind may be handled, in the oven that is quickest. */
function leastToHand(day: DayModel, kind: number): number {
  const own = day.kinds[kind]!;
  const minutes = own.ovens.flatMap((oven) => {
    const times = bakeTimes(day, own, oven);
    return times === undefined ? [] : [times.loadMinutes + times.handleMinutes];
  });
  // What no oven bakes is left over, and its ticket as late as can be.
  return minutes.length === 0 ? 0 : Math.min(...minutes);
}
