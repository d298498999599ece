/**
 * When and how one load is fired in its oven: the earliest staffed interval that takes it, venting or pre-heating
 * before the door opens, a clean burn where one is owed, and the firing that costs least in gas and minutes.
 */
import { chamberAfterIdle, chamberAfterVent } from "../heat/chamber.ts";
import { emptyFiring } from "../heat/empty-firing.ts";
import type { FiringOption } from "../heat/options.ts";
import type { DayModel } from "../day/day-model.ts";
import type { Recipe, RecipeBook } from "../loads/recipe.ts";
import type { Interval, Oven, ThermalCycle } from "../shop.ts";

/** A firing without pans, before the load in the same slot. */
export interface EmptySlot {
  readonly kind: "clean burn" | "preheat";
  readonly setPointC: number;
  readonly from: number;
  readonly to: number;
  readonly gasKWh: number;
}

export interface OvenSlot {
  readonly before: readonly EmptySlot[];
  readonly ventMinutes: number;
  readonly doorOpens: number;
  readonly doorCloses: number;
  /** Null in a fixed cycle. */
  readonly option: FiringOption | null;
  readonly unload: number;
  readonly done: number;
  /** Gas of the load and of the empty firings before it. */
  readonly gasKWh: number;
  readonly chamberStartC: number;
  readonly chamberAtDoneC: number;
}

export interface SlotQuestion {
  readonly recipe: Recipe;
  /** End of the oven's last firing and its chamber then. */
  readonly free: number;
  readonly chamberC: number;
  readonly soiled: boolean;
  /** Whole minute from which every pan of the load may go in. */
  readonly earliestOpen: number;
  /** The load must be done by then: the next held load of this oven. */
  readonly doneBy: number;
  readonly setPointC: number;
  readonly preheat: "auto" | "never";
  readonly minutePrice: number;
  readonly heatCreditPerK: number;
}

export class OvenSlots {
  readonly #day: DayModel;
  readonly #book: RecipeBook;
  readonly #bucketK: number;
  readonly #empties = new Map<string, EmptyRun | null>();

  /** `bucketK`: firings are looked up for the chamber temperature rounded to it. */
  constructor(book: RecipeBook, bucketK: number) {
    this.#day = book.day;
    this.#book = book;
    this.#bucketK = bucketK;
  }

