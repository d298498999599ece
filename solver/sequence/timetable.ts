/**
 * Sequence → clock times: the only place where times are made. Loads are timed one after another; each takes bench and
 * booth at the earliest gap and its oven at the earliest sound slot.
 */
import type { DayModel } from "../day/day-model.ts";
import { minutesToHandle } from "../heat/cooling.ts";
import type { Recipe } from "../loads/recipe.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import { Hands } from "./hands.ts";
import { HeldPassage } from "./held-passage.ts";
import type { InForcePan } from "./moved.ts";
import { inForcePans, isMoved } from "./moved.ts";
import type { OvenSlot } from "./best-firing.ts";
import { OvenSlots } from "./oven-slot.ts";
import type { PlannedLoad, Resolved, Taste } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";
import { StaffedTime } from "./staffed-time.ts";
import { SureLateness } from "./sure-lateness.ts";

/** A load as timed: `bakes` in the order of `recipe.kinds`. */
export interface TimedLoad {
  readonly bakes: readonly number[];
  readonly recipe: Recipe;
  readonly slot: OvenSlot;
}

/** A held load that cannot be kept costs this much, so that no search keeps the timetable. */
const BROKEN_COST = 1e9;
/** How often a load's coats are sprayed later before the load is given up. */
const REWAITS = 8;
/** How often hands serve a pinned load sooner before its pin is given up. */
const HURRIES = 30;
/** Money that sums in another order may differ by. */
const HAIR = 1e-9;
/** Money per minute that time is worth at least when firings are chosen: an idle shop still has other work. */
const LEAST_MINUTE_PRICE = 1e-3;

export class Timetable {
  readonly day: DayModel;
  readonly book: RecipeBook;
  readonly staffed: StaffedTime;
  readonly held: HeldPassage;
  readonly #hands: Hands;
  readonly #slots: OvenSlots;
  readonly #start: ShopState;
  readonly #minuteRate: number;
  readonly #sureLateness: SureLateness;
  readonly #inForce: readonly (InForcePan | undefined)[];

  /** `bucketK`: see RecipeBook.firings. */
  constructor(book: RecipeBook, bucketK: number) {
    this.book = book;
    this.day = book.day;
    const { request } = this.day;
    this.staffed = new StaffedTime(request.staffed);
    this.#slots = new OvenSlots(book, bucketK);
    this.#hands = new Hands(this.day, this.staffed);
    this.held = new HeldPassage(this.day, this.#hands);
    this.#minuteRate = request.prices.crewPerHour / 60;
    this.#inForce = inForcePans(this.day);
    this.#sureLateness = new SureLateness(this.day);
    this.#start = this.#soundStart();
  }

  /** The shop before any planned load: facts passed, pinned loads still ahead. */
  startState(): ShopState {
    const state = new ShopState(this.day);
    state.copyFrom(this.#start);
    return state;
  }

  /** Times one load and moves the state on; undefined (and no task of it left behind) where it finds no sound place. */
  place(state: ShopState, load: PlannedLoad, taste: Taste): TimedLoad | undefined {
    const { bakes, recipe } = this.#resolve(state, load);
    if (recipe === undefined) return undefined;
    const slot = this.#prepareAndFire(state, load, bakes, recipe, taste);
    if (slot === undefined) {
      this.#hands.withdraw(state, bakes);
      return undefined;
    }
    this.#passLoad(state, load.oven, bakes, slot);
    return { bakes, recipe: slot.recipe, slot };
  }

  /** The bakes of the load whose turn has come, with their recipe. */
  #resolve(state: ShopState, load: PlannedLoad): Resolved {
    for (const bake of load.bakes)
      if (!this.isNext(state, bake))
        return this.#resolved(
          load.oven,
          load.bakes.filter((one) => this.isNext(state, one)),
        );
    return (load.resolved ??= this.#resolved(load.oven, load.bakes, load.shelfSet));
  }

  #resolved(oven: number, some: readonly number[], shelfSet?: readonly number[]): Resolved {
    if (some.length === 0) return { bakes: some, recipe: undefined };
    const all = this.day.bakes;
    const bakes = [...some].sort((a, b) => all[a]!.kind - all[b]!.kind || a - b);
    const kinds = bakes.map((bake) => all[bake]!.kind);
    const told = shelfSet === undefined ? undefined : this.book.recipeOn(oven, kinds, shelfSet);
    return { bakes, recipe: told ?? this.book.recipe(oven, kinds) };
  }

