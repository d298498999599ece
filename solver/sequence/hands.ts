/** Bench and booth for one load at a time: when each of its pans is ready for the oven, and how long it may wait. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { ShopState } from "./shop-state.ts";
import type { StaffedTime } from "./staffed-time.ts";

export class Hands {
  readonly #day: DayModel;
  readonly #staffed: StaffedTime;
  /** Per bake: ready for spraying (or for the oven, where nothing is sprayed). */
  readonly #ready: Float64Array;
  /** Per bake: end of spraying, or -1 where nothing is sprayed. */
  readonly #sprayEnd: Float64Array;
  readonly #order: number[] = [];

  constructor(day: DayModel, staffed: StaffedTime) {
    this.#day = day;
    this.#staffed = staffed;
    this.#ready = new Float64Array(day.bakes.length);
    this.#sprayEnd = new Float64Array(day.bakes.length);
  }

  /** Preps and sprays all bakes at the earliest gaps; false where bench or booth has no time. */
  prepare(state: ShopState, bakes: readonly number[]): boolean {
    let sprays = false;
    for (const bake of bakes) {
      const { pan, step, kind } = this.#day.bakes[bake]!;
      const ready = this.prep(state, pan, step);
      if (ready < 0) return false;
      this.#ready[bake] = ready;
      this.#sprayEnd[bake] = -1;
      sprays ||= !this.isUnsprayed(pan, step, this.#day.kinds[kind]!);
    }
    if (!sprays) return true;
    for (const bake of this.#inOrder(bakes)) if (!this.#spray(state, bake, this.#ready[bake]!)) return false;
    return true;
  }

  /** First ready, first sprayed; the same paint together. Void when asked again. */
  #inOrder(bakes: readonly number[]): readonly number[] {
    const order = this.#order;
    order.length = 0;
    for (const bake of bakes) {
      let at = order.length;
      for (; at > 0 && this.#isSooner(bake, order[at - 1]!); at--) order[at] = order[at - 1]!;
      order[at] = bake;
    }
    return order;
  }

  #isSooner(one: number, other: number): boolean {
    const minutes = this.#ready[one]! - this.#ready[other]!;
    if (minutes !== 0) return minutes < 0;
    const paints = this.#kind(one).paint - this.#kind(other).paint;
    return paints === 0 ? one < other : paints < 0;
  }

  /** When the pan is ready for its due coat `step`, its bench work done if that is its first; -1 where no bench has time. */
  prep(state: ShopState, pan: number, step: number): number {
    const { request, pans } = this.#day;
    const { prepMinutes } = request.lines[pans[pan]!.line]!;
    const ready = Math.max(state.panRelease[pan]!, request.planFromMinute);
    if (step > 0 || prepMinutes === 0) return ready;
    const from = Math.ceil(ready);
    const start =
      request.benches > 0
        ? state.bench.insert(from, prepMinutes, 0, pan, this.#staffed)
        : this.#staffed.fit(from, prepMinutes);
    return start < 0 ? -1 : start + prepMinutes;
  }

  /** Where nothing is sprayed the wait counts from when the pan was ready, be that before planning began. */
  waitsFrom(state: ShopState, pan: number, ready: number): number {
    return ready > this.#day.request.planFromMinute ? ready : Math.min(ready, state.panRelease[pan]!);
  }

  /** End of spraying that starts at the earliest moment ≥ `from`; -1 where the booth has no time. */
  sprayEnd(state: ShopState, { coat, paint }: BakeKind, from: number, owner: number): number {
    const { booth } = this.#day.request;
    const earliest = Math.ceil(from);
    const start =
      booth.sprayers > 0
        ? state.booth.insert(earliest, coat.sprayMinutes, paint, owner, this.#staffed)
        : this.#staffed.fit(earliest, coat.sprayMinutes);
    return start < 0 ? -1 : start + coat.sprayMinutes;
  }

  /** Nothing is sprayed on this step: a coat without spray, or one that is on already. */
  isUnsprayed(pan: number, step: number, kind: BakeKind): boolean {
    return kind.coat.sprayMinutes === 0 || (step === 0 && this.#day.request.lines[this.#day.pans[pan]!.line]!.sprayed);
  }

  /** Earliest whole minute at which the door may open for all of them. */
  earliestOpen(bakes: readonly number[]): number {
    let open = this.#day.request.planFromMinute;
    for (const bake of bakes) {
      const sprayEnd = this.#sprayEnd[bake]!;
      open = Math.max(open, sprayEnd < 0 ? this.#ready[bake]! : sprayEnd + this.#kind(bake).coat.flashMinutes);
    }
    return Math.ceil(open);
  }

  /**
   * Sprays those coats later that would wait too long for a door that closes at `doorCloses`.
   * "kept": none would; "moved": ask the oven again; "hopeless": one cannot be kept.
   */
  sprayLater(state: ShopState, bakes: readonly number[], doorCloses: number): "kept" | "moved" | "hopeless" {
    const waiting = bakes.filter((bake) => doorCloses > this.#waitEnds(bake));
    if (waiting.length === 0) return "kept";
    for (const bake of waiting) {
      const { coat } = this.#kind(bake);
      if (this.#sprayEnd[bake]! < 0) return "hopeless";
      if (this.#day.request.booth.sprayers > 0) state.booth.remove(bake);
      if (!this.#spray(state, bake, doorCloses - coat.maxWaitMinutes! - coat.sprayMinutes)) return "hopeless";
    }
    return "moved";
  }

  /** Takes back every task of these bakes. */
  withdraw(state: ShopState, bakes: readonly number[]): void {
    for (const bake of bakes) {
      const { pan, step } = this.#day.bakes[bake]!;
      if (step === 0) state.bench.remove(pan);
      state.booth.remove(bake);
    }
  }

  #kind(bake: number): BakeKind {
    return this.#day.kinds[this.#day.bakes[bake]!.kind]!;
  }

  #spray(state: ShopState, bake: number, from: number): boolean {
    const { pan, step } = this.#day.bakes[bake]!;
    const kind = this.#kind(bake);
    this.#sprayEnd[bake] = -1;
    if (this.isUnsprayed(pan, step, kind)) return true;
    const end = this.sprayEnd(state, kind, Math.max(from, this.#ready[bake]!), bake);
    this.#sprayEnd[bake] = end;
    return end >= 0;
  }

  /** Latest door closing that the wait of this coat allows. */
  #waitEnds(bake: number): number {
    const { maxWaitMinutes } = this.#kind(bake).coat;
    if (maxWaitMinutes === null) return Infinity;
    const sprayEnd = this.#sprayEnd[bake]!;
    return (sprayEnd < 0 ? this.#waitsFrom(bake) : sprayEnd) + maxWaitMinutes;
  }

  /** A pan that came ready before planning began has waited since then, though nothing starts before `planFrom`. */
  #waitsFrom(bake: number): number {
    const { pan, step } = this.#day.bakes[bake]!;
    const { readyMinute, prepMinutes } = this.#day.request.lines[this.#day.pans[pan]!.line]!;
    return step === 0 && prepMinutes === 0 ? readyMinute : this.#ready[bake]!;
  }
}
