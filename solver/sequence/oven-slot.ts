/**
 * When and how one load is fired in its oven: the earliest staffed interval that takes it, venting or pre-heating
 * before the door opens, a clean burn where one is owed, and the firing that costs least in gas and minutes.
 */
import type { DayModel } from "../day/day-model.ts";
import type { FiringOption } from "../heat/options.ts";
import type { Recipe } from "../loads/recipe.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Interval, Oven, ThermalCycle } from "../shop.ts";
import type { DoorStart, EmptySlot, Idle } from "./idle-oven.ts";
import { IdleOven } from "./idle-oven.ts";
import type { PlannedLoad } from "./sequence.ts";

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
  /** See PlannedLoad. */
  readonly burnsFirst: boolean;
  /** Whole minute from which every pan of the load may go in. */
  readonly earliestOpen: number;
  /** The load must be done by then: the next held load of this oven. */
  readonly doneBy: number;
  readonly setPointC: number;
  readonly preheat: PlannedLoad["preheat"];
  readonly coastMinutes: number | null;
  readonly minutePrice: number;
  readonly heatCreditPerK: number;
}

/** A slot and what it is thought to cost. */
interface Priced {
  readonly slot: OvenSlot;
  readonly price: number;
}

/** The cooler chamber tried next where no firing keeps every window, K. */
const COOLER_STEP_K = 25;
/** Pre-heats tried: so much of the way from the chamber as it is to the set-point of the bake. */
const PREHEAT_SHARES = [1, 0.6];
/** A pre-heat that gains less is not worth lighting the burner for, K. */
const LEAST_PREHEAT_K = 5;

export class OvenSlots {
  readonly #day: DayModel;
  readonly #book: RecipeBook;
  readonly #bucketK: number;
  /** Per oven; null in a fixed cycle. */
  readonly #idle: readonly (IdleOven | null)[];

  /** `bucketK`: firings are looked up for the chamber temperature rounded to it. */
  constructor(book: RecipeBook, bucketK: number) {
    this.#day = book.day;
    this.#book = book;
    this.#bucketK = bucketK;
    const { ovens } = book.day.request;
    this.#idle = ovens.map(({ cycle }) => (cycle.kind === "thermal" ? new IdleOven(book.day, cycle, bucketK) : null));
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
    const inUse = oven.outUntilMinute ?? 0;
    const doorOpens = Math.max(question.earliestOpen, Math.ceil(question.free), interval.from, inUse);
    const doorCloses = doorOpens + oven.cycle.loadMinutes;
    const unload = doorCloses + question.recipe.cycleMinutes!;
    const done = unload + oven.cycle.unloadMinutes;
    if (!this.#isStaffed(question, oven, interval, { doorCloses, unload, done })) return undefined;
    const gasKWh = (oven.cycle.gasKW * question.recipe.cycleMinutes!) / 60;
    const unheated = { ventMinutes: 0, chamberStartC: question.chamberC, chamberAtDoneC: question.chamberC };
    return { before: [], doorOpens, doorCloses, option: null, unload, done, gasKWh, ...unheated };
  }

  /** Loading lies in this interval; so does the whole firing where it is attended, else unloading lies in any. */
  #isStaffed(
    { doneBy }: SlotQuestion,
    { attended }: Oven,
    { to }: Interval,
    { doorCloses, unload, done }: Pick<OvenSlot, "doorCloses" | "unload" | "done">,
  ): boolean {
    if (doorCloses > to || done > doneBy) return false;
    if (done <= to) return true;
    return !attended && this.#day.request.staffed.some((other) => unload >= other.from && done <= other.to);
  }

