/**
 * What is sure to be lost of a chamber's heat before the next door where pans of the last load come again: however late that load
 * is fired, they must be unloaded, cool, be inspected and sprayed and flash off first, and the oven stands shut meanwhile. Told where
 * one oven bakes all pans as they are, one load after another.
 */
import { chamberAfterIdle } from "../heat/chamber.ts";
import type { ThermalCycle } from "../shop.ts";
import type { Label } from "./label.ts";
import type { LoadSet } from "./load-sets.ts";
import type { Way } from "./load-ways.ts";
import type { ProofTask } from "./proof-task.ts";

export class NextDoor {
  readonly #task: ProofTask;
  /** Undefined where nothing can be told. */
  readonly #cycle: ThermalCycle | undefined;

  /** `rides`: as in ExactSearchOptions. */
  constructor(task: ProofTask, rides: boolean) {
    const [oven, ...others] = task.day.request.ovens;
    this.#task = task;
    if (others.length === 0 && !task.isPart && !rides && oven?.cycle.kind === "thermal") this.#cycle = oven.cycle;
  }

  /** Minutes from the done of a load fired so to the next door for one of its pans, now on step `next`; 0 where that says nothing. */
  minutes(label: Label, set: LoadSet, way: Way, pan: number, next: number): number {
    const cycle = this.#cycle;
    const { steps } = this.#task.pans[pan]!;
    const [done, due] = [steps[next - 1]!, steps[next]];
    if (cycle === undefined || due === undefined) return 0;
    const rest = way.restMinutes[set.kinds.indexOf(done.kind)]!;
    const minutes = rest + done.inspectMinutes + due.sprayMinutes + due.flashMinutes;
    return this.#losesMoreInside(cycle, label, set, way, minutes) ? minutes : 0;
  }

  /** The least from the last load's done to a door for these pans, alike ones standing for each other. */
  least(label: Label, members: readonly number[]): number {
    if (this.#cycle === undefined) return 0;
    const { alike } = label.root;
    let least = 0;
    for (const pan of members) {
      let own = label.nextDoor[pan]!;
      for (let other = 0; own > 0 && other < alike.length; other++)
        if (alike[other] === alike[pan] && label.steps[other] === label.steps[pan] && !members.includes(other))
          own = Math.min(own, label.nextDoor[other]!);
      least = Math.max(least, own);
    }
    return least;
  }

  /** Whatever opens next after `one` meets no cooler a chamber than after `other`, as far as this tells; both as warm or warmer. */
  beats(one: Label, other: Label): boolean {
    const cycle = this.#cycle;
    if (cycle === undefined) return true;
    const { ambientC } = this.#task.day.request;
    const at = (label: Label, pan: number): number =>
      chamberAfterIdle(cycle, ambientC, label.hotC[0]!, label.nextDoor[pan]!);
    for (let pan = 0; pan < one.nextDoor.length; pan++)
      if (one.nextDoor[pan]! > 0 && one.steps[pan]! < one.root.goals[pan]!)
        if (at(one, pan) < at(other, pan)) return false;
    return true;
  }

  /**
   * The pans may also wait in the oven, whose fan cools it faster than it cools shut and empty, unless its metal keeps it warm: told
   * by the film's heat from metal as hot as the chamber ever was.
   */
  #losesMoreInside(cycle: ThermalCycle, label: Label, set: LoadSet, { firing }: Way, minutes: number): boolean {
    const { day } = this.#task;
    const { ambientC, mixing } = day.request;
    const burntC = label.soiled[0] === 1 && set.needsClean ? (mixing.cleanBurn?.setPointC ?? 0) : 0;
    const hottestK = Math.max(firing.setPointC, label.hotC[0]!, burntC) - ambientC;
    const filmWPerK = set.kinds.reduce(
      (sum, kind, at) => sum + set.counts[at]! * cycle.filmWPerM2K * day.kinds[kind]!.body.exchangeM2,
      0,
    );
    // As it would be by then without a door that opened.
    const doorLeft = Math.exp(-cycle.unloadMinutes / cycle.doorTauMinutes);
    const leftK = (chamberAfterIdle(cycle, ambientC, firing.coolC, minutes) - ambientC) / doorLeft;
    return cycle.coastExhaustWPerK * leftK >= filmWPerK * (hottestK - leftK);
  }
}
