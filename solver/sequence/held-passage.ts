/** Held loads on their way through the timetable: facts first, pinned loads when their oven comes to them. */
import type { DayModel } from "../day/day-model.ts";
import type { HeldLoad } from "../shop.ts";
import { pinnedTask } from "./hand-tasks.ts";
import type { Hands } from "./hands.ts";
import type { HeldOutcome } from "./held-loads.ts";
import { heldKind, heldNeedsClean, heldSoils, runHeld } from "./held-loads.ts";
import type { ShopState } from "./shop-state.ts";

type DueHeld = NonNullable<DayModel["pans"][number]["due"][number]["held"]>;

export class HeldPassage {
  readonly #day: DayModel;
  readonly #hands: Hands;
  readonly #of: readonly (readonly HeldLoad[])[];
  /** In the order in which hands serve them, at first the one whose pans must be in the booth first. */
  readonly #pinned: HeldLoad[];
  /** The first that hands did not serve in time. */
  #late: HeldLoad | undefined;
  /** Per held load: when each of its pans may be handled. */
  readonly #cooled = new Map<HeldLoad, readonly number[]>();
  /** Pinned loads meet the chamber that the held loads before them leave, and nothing planned may make it hotter. */
  #isUndisturbed = false;

  constructor(day: DayModel, hands: Hands) {
    this.#day = day;
    this.#hands = hands;
    const pinned = day.request.held.filter(({ state }) => state === "pinned");
    this.#pinned = pinned.toSorted((a, b) => sprayBy(day, a) - sprayBy(day, b));
    this.#of = day.request.ovens.map((_, oven) => day.request.held.filter((load) => load.oven === oven));
  }

  /**
   * Runs the facts of every oven from its first chamber temperature and lets the pans out of them. Those of pinned loads cool from
   * the hottest chamber that planned loads may leave before them, or `undisturbed` from the one that is there without any.
   */
  start(state: ShopState, { undisturbed = false } = {}): void {
    this.#isUndisturbed = undisturbed;
    this.#late = undefined;
    const { request } = this.#day;
    request.ovens.forEach((oven, index) => {
      const fact = this.#of[index]!.find((load) => load.state !== "pinned");
      state.ovenFree[index] = fact === undefined ? request.planFromMinute : fact.doorOpens;
      state.ovenChamberC[index] = oven.cycle.kind === "thermal" ? oven.cycle.startC : request.ambientC;
      const soiling = request.mixing.cleanBurn?.after ?? [];
      state.ovenSoiled[index] = oven.lastGroups.some((group) => soiling.includes(group)) ? 1 : 0;
      this.#coolAll(state, index);
    });
  }

  /** Puts the pinned load that was late before the one that hands serve ahead of it; false where there is none. */
  hurry(): boolean {
    const at = this.#pinned.findIndex((load) => load === this.#late);
    if (at <= 0) return false;
    this.#pinned.splice(at - 1, 2, this.#pinned[at]!, this.#pinned[at - 1]!);
    return true;
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
    if (late || dirty || !outcome.sound || this.#isDisturbed(load, outcome)) state.broken++;
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
    const outcome = runHeld(this.#day, next, done, chamberC);
    return outcome.sound && !this.#isDisturbed(next, outcome);
  }

  /** A pan of a pinned load would cool down later than was counted on. */
  #isDisturbed(load: HeldLoad, { cooled }: HeldOutcome): boolean {
    if (!this.#isUndisturbed || load.state !== "pinned") return false;
    const counted = this.#cooled.get(load)!;
    return cooled.some((minute, at) => minute > counted[at]! + HAIR_MINUTES);
  }

  /**
   * Steps over the next coats of these pans that stand in held loads. Bench and booth work for pinned ones is done load by
   * load, the most urgent first, as if the loads were planned: a plan in force keeps its hands when it is pinned.
   */
  skipSteps(state: ShopState, pans: readonly number[]): void {
    if (this.#day.request.held.length === 0) return;
    for (const pan of pans) this.#skipFacts(state, pan);
    for (;;) {
      const load = this.#pinned.find((one) => pans.some((pan) => this.#nextHeld(state, pan)?.load === one));
      if (load === undefined) return;
      this.#skipPinned(
        state,
        load,
        pans.filter((pan) => this.#nextHeld(state, pan)?.load === load),
      );
    }
  }

  #nextHeld(state: ShopState, pan: number): DueHeld | undefined {
    return this.#day.pans[pan]!.due[state.panStep[pan]!]?.held ?? undefined;
  }

  #skipFacts(state: ShopState, pan: number): void {
    for (;;) {
      const held = this.#nextHeld(state, pan);
      if (held === undefined || held.load.state === "pinned") return;
      this.#step(state, pan, held);
    }
  }

  #step(state: ShopState, pan: number, { load, pan: held }: DueHeld): void {
    const { coat } = this.#day.kinds[this.#day.pans[pan]!.due[state.panStep[pan]!]!.kind]!;
    state.panRelease[pan] = this.#cooled.get(load)![load.pans.indexOf(held)]! + coat.inspectMinutes;
    state.panStep[pan]!++;
  }

