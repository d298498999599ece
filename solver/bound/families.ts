/** Kinds that may share firings, directly or by others, are a family; two families never share one. */
import type { KindTimes } from "./kind-times.ts";
import type { Label } from "./label.ts";
import type { Shares } from "./load-shares.ts";
import { closeShares } from "./load-shares.ts";
import type { LoadSets } from "./load-sets.ts";
import type { StaffedClock } from "./staffed-clock.ts";

const TINY = 1e-6;

/** A kind's bakes as parts of loads. */
interface Member {
  readonly minutes: number;
  readonly kWh: number;
  /** In the chamber at its end, at least, or lost on the way there, where no further bake makes use of it. */
  readonly leftKWh: number;
  readonly shares: Shares;
  /** Bakes added. */
  count: number;
}

interface Family {
  /** Longest first, and most gas first. */
  readonly byMinutes: readonly Member[];
  readonly byKWh: readonly Member[];
  /** Of the bakes added: latest door opening with its minutes. */
  latest: number;
  latestMinutes: number;
  count: number;
  /** Per measure, loads that the bakes added fill. */
  readonly filled: Float64Array;
}

export class Families {
  readonly #families: Family[] = [];
  readonly #familyOf = new Map<number, Family>();
  readonly #memberOf = new Map<number, Member>();
  readonly #measures: number;
  readonly #order: Family[] = [];
  #soonest = Infinity;
  #leftKWh = Infinity;

  constructor(sets: LoadSets, times: ReadonlyMap<number, readonly KindTimes[]>) {
    const kinds = [...times.keys()];
    const shares = closeShares(sets.day);
    this.#measures = shares[0]?.length ?? 0;
    for (const kind of kinds) {
      const own = times.get(kind)!;
      const minutes = Math.min(...own.map(({ packedMinutes }) => packedMinutes));
      const kWh = Math.min(...own.map(({ spentKWh }) => spentKWh));
      const leftKWh = Math.min(
        ...own.map((one) => (one.neededKWh < Infinity ? one.neededKWh - one.spentKWh : Infinity)),
      );
      this.#memberOf.set(kind, { minutes, kWh, leftKWh, shares: shares[kind]!, count: 0 });
    }
    for (const kind of kinds) {
      if (this.#familyOf.has(kind)) continue;
      const some = connected(sets, kinds, kind);
      const members = some.map((one) => this.#memberOf.get(one)!);
      const family = {
        byMinutes: members.toSorted((a, b) => b.minutes - a.minutes),
        byKWh: members.toSorted((a, b) => b.kWh - a.kWh),
        latest: -Infinity,
        latestMinutes: 0,
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
    this.#leftKWh = Infinity;
  }

  /** `isLast`: the pan has no bake after it, nor has anything that the day may hold besides. */
  add(kind: number, open: number, isLast: boolean): void {
    const family = this.#familyOf.get(kind)!;
    const member = this.#memberOf.get(kind)!;
    member.count++;
    family.count++;
    if (isLast && member.leftKWh < this.#leftKWh) this.#leftKWh = member.leftKWh;
    if (open > family.latest || (open === family.latest && member.minutes > family.latestMinutes)) {
      family.latest = open;
      family.latestMinutes = member.minutes;
    }
    if (open < this.#soonest) this.#soonest = open;
    for (let at = 0; at < this.#measures; at++) family.filled[at]! += member.shares[at]!;
  }

  /** Beyond what the chambers hold by now. The load that ends the day holds only last bakes, and what it leaves is lost. */
  gasKWh(): number {
    let sum = this.#leftKWh < Infinity ? this.#leftKWh : 0;
    for (const family of this.#families) if (family.count > 0) sum += this.#leastOf(family, family.byKWh, kWhOf);
    return sum;
  }

  /** `clock`: given where ovens run in staffed time only. */
  finish(label: Label, clock: StaffedClock | undefined): number {
    const ovens = label.free.length;
    const after = (from: number, minutes: number): number =>
      clock === undefined ? from + minutes / ovens : clock.minuteOf(clock.read(from) + minutes / ovens);
    const order = this.#order;
    order.length = 0;
    let all = 0;
    for (const family of this.#families) {
      if (family.count === 0) continue;
      order.push(family);
      all += this.#leastOf(family, family.byMinutes, minutesOf);
    }
    if (order.length === 0) return -Infinity;
    const idle = label.notBefore;
    let free = 0;
    for (let oven = 0; oven < ovens; oven++) free += Math.max(label.free[oven]!, this.#soonest, idle) / ovens;
    let finish = after(ovens === 1 ? free : Math.max(idle, Math.min(...label.free)), ovens === 1 ? all : 0);
    if (ovens > 1 && clock === undefined) finish = Math.max(finish, free + all / ovens);
    order.sort((a, b) => b.latest - a.latest);
    let minutes = 0;
    for (const family of order) {
      minutes += family.latestMinutes;
      finish = Math.max(finish, after(family.latest, minutes));
    }
    return finish;
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

  /**
   * Of as few loads as any measure allows, the k-th is worth at least the bake that the k − 1 before it cannot have held, in
   * the order given, even if bakes could be split.
   */
  #leastOf(family: Family, members: readonly Member[], worth: (member: Member) => number): number {
    let most = 0;
    for (let measure = 0; measure < this.#measures; measure++) {
      let filled = 0;
      let loads = 0;
      let sum = 0;
      for (const member of members) {
        if (member.count === 0) continue;
        filled += member.count * member.shares[measure]!;
        const after = Math.max(loads, 1, Math.ceil(filled - TINY));
        sum += (after - loads) * worth(member);
        loads = after;
      }
      if (sum > most) most = sum;
      if (family.count === 1) break;
    }
    return most;
  }
}

const minutesOf = (member: Member): number => member.minutes;
const kWhOf = (member: Member): number => member.kWh;

/** Kinds that `kind` may share a firing with, directly or by others, itself among them. */
function connected(sets: LoadSets, kinds: readonly number[], kind: number): number[] {
  const found = new Set([kind]);
  for (const one of found)
    for (const other of kinds) if (!found.has(other) && maySometimes(sets, one, other)) found.add(other);
  return [...found];
}

function maySometimes(sets: LoadSets, one: number, other: number): boolean {
  const { kinds } = sets.day;
  return kinds[one]!.ovens.some((oven) => kinds[other]!.ovens.includes(oven) && sets.pair(oven, one, other));
}
