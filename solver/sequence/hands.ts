/** Bench and booth for one load at a time: when each of its pans is ready for the oven, and how long it may wait. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { ShopState } from "./shop-state.ts";
import type { HandTask } from "./hand-tasks.ts";
import { countTasks, kindOf, taskOf } from "./hand-tasks.ts";
import type { StaffedTime } from "./staffed-time.ts";

export class Hands {
  readonly #day: DayModel;
  readonly #staffed: StaffedTime;
  /** Per task: ready for spraying (or for the oven, where nothing is sprayed). */
  readonly #ready: Float64Array;
  /** Per task: end of spraying, or -1 where nothing is sprayed. */
  readonly #sprayEnd: Float64Array;
  readonly #order: number[] = [];

  constructor(day: DayModel, staffed: StaffedTime) {
    this.#day = day;
    this.#staffed = staffed;
    this.#ready = new Float64Array(countTasks(day));
    this.#sprayEnd = new Float64Array(countTasks(day));
  }

  /** Preps and sprays all pans of a load, by their tasks, at the earliest gaps; false where bench or booth has no time. */
  prepare(state: ShopState, tasks: readonly number[]): boolean {
    let sprays = false;
    for (const task of tasks) {
      const asked = taskOf(this.#day, task);
      const ready = this.#prep(state, asked);
      if (ready < 0) return false;
      this.#ready[task] = ready;
      this.#sprayEnd[task] = -1;
      sprays ||= !this.#isUnsprayed(asked, this.#kind(task));
    }
    if (!sprays) return true;
    for (const task of this.#inOrder(tasks)) if (!this.#spray(state, task, this.#ready[task]!)) return false;
    return true;
  }

  /** First ready, first sprayed; the same paint together. Void when asked again. */
  #inOrder(tasks: readonly number[]): readonly number[] {
    const order = this.#order;
    order.length = 0;
    for (const task of tasks) {
      let at = order.length;
      for (; at > 0 && this.#isSooner(task, order[at - 1]!); at--) order[at] = order[at - 1]!;
      order[at] = task;
    }
    return order;
  }

  #isSooner(one: number, other: number): boolean {
    const minutes = this.#ready[one]! - this.#ready[other]!;
    if (minutes !== 0) return minutes < 0;
    const paints = this.#kind(one).paint - this.#kind(other).paint;
    return paints === 0 ? one < other : paints < 0;
  }

  /** When the pan is ready for this coat, its bench work done if that is its first; -1 where no bench has time. */
  #prep(state: ShopState, { pan, step }: HandTask): number {
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

  /** Nothing is sprayed on this step: a coat without spray, or one that is on already. */
  #isUnsprayed({ pan, step }: HandTask, { coat }: BakeKind): boolean {
    const { request, pans } = this.#day;
    return coat.sprayMinutes === 0 || (step === 0 && request.lines[pans[pan]!.line]!.sprayed);
  }

  /** Earliest whole minute at which the door may open for all of them. */
  earliestOpen(tasks: readonly number[]): number {
    let open = this.#day.request.planFromMinute;
    for (const task of tasks) {
      const sprayEnd = this.#sprayEnd[task]!;
      open = Math.max(open, sprayEnd < 0 ? this.#ready[task]! : sprayEnd + this.#kind(task).coat.flashMinutes);
    }
    return Math.ceil(open);
  }

  /**
   * Sprays those coats later that would wait too long for a door that closes at `doorCloses`.
   * "kept": none would; "moved": ask the oven again; "hopeless": one cannot be kept.
   */
  sprayLater(state: ShopState, tasks: readonly number[], doorCloses: number): "kept" | "moved" | "hopeless" {
    const waiting = tasks.filter((task) => doorCloses > this.#waitEnds(state, task));
    if (waiting.length === 0) return "kept";
    for (const task of waiting) {
      const { coat } = this.#kind(task);
      if (this.#sprayEnd[task]! < 0) return "hopeless";
      if (this.#day.request.booth.sprayers > 0) state.booth.remove(task);
      if (!this.#spray(state, task, doorCloses - coat.maxWaitMinutes! - coat.sprayMinutes)) return "hopeless";
    }
    return "moved";
  }

  /** Takes back all work for these. */
  withdraw(state: ShopState, tasks: readonly number[]): void {
    for (const task of tasks) {
      const { pan, step } = taskOf(this.#day, task);
      if (step === 0) state.bench.remove(pan);
      state.booth.remove(task);
    }
  }

  #kind(task: number): BakeKind {
    return kindOf(this.#day, task);
  }

  #spray(state: ShopState, task: number, from: number): boolean {
    this.#sprayEnd[task] = -1;
    const kind = this.#kind(task);
    if (this.#isUnsprayed(taskOf(this.#day, task), kind)) return true;
    const { booth } = this.#day.request;
    const { coat, paint } = kind;
    const earliest = Math.ceil(Math.max(from, this.#ready[task]!));
    const start =
      booth.sprayers > 0
        ? state.booth.insert(earliest, coat.sprayMinutes, paint, task, this.#staffed)
        : this.#staffed.fit(earliest, coat.sprayMinutes);
    if (start >= 0) this.#sprayEnd[task] = start + coat.sprayMinutes;
    return start >= 0;
  }

  /** Latest door closing that the wait of this coat allows. */
  #waitEnds(state: ShopState, task: number): number {
    const { maxWaitMinutes } = this.#kind(task).coat;
    if (maxWaitMinutes === null) return Infinity;
    const sprayEnd = this.#sprayEnd[task]!;
    return (sprayEnd < 0 ? this.#waitsFrom(state, task) : sprayEnd) + maxWaitMinutes;
  }

  /** Where nothing is sprayed the wait counts from when the pan was ready, be that before planning began. */
  #waitsFrom(state: ShopState, task: number): number {
    const ready = this.#ready[task]!;
    if (ready > this.#day.request.planFromMinute) return ready;
    return Math.min(ready, state.panRelease[taskOf(this.#day, task).pan]!);
  }
}
