/** An oven standing shut between two loads: how it cools, when its door may open, which empty firings fit in. */
import type { DayModel } from "../day/day-model.ts";
import { chamberAfterIdle, chamberAfterVent } from "../heat/chamber.ts";
import { emptyFiring } from "../heat/empty-firing.ts";
import { cleanBurnSetPointC } from "../loads/mixing.ts";
import type { Interval, ThermalCycle } from "../shop.ts";

/** A firing without pans, before the load in the same slot. */
export interface EmptySlot {
  readonly kind: "clean burn" | "preheat";
  readonly setPointC: number;
  readonly from: number;
  readonly to: number;
  readonly gasKWh: number;
}

/** Shut since `free` at `chamberC`; hands may touch it from `from` on, the pans are ready at `open`. Minutes. */
export interface Idle {
  readonly free: number;
  readonly chamberC: number;
  readonly before: readonly EmptySlot[];
  readonly from: number;
  readonly open: number;
}

/** A door that may open: when, after how many minutes of venting, on which chamber. */
export interface DoorStart {
  readonly before: readonly EmptySlot[];
  readonly doorOpens: number;
  readonly ventMinutes: number;
  readonly chamberC: number;
}

/** No shop waits longer than this for an oven to cool, minutes. */
export const LONGEST_VENT_MINUTES = 720;
/** A pre-heat is first thought to last so long, minutes; then as long as it takes. */
const LIKELY_PREHEAT_MINUTES = 30;
const PREHEAT_ROUNDS = 4;

export class IdleOven {
  readonly #day: DayModel;
  readonly #cycle: ThermalCycle;
  readonly #bucketK: number;
  readonly #empties = new Map<string, EmptyRun | null>();

  /** `bucketK`: empty firings are worked out for the chamber temperature rounded to it. */
  constructor(day: DayModel, cycle: ThermalCycle, bucketK: number) {
    this.#day = day;
    this.#cycle = cycle;
    this.#bucketK = bucketK;
  }

  /** Chamber at `minute` with the fan run over the last `ventMinutes`, °C. */
  chamberAt(idle: Idle, minute: number, ventMinutes: number): number {
    const { ambientC } = this.#day.request;
    const idleC = chamberAfterIdle(this.#cycle, ambientC, idle.chamberC, minute - ventMinutes - idle.free);
    return ventMinutes === 0 ? idleC : chamberAfterVent(this.#cycle, ambientC, idleC, ventMinutes);
  }

  /** The earliest opening at or after `idle.open` with the chamber at most at `limitC`, venting as little as it takes. */
  doorStart(idle: Idle, limitC: number): DoorStart | undefined {
    for (let doorOpens = idle.open; doorOpens <= idle.open + LONGEST_VENT_MINUTES; doorOpens++) {
      const ventMinutes = this.#leastVent(idle, doorOpens, limitC);
      if (ventMinutes === undefined) continue;
      return { before: idle.before, doorOpens, ventMinutes, chamberC: this.chamberAt(idle, doorOpens, ventMinutes) };
    }
    return undefined;
  }

  /**
   * The chambers of at most `limitC` (°C) on which the door may open at `minute`, no sooner than `idle.from`: with the fan run as few
   * minutes as that takes, and more.
   */
  *doorsAt(idle: Idle, minute: number, limitC: number): Generator<DoorStart> {
    const least = this.#leastVent(idle, minute, limitC);
    if (least === undefined) return;
    for (let ventMinutes = least; ventMinutes <= minute - idle.from; ventMinutes++) {
      const chamberC = this.chamberAt(idle, minute, ventMinutes);
      yield { before: idle.before, doorOpens: minute, ventMinutes, chamberC };
    }
  }

  /**
   * The door after a pre-heat to `setPointC` in the window that ends as the pans are ready or the window does, or as soon before as
   * whole minutes allow.
   */
  preheated(idle: Idle, setPointC: number, window: Interval): DoorStart | undefined {
    const soonest = Math.max(window.from, Math.ceil(idle.free));
    const by = Math.min(window.to, idle.open);
    let from = Math.max(soonest, by - LIKELY_PREHEAT_MINUTES);
    let last: { readonly slot: EmptySlot; readonly chamberC: number } | undefined;
    for (let round = 1; round <= PREHEAT_ROUNDS; round++) {
      const run = this.#empty(this.chamberAt(idle, from, 0), setPointC, 0);
      if (run === undefined) return undefined;
      const to = from + run.minutes;
      const { gasKWh, chamberAtDoneC: chamberC } = run;
      // A minute later the chamber may be so much cooler that the pre-heat takes a minute more.
      if (to <= by && to > (last?.slot.to ?? -Infinity))
        last = { slot: { kind: "preheat", setPointC, from, to, gasKWh }, chamberC };
      if (to === by) break;
      from = by - run.minutes;
      if (from < soonest) break;
    }
    return last && this.doorStart(afterEmpty(idle, last.slot, last.chamberC), this.#cycle.doorLimitC);
  }

  /** The oven after a clean burn in the window: one as soon as may be, one so late that it ends as the pans are ready or the window does. */
  cleaned(idle: Idle, { from: first, to: last }: Interval): Idle[] {
    const { mixing } = this.#day.request;
    const setPointC = cleanBurnSetPointC(mixing, this.#cycle);
    if (setPointC === undefined) return [];
    const { holdMinutes } = mixing.cleanBurn!;
    const runFrom = (from: number): EmptyRun | undefined =>
      this.#empty(this.chamberAt(idle, from, 0), setPointC, holdMinutes);
    const soonest = runFrom(first);
    if (soonest === undefined) return [];
    const by = Math.min(last, idle.open);
    const late = by - soonest.minutes;
    // By then the chamber may be so much cooler that the burn takes longer.
    const latest = late <= first ? first : Math.max(first, by - (runFrom(late)?.minutes ?? 0));
    return [...new Set([first, latest])].flatMap((from) => {
      const run = runFrom(from);
      if (run === undefined || from + run.minutes > last) return [];
      const slot: EmptySlot = { kind: "clean burn", setPointC, from, to: from + run.minutes, gasKWh: run.gasKWh };
      return [afterEmpty(idle, slot, run.chamberAtDoneC)];
    });
  }

  #leastVent(idle: Idle, doorOpens: number, limitC: number): number | undefined {
    if (this.chamberAt(idle, doorOpens, 0) <= limitC) return 0;
    let high = doorOpens - idle.from;
    if (high <= 0 || this.chamberAt(idle, doorOpens, high) > limitC) return undefined;
    let low = 0;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.chamberAt(idle, doorOpens, middle) <= limitC) high = middle;
      else low = middle;
    }
    return high;
  }

  #empty(chamberC: number, setPointC: number, holdMinutes: number): EmptyRun | undefined {
    const bucket = Math.round(chamberC / this.#bucketK);
    const key = `${bucket}/${setPointC}/${holdMinutes}`;
    const known = this.#empties.get(key);
    if (known !== undefined) return known ?? undefined;
    const run = emptyFiring(this.#cycle, this.#day.request.ambientC, bucket * this.#bucketK, setPointC, holdMinutes);
    this.#empties.set(key, run ?? null);
    return run;
  }
}

interface EmptyRun {
  readonly minutes: number;
  readonly gasKWh: number;
  readonly chamberAtDoneC: number;
}

function afterEmpty(idle: Idle, slot: EmptySlot, chamberC: number): Idle {
  const open = Math.max(idle.open, slot.to);
  return { free: slot.to, chamberC, before: [...idle.before, slot], from: Math.max(idle.from, slot.to), open };
}