  #thermalSlot(question: SlotQuestion, oven: Oven, cycle: ThermalCycle, interval: Interval): OvenSlot | undefined {
    const idleOven = this.#idle[question.recipe.oven]!;
    const usable = Math.max(
      Math.ceil(question.free),
      Math.ceil(this.#day.request.planFromMinute),
      oven.outUntilMinute ?? 0,
    );
    const from = oven.attended ? Math.max(usable, interval.from) : usable;
    const open = Math.max(question.earliestOpen, from, interval.from);
    const shut: Idle = { free: question.free, chamberC: question.chamberC, before: [], from, open };
    const owesBurn = question.soiled && (question.recipe.needsClean || question.burnsFirst);
    let best: Priced | undefined;
    const windows = oven.attended ? this.#windows(interval, usable) : [{ from, to: Infinity }];
    const idles = owesBurn ? windows.flatMap((window) => idleOven.cleaned(shut, window)) : [shut];
    for (const idle of idles)
      for (const { start, lowSetPointC } of this.#starts(question, cycle, idleOven, idle, windows)) {
        const priced = this.#bestFiring(question, { oven, cycle, interval, start, lowSetPointC });
        if (priced !== undefined && (best === undefined || priced.price < best.price - TINY)) best = priced;
      }
    return best?.slot;
  }

