/** Held loads on their way through the timetable: facts first, pinned loads when their oven comes to them. */
import type { DayModel } from "../day/day-model.ts";
import type { HeldLoad } from "../shop.ts";
import type { Hands } from "./hands.ts";
import type { HeldOutcome } from "./held-loads.ts";
import { heldNeedsClean, heldSoils, runHeld } from "./held-loads.ts";
import type { ShopState } from "./shop-state.ts";

export class HeldPassage {
  readonly #day: DayModel;
  readonly #hands: Hands;
  readonly #of: readonly (readonly HeldLoad[])[];
  /** Per held load: when each of its pans may be handled; for pinned loads from the hottest chamber they allow. */
  readonly #cooled = new Map<HeldLoad, readonly number[]>();

  constructor(day: DayModel, hands: Hands) {
    this.#day = day;
    this.#hands = hands;
    this.#of = day.request.ovens.map((_, oven) => day.request.held.filter((load) => load.oven === oven));
  }

  /** Runs the facts of every oven from its first chamber temperature and lets the pans out of them. */
  start(state: ShopState): void {
    const { request } = this.#day;
    request.ovens.forEach((oven, index) => {
      const fact = this.#of[index]!.find((load) => load.state !== "pinned");
      state.ovenFree[index] = fact === undefined ? request.planFromMinute : fact.doorOpens;
      state.ovenChamberC[index] = oven.cycle.kind === "thermal" ? oven.cycle.startC : request.ambientC;
      const soiling = request.mixing.cleanBurn?.after ?? [];
      state.ovenSoiled[index] = oven.lastGroups.some((group) => soiling.includes(group)) ? 1 : 0;
      for (const load of this.#of[index]!) {
        if (load.state === "pinned") this.#cooled.set(load, this.#hottestCooled(load));
        else this.#cooled.set(load, this.pass(state, index).cooled);
      }
    });
  }

  /** The next held load of the oven, if any is left. */
  next(state: ShopState, oven: number): HeldLoad | undefined {
    return this.#of[oven]![state.heldPassed[oven]!];
  }

  /** Runs the oven's next held load. */
  pass(state: ShopState, oven: number): HeldOutcome {
    const load = this.next(state, oven)!;
    const outcome = runHeld(this.#day, load, state.ovenFree[oven]!, state.ovenChamberC[oven]!);
    const soiled = state.ovenSoiled[oven] === 1;
    const late = load.state === "pinned" && load.doorOpens - load.ventMinutes < state.ovenFree[oven]!;
    const dirty = load.state === "pinned" && soiled && heldNeedsClean(this.#day, load);
    if (late || dirty || !outcome.sound) state.broken++;
    state.ovenSoiled[oven] = load.kind === "clean burn" ? 0 : soiled || heldSoils(this.#day, load) ? 1 : 0;
    state.ovenFree[oven] = load.done;
    state.ovenChamberC[oven] = outcome.chamberAtDoneC;
    state.gasKWh += outcome.gasKWh;
    state.lastDone = Math.max(state.lastDone, load.done);
    state.heldPassed[oven]!++;
    return outcome;
  }

  /** A pinned load still works from the chamber and the soil that a slot before it leaves. */
  keeps(next: HeldLoad, soils: boolean, done: number, chamberC: number): boolean {
    if (soils && heldNeedsClean(this.#day, next)) return false;
    return runHeld(this.#day, next, done, chamberC).sound;
  }

  /** Steps over the coats of a pan that stand in held loads, minding their times; true when all its coats are done. */
  skipSteps(state: ShopState, pan: number): boolean {
    const { due } = this.#day.pans[pan]!;
    for (;;) {
      const next = due[state.panStep[pan]!];
      if (next === undefined) return true;
      if (next.held === null) return false;
      const { load } = next.held;
      const kind = this.#day.kinds[next.kind]!;
      if (load.state === "pinned" && !this.#readyForPinned(state, pan, load)) state.broken++;
      state.panRelease[pan] = this.#cooled.get(load)![load.pans.indexOf(next.held.pan)]! + kind.coat.inspectMinutes;
      state.panStep[pan]!++;
    }
  }

  /** Bench and booth tasks of a pinned load's pan; false where they cannot be done in time. */
  #readyForPinned(state: ShopState, pan: number, load: HeldLoad): boolean {
    const step = state.panStep[pan]!;
    const kind = this.#day.kinds[this.#day.pans[pan]!.due[step]!.kind]!;
    const longestWait = kind.coat.maxWaitMinutes ?? Infinity;
    const ready = this.#hands.prep(state, pan, step);
    if (ready < 0) return false;
    if (this.#hands.isUnsprayed(pan, step, kind))
      return ready <= load.doorOpens && load.doorCloses <= this.#hands.waitsFrom(state, pan, ready) + longestWait;
    const from = Math.max(ready, load.doorCloses - longestWait - kind.coat.sprayMinutes);
    const end = this.#hands.sprayEnd(state, kind, from, heldOwner(this.#day, pan, step));
    return end >= 0 && end + kind.coat.flashMinutes <= load.doorOpens;
  }

  #hottestCooled(load: HeldLoad): readonly number[] {
    const { cycle } = this.#day.request.ovens[load.oven]!;
    const hottestC =
      cycle.kind === "thermal" ? Math.min(cycle.doorLimitC, cycle.setPointMaxC) : this.#day.request.ambientC;
    return runHeld(this.#day, load, load.doorOpens - load.ventMinutes, hottestC).cooled;
  }
}

/** The name of the booth task of a pinned coat in the calendars: bakes come first, then every due coat of every pan. */
export function heldOwner(day: DayModel, pan: number, step: number): number {
  return day.bakes.length + pan * LONGEST_CHAIN + step;
}

/** The pan and due-coat position that `heldOwner` named. */
export function heldOwnerOf(day: DayModel, owner: number): { pan: number; step: number } {
  const rest = owner - day.bakes.length;
  return { pan: Math.floor(rest / LONGEST_CHAIN), step: rest % LONGEST_CHAIN };
}

const LONGEST_CHAIN = 64;
