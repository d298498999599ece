/**
 * When and how one load is fired in its oven: the earliest staffed interval that takes it, venting or pre-heating
 * before the door opens, a clean burn where one is owed, and the firing that costs least in gas and minutes.
 */
import type { DayModel } from "../day/day-model.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import { SEARCH_BUCKET_K } from "../loads/recipe-book.ts";
import type { Interval, Oven, ThermalCycle } from "../shop.ts";
import type { OvenSlot, Priced, SlotQuestion, Start } from "./best-firing.ts";
import { BestFirings, TINY } from "./best-firing.ts";
import type { DoorStart, Idle } from "./idle-oven.ts";
import { IdleOven, LONGEST_VENT_MINUTES } from "./idle-oven.ts";

/** Where no firing keeps every window, one chamber is looked at in every so many K; the other where chambers are rounded and pans many. */
const COOLER_STEP_K = 1;
const COOLER_STEP_OF_MANY_K = 25;
/** So much may rounding have moved a chamber out of a range that bakes a load. */
const NEXT_BUCKETS = [0, -1, 1];
/** Pre-heats tried: so much of the way from the chamber as it is to the set-point of the bake. */
const PREHEAT_SHARES = [1, 0.6];
/** A pre-heat that gains less is not worth lighting the burner for, K. */
const LEAST_PREHEAT_K = 5;

export class OvenSlots {
  readonly #day: DayModel;
  readonly #book: RecipeBook;
  readonly #bucketK: number;
  readonly #coolerStepK: number;
  readonly #firings: BestFirings;
  /** Per oven; null in a fixed cycle. */
  readonly #idle: readonly (IdleOven | null)[];

  /** `bucketK`: firings are looked up for the chamber temperature rounded to it. */
  constructor(book: RecipeBook, bucketK: number) {
    this.#day = book.day;
    this.#book = book;
    this.#bucketK = bucketK;
    const isRough = bucketK >= SEARCH_BUCKET_K;
    this.#coolerStepK = isRough && !book.asksEach ? COOLER_STEP_OF_MANY_K : Math.max(COOLER_STEP_K, bucketK);
    this.#firings = new BestFirings(book, bucketK);
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
          : this.#bestArranged(question, oven, oven.cycle, interval);
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
    if (!this.#firings.isStaffed(question, oven, interval, { doorCloses, unload, done })) return undefined;
    const gasKWh = (oven.cycle.gasKW * question.recipe.cycleMinutes!) / 60;
    const unheated = { ventMinutes: 0, chamberStartC: question.chamberC, chamberAtDoneC: question.chamberC };
    return {
      recipe: question.recipe,
      before: [],
      doorOpens,
      doorCloses,
      option: null,
      unload,
      done,
      gasKWh,
      ...unheated,
    };
  }

  #bestArranged(question: SlotQuestion, oven: Oven, cycle: ThermalCycle, interval: Interval): OvenSlot | undefined {
    let best = this.#toldSlot(question, oven, cycle, interval);
    for (const recipe of question.recipe.others) {
      const priced = this.#toldSlot({ ...question, recipe }, oven, cycle, interval);
      if (priced !== undefined && (best === undefined || priced.price < best.price - TINY)) best = priced;
    }
    return best?.slot;
  }

  /**
   * Where chambers are rounded, the set-point told may just miss the windows that it keeps: any other then stands for it, since a
   * sequence that lost the load would look far dearer than it is.
   */
  #toldSlot(question: SlotQuestion, oven: Oven, cycle: ThermalCycle, interval: Interval): Priced | undefined {
    const found = this.#thermalSlot(question, oven, cycle, interval);
    if (found !== undefined || question.setPointC === 0 || this.#bucketK < SEARCH_BUCKET_K) return found;
    return this.#thermalSlot({ ...question, setPointC: 0 }, oven, cycle, interval);
  }

  #thermalSlot(question: SlotQuestion, oven: Oven, cycle: ThermalCycle, interval: Interval): Priced | undefined {
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
        const priced = this.#firings.at(question, { oven, cycle, interval, start, lowSetPointC });
        if (priced !== undefined && (best === undefined || priced.price < best.price - TINY)) best = priced;
      }
    return best;
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
      const start = this.#firing(question, plain);
      fires = start !== undefined;
      if (start !== undefined) yield { start, lowSetPointC: 0 };
    }
    if (!fires) yield* this.#cooler(question, cycle, oven, idle);
    if (question.preheat === "never") return;
    for (const window of windows)
      for (const setPointC of this.#preheats(question, cycle, oven, idle, window)) {
        const start = oven.preheated(idle, setPointC, window);
        if (start !== undefined) yield { start, lowSetPointC: setPointC };
      }
  }

  /** The door if its chamber bakes the load; where chambers are rounded, also if the next on either side does. */
  #firing({ recipe }: SlotQuestion, start: DoorStart): DoorStart | undefined {
    for (const buckets of this.#bucketK < SEARCH_BUCKET_K ? [0] : NEXT_BUCKETS) {
      const chamberC = start.chamberC + buckets * this.#bucketK;
      if (this.#book.firings(recipe, chamberC, this.#bucketK).length > 0) return { ...start, chamberC };
    }
    return undefined;
  }

  /**
   * The first minute at which a chamber cooled by the fan or by waiting bakes the load, with each such chamber. Whole minutes of
   * burner and fan leave narrow ranges of them where windows hardly meet, so that larger steps would pass over most.
   */
  *#cooler({ recipe }: SlotQuestion, cycle: ThermalCycle, oven: IdleOven, idle: Idle): Generator<Start> {
    const { ambientC } = this.#day.request;
    const asked = new Set<number>();
    let fires = false;
    for (let minute = idle.open; !fires && minute <= idle.open + LONGEST_VENT_MINUTES; minute++) {
      let coolestC = Infinity;
      for (const start of oven.doorsAt(idle, minute, cycle.doorLimitC)) {
        coolestC = start.chamberC;
        const step = Math.round(start.chamberC / this.#coolerStepK);
        if (asked.has(step)) continue;
        asked.add(step);
        if (this.#book.firings(recipe, start.chamberC, this.#bucketK).length === 0) continue;
        fires = true;
        yield { start, lowSetPointC: 0 };
      }
      if (coolestC < ambientC + this.#coolerStepK) return;
    }
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