  /** The slot of least cost in the earliest staffed interval that has one, or undefined. */
  slot(question: SlotQuestion): OvenSlot | undefined {
    const { request } = this.#day;
    const oven = request.ovens[question.recipe.oven]!;
    for (const interval of request.staffed) {
      if (interval.to <= question.earliestOpen || interval.to <= question.free) continue;
      if (interval.from >= question.doneBy) return undefined;
      const found =
        oven.cycle.kind === "fixed"
          ? this.#fixedSlot(question, oven, interval)
          : this.#thermalSlot(question, oven, oven.cycle, interval);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  #fixedSlot(question: SlotQuestion, oven: Oven, interval: Interval): OvenSlot | undefined {
    if (oven.cycle.kind !== "fixed") return undefined;
    if (question.soiled && question.recipe.needsClean) return undefined;
    const doorOpens = Math.max(question.earliestOpen, Math.ceil(question.free), interval.from);
    const doorCloses = doorOpens + oven.cycle.loadMinutes;
    const unload = doorCloses + question.recipe.cycleMinutes!;
    const done = unload + oven.cycle.unloadMinutes;
    if (doorCloses > interval.to || done > question.doneBy) return undefined;
    if (done > interval.to && (oven.attended || !this.#doorWorkFits(unload, done))) return undefined;
    const gasKWh = (oven.cycle.gasKW * question.recipe.cycleMinutes!) / 60;
    const unheated = { ventMinutes: 0, chamberStartC: question.chamberC, chamberAtDoneC: question.chamberC };
    return { before: [], doorOpens, doorCloses, option: null, unload, done, gasKWh, ...unheated };
  }

  #doorWorkFits(unload: number, done: number): boolean {
    return this.#day.request.staffed.some((interval) => unload >= interval.from && done <= interval.to);
  }

  #thermalSlot(question: SlotQuestion, oven: Oven, cycle: ThermalCycle, interval: Interval): OvenSlot | undefined {
    const idleFrom = Math.ceil(question.free);
    const from = Math.max(idleFrom, Math.ceil(this.#day.request.planFromMinute), oven.attended ? interval.from : 0);
    let best: OvenSlot | undefined;
    let bestPrice = Infinity;
    const offer = (start: DoorStart | undefined, lowSetPointC: number): void => {
      if (start === undefined) return;
      const slot = this.#bestFiring(question, oven, cycle, interval, start, lowSetPointC);
      if (slot === undefined) return;
      const price = this.#price(question, slot);
      if (price < bestPrice - 1e-12) {
        best = slot;
        bestPrice = price;
      }
    };
    const open = Math.max(question.earliestOpen, from, interval.from);
    const burns =
      question.soiled && question.recipe.needsClean ? this.#cleanBurns(question, cycle, from, open) : [null];
    for (const burn of burns) {
      const free = burn === null ? question.free : burn.slot.to;
      const chamberC = burn === null ? question.chamberC : burn.chamberAtDoneC;
      const before = burn === null ? [] : [burn.slot];
      const idle: Idle = {
        free,
        chamberC,
        before,
        from: Math.max(from, Math.ceil(free)),
        open: Math.max(open, Math.ceil(free)),
      };
      offer(this.#doorStart(cycle, idle, cycle.doorLimitC), 0);
      if (best === undefined) this.#cooler(question, cycle, idle, offer, () => best !== undefined);
      if (question.preheat === "auto")
        for (const setPointC of this.#preheats(question, cycle, idle))
          offer(this.#preheated(cycle, idle, setPointC), setPointC);
    }
    return best;
  }

  #price(question: SlotQuestion, slot: OvenSlot): number {
    return (
      slot.gasKWh * this.#day.request.prices.gasPerKWh +
      slot.done * question.minutePrice -
      slot.chamberAtDoneC * question.heatCreditPerK
    );
  }

  /** The least-cost firing for a door that opens as `start` says. */
  #bestFiring(
    question: SlotQuestion,
    oven: Oven,
    cycle: ThermalCycle,
    interval: Interval,
    start: DoorStart,
    lowSetPointC: number,
  ): OvenSlot | undefined {
    const { recipe } = question;
    const options = this.#book.firings(recipe, start.chamberC, this.#bucketK);
    const doorCloses = start.doorOpens + cycle.loadMinutes;
    let best: FiringOption | undefined;
    let bestPrice = Infinity;
    for (const option of options) {
      if (option.setPointC < lowSetPointC) continue;
      if (question.setPointC !== 0 && option.setPointC !== question.setPointC) continue;
      const unload = doorCloses + option.unloadMinutes;
      const done = unload + cycle.unloadMinutes;
      if (done > question.doneBy || doorCloses > interval.to) continue;
      if (done > interval.to && (oven.attended || !this.#doorWorkFits(unload, done))) continue;
      const price =
        option.gasKWh * this.#day.request.prices.gasPerKWh +
        done * question.minutePrice -
        option.chamberAtDoneC * question.heatCreditPerK;
      if (price < bestPrice - 1e-12) {
        best = option;
        bestPrice = price;
      }
    }
    if (best === undefined) return undefined;
    const unload = doorCloses + best.unloadMinutes;
    return {
      before: start.before,
      ventMinutes: start.ventMinutes,
      doorOpens: start.doorOpens,
      doorCloses,
      option: best,
      unload,
      done: unload + cycle.unloadMinutes,
      gasKWh: best.gasKWh + start.before.reduce((sum, empty) => sum + empty.gasKWh, 0),
      chamberStartC: start.chamberC,
      chamberAtDoneC: best.chamberAtDoneC,
    };
  }

  /** The earliest opening at or after `idle.open` with the chamber at most at `limitC`, venting as little as it takes. */
  #doorStart(cycle: ThermalCycle, idle: Idle, limitC: number): DoorStart | undefined {
    for (let doorOpens = idle.open; doorOpens <= idle.open + LONGEST_VENT_MINUTES; doorOpens++) {
      const mostVent = doorOpens - idle.from;
      if (this.#chamberAt(cycle, idle, doorOpens, 0) <= limitC)
        return { before: idle.before, doorOpens, ventMinutes: 0, chamberC: this.#chamberAt(cycle, idle, doorOpens, 0) };
      if (mostVent <= 0 || this.#chamberAt(cycle, idle, doorOpens, mostVent) > limitC) continue;
      let low = 0;
      let high = mostVent;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (this.#chamberAt(cycle, idle, doorOpens, middle) <= limitC) high = middle;
        else low = middle;
      }
      return {
        before: idle.before,
        doorOpens,
        ventMinutes: high,
        chamberC: this.#chamberAt(cycle, idle, doorOpens, high),
      };
    }
    return undefined;
  }

  #chamberAt(cycle: ThermalCycle, idle: Idle, minute: number, ventMinutes: number): number {
    const { ambientC } = this.#day.request;
    const idleC = chamberAfterIdle(cycle, ambientC, idle.chamberC, minute - ventMinutes - idle.free);
    return ventMinutes === 0 ? idleC : chamberAfterVent(cycle, ambientC, idleC, ventMinutes);
  }

  /** No firing keeps every window from this heat: let the chamber fall further, step by step, until one does. */
  #cooler(
    question: SlotQuestion,
    cycle: ThermalCycle,
    idle: Idle,
    offer: (start: DoorStart | undefined, lowSetPointC: number) => void,
    found: () => boolean,
  ): void {
    const hottestC = Math.min(this.#chamberAt(cycle, idle, idle.open, 0), cycle.doorLimitC);
    for (let limitC = hottestC - COOLER_STEP_K; limitC > this.#day.request.ambientC; limitC -= COOLER_STEP_K) {
      offer(this.#doorStart(cycle, idle, limitC), 0);
      if (found()) return;
    }
  }

  /** Set-points worth pre-heating to while the pans are not ready yet. */
  #preheats(question: SlotQuestion, cycle: ThermalCycle, idle: Idle): number[] {
    if (idle.open - idle.from < cycle.purgeMinutes + 2) return [];
    const cold = this.#book.firings(question.recipe, this.#day.request.ambientC, this.#bucketK);
    const lowest = cold.length === 0 ? cycle.setPointMaxC : Math.min(...cold.map((option) => option.setPointC));
    const bakeC = question.setPointC === 0 ? lowest : question.setPointC;
    const highestC = Math.min(bakeC, cycle.doorLimitC, cycle.setPointMaxC);
    const nowC = this.#chamberAt(cycle, idle, idle.open, 0);
    const step = cycle.setPointStepC;
    const wanted = [1, 0.6].map((share) => Math.floor((nowC + share * (highestC - nowC)) / step) * step);
    return [...new Set(wanted)].filter((setPointC) => setPointC > nowC + 5 && setPointC <= highestC);
  }

  /** A pre-heat that ends as the door opens. */
  #preheated(cycle: ThermalCycle, idle: Idle, setPointC: number): DoorStart | undefined {
    let from = Math.max(idle.from, idle.open - 30);
    for (let round = 0; round < 4; round++) {
      const run = this.#empty(cycle, this.#chamberAt(cycle, idle, from, 0), setPointC, 0);
      if (run === undefined) return undefined;
      if (from + run.minutes === idle.open || (from + run.minutes < idle.open && round === 3))
        return this.#afterEmpty(
          cycle,
          idle,
          { kind: "preheat", setPointC, from, to: from + run.minutes, gasKWh: run.gasKWh },
          run.chamberAtDoneC,
        );
      from = idle.open - run.minutes;
      if (from < idle.from) return undefined;
    }
    return undefined;
  }

  #afterEmpty(cycle: ThermalCycle, idle: Idle, slot: EmptySlot, chamberAtDoneC: number): DoorStart | undefined {
    const after: Idle = {
      free: slot.to,
      chamberC: chamberAtDoneC,
      before: [...idle.before, slot],
      from: slot.to,
      open: idle.open,
    };
    return this.#doorStart(cycle, after, cycle.doorLimitC);
  }

  /** Clean burns before this load: as soon as the oven is free, and so late that it ends as the pans are ready. */
  #cleanBurns(question: SlotQuestion, cycle: ThermalCycle, from: number, open: number): CleanRun[] {
    const burn = this.#day.request.mixing.cleanBurn;
    if (burn === null || burn.setPointC > cycle.setPointMaxC) return [];
    const idle: Idle = { free: question.free, chamberC: question.chamberC, before: [], from, open };
    const runs: CleanRun[] = [];
    const firstRun = this.#empty(cycle, this.#chamberAt(cycle, idle, from, 0), burn.setPointC, burn.holdMinutes);
    if (firstRun === undefined) return [];
    for (const start of new Set([from, Math.max(from, open - firstRun.minutes)])) {
      const run = this.#empty(cycle, this.#chamberAt(cycle, idle, start, 0), burn.setPointC, burn.holdMinutes);
      if (run === undefined) continue;
      const slot: EmptySlot = {
        kind: "clean burn",
        setPointC: burn.setPointC,
        from: start,
        to: start + run.minutes,
        gasKWh: run.gasKWh,
      };
      runs.push({ slot, chamberAtDoneC: run.chamberAtDoneC });
    }
    return runs;
  }

  #empty(cycle: ThermalCycle, chamberC: number, setPointC: number, holdMinutes: number): EmptyRun | undefined {
    const bucket = Math.round(chamberC / this.#bucketK);
    const key = `${this.#day.request.ovens.findIndex((oven) => oven.cycle === cycle)}/${bucket}/${setPointC}/${holdMinutes}`;
    const known = this.#empties.get(key);
    if (known !== undefined) return known ?? undefined;
    const run = emptyFiring(cycle, this.#day.request.ambientC, bucket * this.#bucketK, setPointC, holdMinutes);
    this.#empties.set(key, run ?? null);
    return run;
  }
}

interface EmptyRun {
  readonly minutes: number;
  readonly gasKWh: number;
  readonly chamberAtDoneC: number;
}

interface CleanRun {
  readonly slot: EmptySlot;
  readonly chamberAtDoneC: number;
}

/** An oven standing shut since `free`; hands may touch it from `from` on, the pans are ready at `open`. */
interface Idle {
  readonly free: number;
  readonly chamberC: number;
  readonly before: readonly EmptySlot[];
  readonly from: number;
  readonly open: number;
}

interface DoorStart {
  readonly before: readonly EmptySlot[];
  readonly doorOpens: number;
  readonly ventMinutes: number;
  readonly chamberC: number;
}

const LONGEST_VENT_MINUTES = 720;
const COOLER_STEP_K = 25;
