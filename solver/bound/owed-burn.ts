/** An oven that owes a clean burn: when the first load that needs it clean can go in at the soonest. */
import type { DayModel } from "../day/day-model.ts";
import { needsCleanOven } from "../loads/mixing.ts";
import type { KindTimes } from "./kind-times.ts";
import { cleaned } from "./oven-start.ts";

/** Chambers are told apart by so many K, the warm end standing for all of them. */
const STEP_K = 5;

export class OwedBurns {
  /** Per kind: its loads go into no soiled oven. */
  readonly needsClean: readonly boolean[];
  readonly #day: DayModel;
  /** Per oven: least minutes of a load that a soiled oven may take before the burn, and of the burn after it. */
  readonly #afterLoad: readonly number[];
  readonly #burnMinutes = new Map<number, number>();

  constructor(day: DayModel, times: ReadonlyMap<number, readonly KindTimes[]>) {
    const { mixing, ovens } = day.request;
    this.#day = day;
    this.needsClean = day.kinds.map(({ coat }) => needsCleanOven(mixing, [coat.mixGroup]));
    this.#afterLoad = ovens.map(({ cycle }, oven) => {
      const others = [...times].filter(([kind]) => !this.needsClean[kind]!);
      const load = Math.min(Infinity, ...others.map(([, own]) => own[oven]!.doneMinutes));
      return load === Infinity || cycle.kind === "fixed" ? Infinity : load + this.#minutes(oven, cycle.setPointMaxC);
    });
  }

  /** The oven is soiled and free at `free` with its chamber at `hotC` at most; Infinity where it cannot be burnt clean. */
  cleanFrom(oven: number, free: number, hotC: number): number {
    return free + Math.min(this.#minutes(oven, hotC), this.#afterLoad[oven]!);
  }

  /** From a chamber of at most `hotC`; the hotter, the sooner. */
  #minutes(oven: number, hotC: number): number {
    const { mixing, ambientC, ovens } = this.#day.request;
    const { cycle } = ovens[oven]!;
    if (cycle.kind === "fixed") return Infinity;
    const step = Math.ceil(hotC / STEP_K);
    const key = oven * KEYS + step;
    const known = this.#burnMinutes.get(key);
    if (known !== undefined) return known;
    const shut = { free: 0, hotC: step * STEP_K, coolC: ambientC, keepsHot: false, shutMinutes: 0, gasKWh: 0 };
    const minutes = cleaned(cycle, ambientC, mixing, shut)?.free ?? Infinity;
    this.#burnMinutes.set(key, minutes);
    return minutes;
  }
}

/** No chamber is this many steps hot. */
const KEYS = 1000;