  #skipPinned(state: ShopState, load: HeldLoad, pans: readonly number[]): void {
    const kindOf = (pan: number): number => this.#day.pans[pan]!.due[state.panStep[pan]!]!.kind;
    // In the order of planned loads.
    const sorted = pans.toSorted((a, b) => kindOf(a) - kindOf(b) || a - b);
    const tasks = sorted.map((pan) => pinnedTask(this.#day, { pan, step: state.panStep[pan]! }));
    if (!this.#isInTime(state, load, tasks)) {
      this.#late ??= load;
      state.broken++;
    }
    for (const pan of pans) this.#step(state, pan, this.#nextHeld(state, pan)!);
  }

  #isInTime(state: ShopState, { doorOpens, doorCloses }: HeldLoad, tasks: readonly number[]): boolean {
    if (!this.#hands.prepare(state, tasks)) return false;
    if (this.#hands.sprayLater(state, tasks, doorCloses) === "hopeless") return false;
    return this.#hands.earliestOpen(tasks) <= doorOpens;
  }

  #coolAll(state: ShopState, oven: number): void {
    let { free, chamberC } = { free: state.ovenFree[oven]!, chamberC: state.ovenChamberC[oven]! };
    for (const load of this.#of[oven]!) {
      if (load.state === "pinned") {
        const vents = load.doorOpens - load.ventMinutes;
        const outcome =
          !this.#isUndisturbed && this.#hasRoomBefore(oven, vents - free)
            ? runHeld(this.#day, load, vents, this.#hottestC(oven))
            : runHeld(this.#day, load, free, chamberC);
        this.#cooled.set(load, outcome.cooled);
        [free, chamberC] = [load.done, outcome.chamberAtDoneC];
      } else {
        this.#cooled.set(load, this.pass(state, oven).cooled);
        [free, chamberC] = [state.ovenFree[oven]!, state.ovenChamberC[oven]!];
      }
    }
  }

  #hasRoomBefore(oven: number, minutes: number): boolean {
    const { loadMinutes, unloadMinutes } = this.#day.request.ovens[oven]!.cycle;
    return minutes > loadMinutes + unloadMinutes;
  }

  #hottestC(oven: number): number {
    const { ambientC, ovens } = this.#day.request;
    const { cycle } = ovens[oven]!;
    return cycle.kind === "thermal" ? Math.min(cycle.doorLimitC, cycle.setPointMaxC) : ambientC;
  }
}

/** The first minute at which spraying for the load must begin. */
function sprayBy(day: DayModel, { doorOpens, pans }: HeldLoad): number {
  const leads = pans.map(({ line, coat }) => {
    const { sprayMinutes, flashMinutes } = heldKind(day, line, coat).coat;
    return sprayMinutes === 0 ? 0 : sprayMinutes + flashMinutes;
  });
  return doorOpens - Math.max(0, ...leads);
}

const HAIR_MINUTES = 1e-6;