  /** The held loads still ahead are run; call once after the last planned load. */
  finish(state: ShopState): void {
    for (let oven = 0; oven < this.day.request.ovens.length; oven++)
      while (this.held.next(state, oven) !== undefined) this.held.pass(state, oven);
  }

  /** Cost of a finished state. */
  cost(state: ShopState): number {
    const { request, pans, tickets } = this.day;
    let cost = this.costSoFar(state);
    tickets.forEach((ticket, index) => {
      if (state.ticketOpen[index] === 0 || ticket.promised === null) return;
      const counted = Math.max(0, state.ticketReady[index]! - ticket.promised);
      const ready = Math.max(request.nextOpenMinute, state.ticketReady[index]!);
      cost += ((Math.max(0, ready - ticket.promised) - counted) * ticket.latePerHour) / 60;
    });
    pans.forEach(({ due, line }, pan) => {
      const missing = due.length - state.panStep[pan]!;
      cost += (request.lines[line]!.leftOverCost * missing) / due.length;
      if (this.#isDropped(state, pan)) cost += request.prices.movePerPan;
    });
    return cost;
  }

  /** Cost that no later load can take back. */
  costSoFar(state: ShopState): number {
    const { prices, planFromMinute } = this.day.request;
    return (
      state.gasKWh * prices.gasPerKWh +
      this.staffed.minutesBetween(planFromMinute, state.lastDone) * this.#minuteRate +
      state.lateCost +
      state.moved * prices.movePerPan +
      state.broken * BROKEN_COST
    );
  }

  /** No sequence that goes on from this state costs less. */
  costAtLeast(state: ShopState): number {
    let free = Infinity;
    for (const minute of state.ovenFree) free = Math.min(free, minute);
    const door = this.staffed.fit(free, 0);
    return this.costSoFar(state) + this.#sureLateness.cost(state, door < 0 ? free : door) - HAIR;
  }

  /** Pans moved by a finished state. */
  movedPans(state: ShopState): number {
    return state.moved + this.day.pans.filter((_, pan) => this.#isDropped(state, pan)).length;
  }

  /** The plan in force bakes this pan's next coat, and this state does not. */
  #isDropped(state: ShopState, pan: number): boolean {
    const inForce = this.#inForce[pan];
    return inForce !== undefined && inForce.pinned === null && state.panStep[pan]! <= inForce.step;
  }

  /** True when this bake is the pan's next one. */
  isNext(state: ShopState, bake: number): boolean {
    const { pan, step } = this.day.bakes[bake]!;
    return state.panStep[pan] === step;
  }

  /** As sound as it gets: a plan in force had its pinned loads in time. */
  #soundStart(): ShopState {
    let start = this.#startState();
    if (start.broken === 0) return start;
    start = this.#startState({ undisturbed: true });
    for (let again = 0; start.broken > 0 && again < HURRIES && this.held.hurry(); again++)
      start = this.#startState({ undisturbed: true });
    return start;
  }

