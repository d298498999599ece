/**
 * For a load whose door opens on a chamber: the firing that costs least in gas and minutes while somebody is there to take it out, or
 * one on little gas that cools down in an oven that needs nobody.
 */
import type { DayModel } from "../day/day-model.ts";
import type { FiringOption } from "../heat/options.ts";
import type { Recipe } from "../loads/recipe.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Interval, Oven, ThermalCycle } from "../shop.ts";
import type { DoorStart, EmptySlot } from "./idle-oven.ts";
import type { PlannedLoad } from "./sequence.ts";

/** A load's time in its oven. Minutes of the request's clock, chambers in °C. */
export interface OvenSlot {
  /** Of the load's arrangements the one that this firing bakes. */
  readonly recipe: Recipe;
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

/** Minutes of the request's clock, °C; prices in money. */
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

/** A slot and what it is thought to cost, money. */
export interface Priced {
  readonly slot: OvenSlot;
  readonly price: number;
}

/** A door that may open, and what its chamber asks of the firing. */
export interface Start {
  readonly start: DoorStart;
  /** The bake after a pre-heat may not have a lower set-point than it, °C. */
  readonly lowSetPointC: number;
}

export interface FiringPlace extends Start {
  readonly oven: Oven;
  readonly cycle: ThermalCycle;
  readonly interval: Interval;
}

export class BestFirings {
  readonly #day: DayModel;
  readonly #book: RecipeBook;
  readonly #bucketK: number;

  /** `bucketK`: firings are looked up for the chamber temperature rounded to it. */
  constructor(book: RecipeBook, bucketK: number) {
    this.#day = book.day;
    this.#book = book;
    this.#bucketK = bucketK;
  }

  /** The least-cost firing for a door that opens as `start` says. */
  at(question: SlotQuestion, at: FiringPlace): Priced | undefined {
    const { oven, cycle, interval, start } = at;
    const options = this.#firings(question, at);
    const doorCloses = start.doorOpens + cycle.loadMinutes;
    let best: FiringOption | undefined;
    let bestPrice = Infinity;
    for (const option of options) {
      const unload = doorCloses + option.unloadMinutes;
      const done = unload + cycle.unloadMinutes;
      if (!this.isStaffed(question, oven, interval, { doorCloses, unload, done })) continue;
      const price = this.#price(question, option, done);
      if (price >= bestPrice - TINY) continue;
      best = option;
      bestPrice = price;
    }
    if (best === undefined) {
      best = this.#leftInside(options, question, at);
      if (best === undefined) return undefined;
      bestPrice = this.#price(question, best, doorCloses + best.unloadMinutes + cycle.unloadMinutes);
    }
    const { recipe, coastMinutes } = question;
    const coasted =
      coastMinutes === null ? undefined : this.#book.coasted(recipe, start.chamberC, this.#bucketK, best, coastMinutes);
    if (coasted !== undefined) {
      const unload = doorCloses + coasted.unloadMinutes;
      const done = unload + cycle.unloadMinutes;
      if (this.isStaffed(question, oven, interval, { doorCloses, unload, done })) {
        best = coasted;
        bestPrice = this.#price(question, coasted, done);
      }
    }
    const emptyKWh = start.before.reduce((sum, empty) => sum + empty.gasKWh, 0);
    const unload = doorCloses + best.unloadMinutes;
    const slot: OvenSlot = {
      recipe,
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

  /** At the set-point told, or at any; none lower than the pre-heat. */
  #firings({ recipe, setPointC }: SlotQuestion, { start, lowSetPointC }: FiringPlace): readonly FiringOption[] {
    if (setPointC !== 0 && setPointC < lowSetPointC) return [];
    const options =
      setPointC === 0
        ? this.#book.firings(recipe, start.chamberC, this.#bucketK)
        : this.#book.firingsAt(recipe, start.chamberC, this.#bucketK, setPointC);
    return lowSetPointC === 0 ? options : options.filter((option) => option.setPointC >= lowSetPointC);
  }

  /** A firing on little gas that cools down in the oven until somebody is there again; undefined in an oven that must be attended. */
  #leftInside(
    options: readonly FiringOption[],
    { recipe, doneBy }: SlotQuestion,
    { oven, interval, start }: FiringPlace,
  ): FiringOption | undefined {
    const { loadMinutes, unloadMinutes } = oven.cycle;
    const doorCloses = start.doorOpens + loadMinutes;
    if (oven.attended || doorCloses > interval.to) return undefined;
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

  /** Loading lies in this interval; so does the whole firing where it is attended, else unloading lies in any. */
  isStaffed(
    { doneBy }: SlotQuestion,
    { attended }: Oven,
    { to }: Interval,
    { doorCloses, unload, done }: Pick<OvenSlot, "doorCloses" | "unload" | "done">,
  ): boolean {
    if (doorCloses > to || done > doneBy) return false;
    if (done <= to) return true;
    return !attended && this.#day.request.staffed.some((other) => unload >= other.from && done <= other.to);
  }
}

/** Prices that differ by less are equal. */
export const TINY = 1e-12;
