/** What bakes to come ask of the ovens together: kinds that may share firings, directly or by others, are a family. */
import { leastOf } from "./fewest-loads.ts";
import { kindFamilies } from "./kind-families.ts";
import type { Label } from "./label.ts";
import type { Shares } from "./load-shares.ts";
import { closeShares } from "./load-shares.ts";
import type { LoadSets } from "./load-sets.ts";
import type { LoneTables } from "./lone-tables.ts";
import type { StaffedClock } from "./staffed-clock.ts";
import type { Tariff } from "./tariff.ts";

/** A kind's bakes as parts of loads. */
interface Member {
  /** Of oven time, heating up for it included; and so many of them may pass before the first door, see KindTimes. */
  readonly minutes: number;
  readonly earlyMinutes: number;
  /** By tariff. */
  readonly spent: readonly number[];
  /** By tariff: worth of what is in the chamber at its end, at least, or lost on the way there. */
  readonly left: readonly number[];
  readonly shares: Shares;
  /** Bakes added. */
  count: number;
}

interface Family {
  /** Longest first; and by tariff, dearest first. */
  readonly byMinutes: readonly Member[];
  readonly byCost: readonly (readonly Member[])[];
  /** Of the bakes added: latest door opening with its minutes. */
  latest: number;
  latestMinutes: number;
  latestEarly: number;
  count: number;
  /** Per measure, loads that the bakes added fill. */
  readonly filled: Float64Array;
}

export class Families {
  readonly #families: Family[] = [];
  readonly #familyOf = new Map<number, Family>();
  readonly #memberOf = new Map<number, Member>();
  readonly #measures: number;
  readonly #gas: readonly Tariff[];
  readonly #ovenTime: Tariff;
  readonly #costOf: readonly ((member: Member) => number)[];
  readonly #order: Family[] = [];
  #soonest = Infinity;
  readonly #left: Float64Array;
  /** Per oven. */
  readonly #free: Float64Array;