  #startState(passage?: { readonly undisturbed: boolean }): ShopState {
    const state = new ShopState(this.day);
    this.day.pans.forEach((pan, index) => {
      state.panRelease[index] = this.day.request.lines[pan.line]!.readyMinute;
      state.ticketReady[pan.ticket] = -Infinity;
      state.ticketOpen[pan.ticket]!++;
    });
    state.moved = this.#inForce.filter(
      (pan) => pan !== undefined && pan.pinned !== null && isMoved(pan, pan.pinned),
    ).length;
    this.held.start(state, passage);
    this.#settle(
      state,
      this.day.pans.map((_, pan) => pan),
    );
    return state;
  }

  /** Bench and booth, then the oven; coats that would wait too long are sprayed later. */
  #prepareAndFire(
    state: ShopState,
    load: PlannedLoad,
    bakes: readonly number[],
    recipe: Recipe,
    taste: Taste,
  ): OvenSlot | undefined {
    if (!this.#hands.prepare(state, bakes)) return undefined;
    for (let round = 0; round < REWAITS; round++) {
      const slot = this.#fire(state, load, recipe, this.#hands.earliestOpen(bakes), taste);
      if (slot === undefined) return undefined;
      const outcome = this.#hands.sprayLater(state, bakes, slot.doorCloses);
      if (outcome === "kept") return slot;
      if (outcome === "hopeless") return undefined;
    }
    return undefined;
  }

  /** The oven's slot for the load, before or after the pinned loads of that oven. */
  #fire(state: ShopState, load: PlannedLoad, recipe: Recipe, earliestOpen: number, taste: Taste): OvenSlot | undefined {
    const { oven } = load;
    for (;;) {
      const next = this.held.next(state, oven);
      const slot = this.#slots.slot({
        recipe,
        free: state.ovenFree[oven]!,
        chamberC: state.ovenChamberC[oven]!,
        soiled: state.ovenSoiled[oven] === 1,
        burnsFirst: load.burnsFirst === true,
        earliestOpen: delayed(earliestOpen, state.ovenFree[oven]!, load.delayMinutes),
        doneBy: next === undefined ? Infinity : next.doorOpens - next.ventMinutes,
        setPointC: load.setPointC,
        preheat: load.preheat,
        coastMinutes: load.coastMinutes,
        minutePrice: Math.max(this.#minuteRate, LEAST_MINUTE_PRICE) * taste.haste,
        heatCreditPerK: taste.heatCredit * this.#heatPricePerK(oven),
      });
      if (next === undefined) return slot;
      if (slot !== undefined && this.held.keeps(next, recipe.soils, slot.done, slot.chamberAtDoneC)) return slot;
      this.held.pass(state, oven);
    }
  }

  /** What it costs in gas to warm the chamber by 1 K. */
  #heatPricePerK(oven: number): number {
    const { cycle } = this.day.request.ovens[oven]!;
    if (cycle.kind !== "thermal") return 0;
    return (cycle.heatCapacityKJPerK / 3600 / cycle.efficiency) * this.day.request.prices.gasPerKWh;
  }

  #passLoad(state: ShopState, oven: number, bakes: readonly number[], slot: OvenSlot): void {
    const { recipe } = slot;
    const cleaned = slot.before.some((empty) => empty.kind === "clean burn");
    state.ovenSoiled[oven] = recipe.soils || (state.ovenSoiled[oven] === 1 && !cleaned) ? 1 : 0;
    state.ovenFree[oven] = slot.done;
    state.ovenChamberC[oven] = slot.chamberAtDoneC;
    state.gasKWh += slot.gasKWh;
    state.doneMinutes += bakes.length * (slot.done - this.day.request.planFromMinute);
    state.lastDone = Math.max(state.lastDone, slot.done);
    const pans: number[] = [];
    for (let index = 0; index < bakes.length; index++) {
      const { pan, kind } = this.day.bakes[bakes[index]!]!;
      const { coat } = this.day.kinds[kind]!;
      const inForce = this.#inForce[pan];
      if (inForce !== undefined && inForce.step === state.panStep[pan] && isMoved(inForce, slot.doorOpens))
        state.moved++;
      state.panStep[pan]!++;
      state.panRelease[pan] = this.cooledAt(recipe, slot, index) + coat.inspectMinutes;
      pans.push(pan);
    }
    this.#settle(state, pans);
  }

  /** When the pan of `recipe.kinds[index]` may be handled after this slot. */
  cooledAt(recipe: Recipe, { option, done }: OvenSlot, index: number): number {
    if (option === null) return done;
    const { ambientC, booth } = this.day.request;
    const metalC = option.metalAtUnloadC[recipe.memberOf[index]!]!;
    const { body } = this.day.kinds[recipe.kinds[index]!]!;
    return done + minutesToHandle(body, metalC, ambientC, booth.handleAtC, booth.coolFilmWPerM2K);
  }

  /** After a bake: held coats are stepped over, and pans with all coats on are finished. */
  #settle(state: ShopState, pans: readonly number[]): void {
    this.held.skipSteps(state, pans);
    for (const pan of pans) if (state.panStep[pan] === this.day.pans[pan]!.due.length) this.#finishPan(state, pan);
  }

  #finishPan(state: ShopState, pan: number): void {
    const { ticket } = this.day.pans[pan]!;
    const { promised, latePerHour } = this.day.tickets[ticket]!;
    const readyBefore = state.ticketReady[ticket]!;
    const ready = Math.max(readyBefore, state.panRelease[pan]! + this.day.request.finishMinutes);
    if (promised !== null)
      state.lateCost += ((Math.max(0, ready - promised) - Math.max(0, readyBefore - promised)) * latePerHour) / 60;
    state.ticketReady[ticket] = ready;
    state.ticketOpen[ticket]!--;
  }
}

function delayed(earliestOpen: number, free: number, delayMinutes: number): number {
  return delayMinutes === 0 ? earliestOpen : Math.max(earliestOpen, Math.ceil(free)) + delayMinutes;
}
