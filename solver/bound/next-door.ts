/**
 * What is sure to be lost of a chamber's heat before the next door where pans of the last load come again: however late that load
 * is fired, they must be unloaded, cool, be inspected and sprayed one after another and flash off first, and the oven stands shut
 * meanwhile. Told where one oven bakes all pans as they are, one load after another.
 */
import { chamberAfterIdle } from "../heat/chamber.ts";
import { cleanBurnSetPointC } from "../loads/mixing.ts";
import type { ThermalCycle } from "../shop.ts";
import type { Label } from "./label.ts";
import { endsWithDoorFrom, latestEnd } from "./last-work.ts";
import type { LoadSet } from "./load-sets.ts";
import type { Way } from "./load-ways.ts";
import type { ProofTask } from "./proof-task.ts";

/** A door at minute `from` or later, and how many minutes the oven has stood shut by then at least. */
export interface Door {
  readonly from: number;
  readonly shutMinutes: number;
}

/** Pans of the last load: from its done until they are inspected, then the booth's time that they take, then the flash of the last. */
interface Again {
  readonly restMinutes: number;
  readonly sprayMinutes: number;
  readonly flashMinutes: number;
}

/** A load that has been baked. */
interface Loaded {
  readonly set: LoadSet;
  readonly members: readonly number[];
  readonly way: Way;
  /** Per pan of the task: bakes so far. */
  readonly steps: Uint8Array;
}

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

  /**
   * Per pan: minutes from the done of a load of these members until it is inspected, `steps` counting that bake; 0 where it is not
   * baked again. What waiting in the oven may take off them costs the chamber as much as standing shut would, else it is left out.
   */
  restMinutes(label: Label, { set, members, way, steps }: Loaded): Float64Array {
    const rest = new Float64Array(steps.length);
    const cycle = this.#cycle;
    if (cycle === undefined) return rest;
    const surely = this.#surelyCooling(cycle, label, set, way);
    for (const pan of members) {
      const next = steps[pan]!;
      const all = this.#task.pans[pan]!.steps;
      const { kind, inspectMinutes } = all[next - 1]!;
      if (next < all.length) rest[pan] = Math.min(surely, way.restMinutes[set.kinds.indexOf(kind)]!) + inspectMinutes;
    }
    return rest;
  }

  /**
   * For so many minutes the chamber cools at least as fast as shut and empty, whatever pans do: they may also wait in it, whose fan
   * cools it faster, unless their metal keeps it warm. Told by the film's heat from metal as hot as the chamber ever was. Later
   * unloading leaves no warmer a chamber.
   */
  #surelyCooling(cycle: ThermalCycle, label: Label, set: LoadSet, { firing, isBurnt }: Way): number {
    const { day } = this.#task;
    const { ambientC, mixing } = day.request;
    const burntC = isBurnt ? (cleanBurnSetPointC(mixing, cycle) ?? 0) : 0;
    const hottestK = Math.max(firing.setPointC, label.hotC[0]!, burntC) - ambientC;
    const filmWPerK = set.kinds.reduce(
      (sum, kind, at) => sum + set.counts[at]! * cycle.filmWPerM2K * day.kinds[kind]!.body.exchangeM2,
      0,
    );
    // The fan takes more than the metal gives down to so many K above the room.
    const leastK = (filmWPerK * hottestK) / (cycle.coastExhaustWPerK + filmWPerK);
    // As it would be by then without a door that opened.
    const fromK = (firing.coolC - ambientC) * Math.exp(cycle.unloadMinutes / cycle.doorTauMinutes);
    if (fromK <= leastK) return 0;
    const perMinute = (60 * cycle.wallLossWPerK) / (1000 * cycle.heatCapacityKJPerK);
    return perMinute > 0 && leastK > 0 ? Math.log(fromK / leastK) / perMinute : Infinity;
  }

  /** Doors for these pans at `ready` or later; none where no staffed time is left. */
  doors(label: Label, members: readonly number[], ready: number): Door[] {
    const cycle = this.#cycle;
    if (cycle === undefined) return [{ from: ready, shutMinutes: 0 }];
    const { staffed, clock } = this.#task;
    const from = staffed.fit(Math.max(ready, Math.ceil(label.free[0]! - TINY)), cycle.loadMinutes);
    if (from < 0) return [];
    const again = this.#again(label, members);
    const plain = again.reduce(
      (most, { restMinutes, sprayMinutes, flashMinutes }) => Math.max(most, restMinutes + sprayMinutes + flashMinutes),
      0,
    );
    const after = this.#sinceBreak(cycle, label, from);
    // While nobody works the booth has long been through; from `later` on it may have gone on.
    let later = Infinity;
    let shutMinutes = plain;
    for (const { restMinutes, sprayMinutes, flashMinutes } of again) {
      const goesOn = clock.goesOnAt(from - flashMinutes);
      if (sprayMinutes === 0 || goesOn === from - flashMinutes) continue;
      const read = clock.read(goesOn) - sprayMinutes;
      const shut = from - clock.goesOnAt(clock.minuteOf(read)) + restMinutes;
      if (shut <= plain || read <= 0) continue;
      later = Math.min(later, goesOn + flashMinutes);
      shutMinutes = Math.max(shutMinutes, shut);
    }
    const shutAt = (door: number): number =>
      Math.max(plain, door < later ? shutMinutes : 0, door < after.later ? after.shutMinutes : 0);
    const doors = [from, later, after.later].filter((door) => door < Infinity).map((door) => Math.ceil(door - TINY));
    return [...new Set(doors)].sort((a, b) => a - b).map((door) => ({ from: door, shutMinutes: shutAt(door) }));
  }

  /** The last load ended before the break before this door, unless the door opens at minute `later` or after it. */
  #sinceBreak(
    cycle: ThermalCycle,
    label: Label,
    from: number,
  ): { readonly later: number; readonly shutMinutes: number } {
    const { staffed, day } = this.#task;
    const { loadMinutes, unloadMinutes } = cycle;
    const minutes = day.request.ovens[0]!.attended ? loadMinutes + unloadMinutes : unloadMinutes;
    const shutMinutes = from - Math.max(label.free[0]!, latestEnd(staffed.intervals, from, minutes));
    if (label.set === undefined || shutMinutes <= 0) return { later: Infinity, shutMinutes: 0 };
    return { later: endsWithDoorFrom(staffed.intervals, from, minutes), shutMinutes };
  }

  /** Whatever opens next after `one` meets no cooler a chamber than after `other`, as far as this tells; both as warm or warmer. */
  beats(one: Label, other: Label): boolean {
    const cycle = this.#cycle;
    if (cycle === undefined) return true;
    const { ambientC } = this.#task.day.request;
    const after = (label: Label, pan: number): number =>
      chamberAfterIdle(cycle, ambientC, label.hotC[0]!, label.rest[pan]!);
    for (let pan = 0; pan < one.rest.length; pan++) {
      if (one.rest[pan] === 0 || one.steps[pan]! >= one.root.goals[pan]!) continue;
      // Pans that only the one has to wait for take the booth's time as well.
      if (other.rest[pan] === 0 || after(one, pan) < after(other, pan)) return false;
    }
    return true;
  }

  /** Each of the pans that were in the last load by itself, and together with all that are inspected no sooner; alike ones stand for each other. */
  #again(label: Label, members: readonly number[]): Again[] {
    const { day, pans } = this.#task;
    const { alike } = label.root;
    const found: Again[] = [];
    const seen = new Set<number>();
    let leastFlash = Infinity;
    for (const pan of members) {
      const { sprayMinutes, flashMinutes } = pans[pan]!.steps[label.steps[pan]!]!;
      if (sprayMinutes > 0) leastFlash = Math.min(leastFlash, flashMinutes);
      const isSame = (other: number): boolean => alike[other] === alike[pan] && label.steps[other] === label.steps[pan];
      if (seen.has(pan)) continue;
      const same = members.filter(isSame);
      for (const one of same) seen.add(one);
      const rests = [...label.rest].filter((_, other) => isSame(other)).sort((a, b) => a - b);
      for (const restMinutes of rests.slice(0, same.length))
        if (restMinutes > 0) found.push({ restMinutes, sprayMinutes, flashMinutes });
    }
    const { sprayers } = day.request.booth;
    if (sprayers === 0) return found;
    let sprayed = 0;
    const together = found
      .filter(({ sprayMinutes }) => sprayMinutes > 0)
      .sort((a, b) => b.restMinutes - a.restMinutes)
      .map(({ restMinutes, sprayMinutes }) => {
        sprayed += sprayMinutes;
        return { restMinutes, sprayMinutes: sprayed / sprayers, flashMinutes: leastFlash };
      });
    return [...found, ...together];
  }
}

const TINY = 1e-6;