  constructor(sets: LoadSets, { times, gas, ovenTime }: LoneTables) {
    const tariffs = [...gas, ovenTime];
    const kinds = [...times.keys()];
    const shares = closeShares(sets.day);
    this.#measures = shares[0]?.length ?? 0;
    this.#gas = gas;
    this.#ovenTime = ovenTime;
    this.#costOf = tariffs.map(
      (_, tariff) =>
        ({ spent }) =>
          spent[tariff]!,
    );
    this.#left = new Float64Array(tariffs.length);
    this.#free = new Float64Array(sets.day.request.ovens.length);
    for (const kind of kinds) {
      const minutes = Math.min(...times.get(kind)!.map(({ packedMinutes }) => packedMinutes));
      const earlyMinutes = minutes - Math.min(...times.get(kind)!.map(({ doneMinutes }) => doneMinutes));
      const spent = tariffs.map((one) => Math.min(...one.spent.get(kind)!));
      const left = tariffs.map((one) => {
        const own = one.spent.get(kind)!;
        return Math.min(...one.needed.get(kind)!.map((cost, oven) => (cost < Infinity ? cost - own[oven]! : Infinity)));
      });
      this.#memberOf.set(kind, { minutes, earlyMinutes, spent, left, shares: shares[kind]!, count: 0 });
    }
    for (const some of kindFamilies(sets, kinds)) {
      const members = some.map((one) => this.#memberOf.get(one)!);
      const family = {
        byMinutes: members.toSorted((a, b) => b.minutes - a.minutes),
        byCost: this.#costOf.map((cost) => members.toSorted((a, b) => cost(b) - cost(a))),
        latest: -Infinity,
        latestMinutes: 0,
        latestEarly: 0,
        count: 0,
        filled: new Float64Array(this.#measures),
      };
      this.#families.push(family);
      for (const one of some) this.#familyOf.set(one, family);
    }
  }

  begin(): void {
    for (const member of this.#memberOf.values()) member.count = 0;
    for (const family of this.#families) {
      family.latest = -Infinity;
      family.count = 0;
      family.filled.fill(0);
    }
    this.#soonest = Infinity;
    this.#left.fill(Infinity);
  }

  /** `isLast`: the pan has no bake after it, nor has anything that the day may hold besides. */
  add(kind: number, open: number, isLast: boolean): void {
    const family = this.#familyOf.get(kind)!;
    const member = this.#memberOf.get(kind)!;
    member.count++;
    family.count++;
    if (isLast)
      for (let tariff = 0; tariff < this.#left.length; tariff++)
        this.#left[tariff] = Math.min(this.#left[tariff]!, member.left[tariff]!);
    if (open > family.latest || (open === family.latest && member.minutes > family.latestMinutes)) {
      family.latest = open;
      family.latestMinutes = member.minutes;
      family.latestEarly = member.earlyMinutes;
    }
    if (open < this.#soonest) this.#soonest = open;
    for (let at = 0; at < this.#measures; at++) family.filled[at]! += member.shares[at]!;
  }

  /** Beyond what the label has drawn, by the tariff that says most. */
  gasKWh({ hotC }: Label): number {
    let most = 0;
    this.#gas.forEach(({ worth }, tariff) => {
      let kWh = this.#costBy(tariff);
      for (let oven = 0; oven < hotC.length; oven++) kWh -= worth(oven, hotC[oven]!);
      if (kWh > most) most = kWh;
    });
    return most;
  }

  /**
   * By one tariff, the worth of what the chambers hold by now included. The load that ends the day holds only last bakes, and what
   * it leaves is lost.
   */
  #costBy(tariff: number): number {
    const left = this.#left[tariff]!;
    let sum = left < Infinity ? left : 0;
    for (const family of this.#families)
      if (family.count > 0) sum += leastOf(family.byCost[tariff]!, this.#costOf[tariff]!);
    return sum;
  }

  /** `clock`: given where ovens run in staffed time only. */
  finish(label: Label, clock: StaffedClock | undefined): number {
    const ovens = label.free.length;
    const read = (minute: number): number => (clock === undefined ? minute : clock.read(minute));
    const minuteOf = (reading: number): number => (clock === undefined ? reading : clock.minuteOf(reading));
    const order = this.#order;
    order.length = 0;
    let packed = 0;
    let early = 0;
    for (const family of this.#families) {
      if (family.count === 0) continue;
      order.push(family);
      packed += leastOf(family.byMinutes, minutesOf);
      for (const { count, earlyMinutes } of family.byMinutes) if (count > 0) early = Math.max(early, earlyMinutes);
    }
    if (order.length === 0) return -Infinity;
    const free = this.#free;
    let timed = this.#costBy(this.#gas.length);
    for (let oven = 0; oven < ovens; oven++) {
      const from = Math.max(label.free[oven]!, this.#soonest, label.notBefore);
      free[oven] = read(from);
      packed -= Math.min(early, from - label.free[oven]!);
      timed -= this.#heldMinutes(oven, label.hotC[oven]!, from - label.free[oven]!);
    }
    let finish = minuteOf(doneBy(free.sort(), Math.max(0, packed, timed)));
    order.sort((a, b) => b.latest - a.latest);
    let minutes = 0;
    let latestEarly = 0;
    for (const family of order) {
      minutes += family.latestMinutes;
      latestEarly = Math.max(latestEarly, family.latestEarly);
      finish = Math.max(finish, minuteOf(read(family.latest) + minutes / ovens - latestEarly));
    }
    return finish;
  }

  /** Oven time that the chamber may save whoever comes, heated up while the oven stood idle. */
  #heldMinutes(oven: number, hotC: number, idleMinutes: number): number {
    const { worth } = this.#ovenTime;
    return Math.min(worth(oven, Infinity), worth(oven, hotC) + idleMinutes);
  }

  /**
   * Share of one load's oven time that a bake of the kind takes at least: no load holds shares of more than 1 in all. Where
   * the bakes added do not even fill one load, they are all of it.
   */
  shareOf(kind: number): number {
    const { filled } = this.#familyOf.get(kind)!;
    const { shares } = this.#memberOf.get(kind)!;
    let fullest = 0;
    for (let at = 1; at < this.#measures; at++) if (filled[at]! > filled[fullest]!) fullest = at;
    return filled[fullest]! > 0 ? shares[fullest]! / Math.min(1, filled[fullest]!) : 0;
  }
}

const minutesOf = (member: Member): number => member.minutes;

/** The soonest that ovens can be through with `minutes` of work, each at it from its `free` on: soonest first, by the work's clock. */
export function doneBy(free: Float64Array, minutes: number): number {
  let soonest = Infinity;
  let sum = minutes;
  for (let ovens = 1; ovens <= free.length; ovens++) {
    sum += free[ovens - 1]!;
    soonest = Math.min(soonest, sum / ovens);
  }
  return soonest;
}