  /** When an attended oven may be fired empty before a door in this interval: in the same one, or in one before. */
  #windows(interval: Interval, usable: number): Interval[] {
    const before = this.#day.request.staffed.filter(({ from, to }) => from < interval.from && to > usable);
    return [interval, ...before].map(({ from, to }) => ({ from: Math.max(usable, from), to }));
  }

  /** Doors that may open on this oven: as it is, cooler where that is too hot for every window, or pre-heated. */
  *#starts(
    question: SlotQuestion,
    cycle: ThermalCycle,
    oven: IdleOven,
    idle: Idle,
    windows: readonly Interval[],
  ): Generator<Start> {
    const plain = oven.doorStart(idle, cycle.doorLimitC);
    let fires = false;
    if (plain !== undefined) {
      fires = this.#book.firings(question.recipe, plain.chamberC, this.#bucketK).length > 0;
      if (fires) yield { start: plain, lowSetPointC: 0 };
    }
    const hottestC = Math.min(oven.chamberAt(idle, idle.open, 0), cycle.doorLimitC);
    for (
      let limitC = hottestC - COOLER_STEP_K;
      !fires && limitC > this.#day.request.ambientC;
      limitC -= COOLER_STEP_K
    ) {
      const start = oven.doorStart(idle, limitC);
      if (start === undefined) continue;
      fires = this.#book.firings(question.recipe, start.chamberC, this.#bucketK).length > 0;
      if (fires) yield { start, lowSetPointC: 0 };
    }
    if (question.preheat === "never") return;
    for (const window of windows)
      for (const setPointC of this.#preheats(question, cycle, oven, idle, window)) {
        const start = oven.preheated(idle, setPointC, window);
        if (start !== undefined) yield { start, lowSetPointC: setPointC };
      }
  }

  /** The least-cost firing for a door that opens as `start` says. */
  #bestFiring(question: SlotQuestion, at: FiringPlace): Priced | undefined {
    const { oven, cycle, interval, start, lowSetPointC } = at;
    const doorCloses = start.doorOpens + cycle.loadMinutes;
    let best: FiringOption | undefined;
    let bestPrice = Infinity;
    for (const option of this.#book.firings(question.recipe, start.chamberC, this.#bucketK)) {
      if (option.setPointC < lowSetPointC) continue;
      if (question.setPointC !== 0 && option.setPointC !== question.setPointC) continue;
      const unload = doorCloses + option.unloadMinutes;
      const done = unload + cycle.unloadMinutes;
      if (!this.#isStaffed(question, oven, interval, { doorCloses, unload, done })) continue;
      const price = this.#price(question, option, done);
      if (price >= bestPrice - TINY) continue;
      best = option;
      bestPrice = price;
    }
    if (best === undefined) {
      best = this.#leftInside(question, at);
      if (best === undefined) return undefined;
      bestPrice = this.#price(question, best, doorCloses + best.unloadMinutes + cycle.unloadMinutes);
    }
    const { recipe, coastMinutes } = question;
    const coasted =
      coastMinutes === null ? undefined : this.#book.coasted(recipe, start.chamberC, this.#bucketK, best, coastMinutes);
    if (coasted !== undefined) {
      const unload = doorCloses + coasted.unloadMinutes;
      const done = unload + cycle.unloadMinutes;
      if (this.#isStaffed(question, oven, interval, { doorCloses, unload, done })) {
        best = coasted;
        bestPrice = this.#price(question, coasted, done);
      }
    }
    const emptyKWh = start.before.reduce((sum, empty) => sum + empty.gasKWh, 0);
    const unload = doorCloses + best.unloadMinutes;
    const slot: OvenSlot = {
      before: start.before,
      ventMinutes: start.ventMinutes,
      doorOpens: start.doorOpens,
      doorCloses,
      option: best,
      unload,
      done: unload + cycle.unloadMinutes,
      gasKWh: best.gasKWh + emptyKWh,
      chamberStartC: start.chamberC,
      chamberAtDoneC: best.chamberAtDoneC,
    };
    return { slot, price: bestPrice + emptyKWh * this.#day.request.prices.gasPerKWh };
  }

  /** A firing on little gas that cools down in the oven until somebody is there again; undefined in an oven that must be attended. */
  #leftInside(question: SlotQuestion, { oven, interval, start, lowSetPointC }: FiringPlace): FiringOption | undefined {
    const { recipe, setPointC, doneBy } = question;
    const { loadMinutes, unloadMinutes } = oven.cycle;
    const doorCloses = start.doorOpens + loadMinutes;
    if (oven.attended || doorCloses > interval.to) return undefined;
    const options = this.#book
      .firings(recipe, start.chamberC, this.#bucketK)
      .filter((one) => one.setPointC >= lowSetPointC && (setPointC === 0 || one.setPointC === setPointC));
    for (const option of options.toSorted((a, b) => a.gasKWh - b.gasKWh)) {
      const could = doorCloses + option.unloadMinutes;
      const back = this.#day.request.staffed.find(({ from, to }) => from >= could && from + unloadMinutes <= to);
      if (back === undefined || back.from + unloadMinutes > doneBy) continue;
      const left = this.#book.coasted(recipe, start.chamberC, this.#bucketK, option, back.from - could);
      if (left === undefined || doorCloses + left.unloadMinutes + unloadMinutes > Math.min(back.to, doneBy)) continue;
      return left;
    }
    return undefined;
  }

  #price({ minutePrice, heatCreditPerK }: SlotQuestion, option: FiringOption, done: number): number {
    const { gasPerKWh } = this.#day.request.prices;
    return option.gasKWh * gasPerKWh + done * minutePrice - option.chamberAtDoneC * heatCreditPerK;
  }

  /** Set-points worth pre-heating to while the pans are not ready yet. */
  #preheats(question: SlotQuestion, cycle: ThermalCycle, oven: IdleOven, idle: Idle, window: Interval): number[] {
    const by = Math.min(window.to, idle.open);
    if (by - Math.max(window.from, idle.free) < cycle.purgeMinutes + 2) return [];
    const nowC = oven.chamberAt(idle, by, 0);
    const worthIt = (setPointC: number): boolean => setPointC > nowC + LEAST_PREHEAT_K;
    if (typeof question.preheat === "number") return [question.preheat].filter(worthIt);
    const cold = this.#book.firings(question.recipe, this.#day.request.ambientC, this.#bucketK);
    const lowest = cold.length === 0 ? cycle.setPointMaxC : Math.min(...cold.map((option) => option.setPointC));
    const bakeC = question.setPointC === 0 ? lowest : question.setPointC;
    const highestC = Math.min(bakeC, cycle.doorLimitC, cycle.setPointMaxC);
    const step = cycle.setPointStepC;
    const wanted = PREHEAT_SHARES.map((share) => Math.floor((nowC + share * (highestC - nowC)) / step) * step);
    return [...new Set(wanted)].filter((setPointC) => worthIt(setPointC) && setPointC <= highestC);
  }
}

interface Start {
  readonly start: DoorStart;
  /** The bake after a pre-heat may not have a lower set-point than it, °C. */
  readonly lowSetPointC: number;
}

interface FiringPlace extends Start {
  readonly oven: Oven;
  readonly cycle: ThermalCycle;
  readonly interval: Interval;
}

/** Prices that differ by less are equal. */
const TINY = 1e-12;
