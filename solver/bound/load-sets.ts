/** Which kinds may share a firing as far as anybody can prove, and what such a firing takes at least. Cached. */
import type { DayModel } from "../day/day-model.ts";
import type { Grain } from "./grain.ts";
import type { Member } from "../heat/members.ts";
import { overbakesAnywhere } from "../heat/overbakes.ts";
import { loneOffsets, memberOn } from "../loads/lone-pan.ts";
import { clashOf, needsCleanOven, soilsOven } from "../loads/mixing.ts";
import { gathered } from "./gathered.ts";
import type { ThermalCycle } from "../shop.ts";
import type { ChamberRange, LooseFiring, LooseFirings, Standing } from "./loose-firing.ts";
import { looseFirings } from "./loose-firing.ts";
import { roomOf } from "./shelf-room.ts";
import { anywhere, standingsOf } from "./standings.ts";

/** Kinds ascending with how many of each, in one oven. */
export interface LoadSet {
  readonly oven: number;
  readonly kinds: readonly number[];
  readonly counts: readonly number[];
  readonly soils: boolean;
  readonly needsClean: boolean;
  /** One entry for each way to spread its kinds over shelves of different warmth. */
  readonly standings: readonly (readonly Standing[])[];
  readonly tables: Map<number, LooseFirings>;
  readonly preheated: Map<string, LooseFirings>;
}

export class LoadSets {
  readonly day: DayModel;
  readonly grain: Grain;
  readonly #known = new Map<string, LoadSet | null>();
  readonly #offsets = new Map<number, readonly number[]>();
  readonly #pairs = new Map<number, boolean>();
  simulated = 0;

  constructor(day: DayModel, grain: Grain) {
    this.day = day;
    this.grain = grain;
  }

  /** Undefined where these kinds are proven not to share a firing of that oven; then no larger set does either. */
  set(oven: number, kinds: readonly number[], counts: readonly number[]): LoadSet | undefined {
    let key = String.fromCharCode(oven);
    for (let at = 0; at < kinds.length; at++) key += String.fromCharCode(kinds[at]!, counts[at]!);
    const known = this.#known.get(key);
    if (known !== undefined) return known ?? undefined;
    const made = this.#make(oven, kinds, counts) ?? null;
    this.#known.set(key, made);
    return made ?? undefined;
  }

  /** Firings of the set from a chamber in `stride` buckets, the last of which has its warm end at `bucket` × bucketK. */
  firings(set: LoadSet, bucket: number, stride: number): LooseFirings {
    const key = bucket * 16 + stride;
    const known = set.tables.get(key);
    if (known !== undefined) return known;
    this.simulated++;
    const { bucketK, grace } = this.grain;
    const isCoolest = bucket <= this.coolestBucket();
    const coolerUpToC =
      grace > 0 || isCoolest ? -Infinity : this.firings(set, this.coolestBucket(), 1).hottestSetPointC;
    const bounds = { grace, coolerUpToC, leastSetPointC: ANY };
    const made = this.#fire(set, (bucket - stride) * bucketK, bucket * bucketK, bounds);
    set.tables.set(key, made);
    return made;
  }

  /** Firings on `leastSetPointC` and up, from any chamber between two temperatures that preheats end on. */
  preheated(set: LoadSet, lowC: number, highC: number, leastSetPointC: number): LooseFirings {
    const key = `${lowC}/${highC}/${leastSetPointC}`;
    const known = set.preheated.get(key);
    if (known !== undefined) return known;
    this.simulated++;
    const { grace } = this.grain;
    const coolerUpToC = grace > 0 ? -Infinity : this.firings(set, this.coolestBucket(), 1).hottestSetPointC;
    const made = this.#fire(set, lowC, highC, { grace, coolerUpToC, leastSetPointC });
    set.preheated.set(key, made);
    return made;
  }

  /** Firings from any chamber between two temperatures; not kept. */
  wideFirings(set: LoadSet, coolC: number, hotC: number): readonly LooseFiring[] {
    const { grace } = this.grain;
    return this.#fire(set, coolC, hotC, { grace, coolerUpToC: -Infinity, leastSetPointC: ANY }).firings;
  }

  /** Whether two kinds may stand in one firing at all; asked with company too, which slows the chamber down. */
  pair(oven: number, one: number, other: number): boolean {
    const [low, high] = one < other ? [one, other] : [other, one];
    const key = (oven * 4096 + low) * 4096 + high;
    const known = this.#pairs.get(key);
    if (known !== undefined) return known;
    const may = this.#mayPair(oven, low, high);
    this.#pairs.set(key, may);
    return may;
  }

  /** Whole buckets up to the hottest chamber a door of this oven opens on. */
  hottestBucket(oven: number): number {
    const { cycle } = this.day.request.ovens[oven]!;
    if (cycle.kind === "fixed") return 0;
    const ceilingC = Math.max(cycle.setPointMaxC, cycle.startC);
    return Math.ceil(Math.min(cycle.doorLimitC, ceilingC) / this.grain.bucketK);
  }

  coolestBucket(): number {
    return Math.ceil(this.day.request.ambientC / this.grain.bucketK);
  }

  #fire(
    set: LoadSet,
    lowC: number,
    highC: number,
    bounds: Pick<ChamberRange, "grace" | "coolerUpToC" | "leastSetPointC">,
  ): LooseFirings {
    const { cycle } = this.day.request.ovens[set.oven]!;
    if (cycle.kind === "fixed") {
      const closedMinutes = Math.max(...set.kinds.map((kind) => this.day.kinds[kind]!.coat.cycleMinutes ?? 0));
      const firing: LooseFiring = {
        setPointC: Infinity,
        closedMinutes,
        gasKWh: (cycle.gasKW * closedMinutes) / 60,
        hotC: 0,
        coolC: 0,
        handMinutes: set.kinds.map(() => 0),
        restMinutes: set.kinds.map(() => 0),
      };
      return { firings: [firing], refused: false, hottestSetPointC: Infinity };
    }
    const { ambientC } = this.day.request;
    const hotC = Math.max(ambientC, Math.min(highC, cycle.doorLimitC));
    const coolC = Math.min(hotC, Math.max(ambientC, lowC));
    const { alike } = this.grain;
    const range = { ...bounds, coolC, hotC, alike };
    const found = set.standings.map((standing) => looseFirings(this.day, cycle, standing, range));
    if (found.length === 1) return found[0]!;
    const firings = gathered(
      found.flatMap((one) => one.firings),
      alike,
    );
    const refused = found.some((one) => one.refused);
    return { firings, refused, hottestSetPointC: Math.max(...found.map((one) => one.hottestSetPointC)) };
  }

  #make(oven: number, kinds: readonly number[], counts: readonly number[]): LoadSet | undefined {
    const { request } = this.day;
    const one = request.ovens[oven]!;
    const bakes = kinds.flatMap((kind, at) => Array.from({ length: counts[at]! }, () => this.day.kinds[kind]!));
    const groups = bakes.map((bake) => bake.coat.mixGroup);
    if (bakes.some((bake) => !bake.ovens.includes(oven))) return undefined;
    if (clashOf(request.mixing, groups) !== undefined) return undefined;
    if (sum(bakes.map((bake) => bake.line.massKg)) > one.maxLoadKg + TINY) return undefined;
    if (sum(bakes.map((bake) => bake.solventMl)) > one.maxSolventMl + TINY) return undefined;
    if (one.space.kind === "area") {
      if (sum(bakes.map((bake) => bake.areaDm2)) > one.space.dm2 + TINY) return undefined;
    } else {
      const shelves = one.space.shelves.map((_, index) => index);
      const parties = kinds.map((kind, at) => ({ kind: this.day.kinds[kind]!, count: counts[at]!, shelves }));
      if (roomOf(one.space).neverFits(parties)) return undefined;
    }
    return {
      oven,
      kinds: [...kinds],
      counts: [...counts],
      soils: soilsOven(request.mixing, groups),
      needsClean: needsCleanOven(request.mixing, groups),
      standings: this.#standings(oven, kinds, counts),
      tables: new Map(),
      preheated: new Map(),
    };
  }

  #standings(oven: number, kinds: readonly number[], counts: readonly number[]): readonly (readonly Standing[])[] {
    const { space } = this.day.request.ovens[oven]!;
    const groups = kinds.map((kind, at) => ({
      kind: this.day.kinds[kind]!,
      number: kind,
      count: counts[at]!,
      offsetsC: this.#offsetsOf(oven, kind),
    }));
    return standingsOf(space, groups, this.grain.toldApart);
  }

  #offsetsOf(oven: number, kind: number): readonly number[] {
    const { space } = this.day.request.ovens[oven]!;
    if (space.kind === "area") return [0];
    const key = oven * 4096 + kind;
    const known = this.#offsets.get(key);
    if (known !== undefined) return known;
    const found = loneOffsets(space, this.day.kinds[kind]!);
    const offsets = found.length > 0 ? found : space.shelves.map((shelf) => shelf.offsetC);
    this.#offsets.set(key, offsets);
    return offsets;
  }

  /** Some metal temperature suits both: then nothing is said against them without knowing the company. */
  #meet({ guardC }: ThermalCycle, one: number, other: number): boolean {
    const [a, b] = [this.day.kinds[one]!, this.day.kinds[other]!];
    const low = Math.max(a.coat.window!.metalLowC, b.coat.window!.metalLowC) + guardC;
    return low <= Math.min(a.highC, b.highC) - guardC;
  }

  /**
   * `other` gets too hot in any firing that bakes `one`, on any shelves and in any company. A chamber falls, recovers and falls
   * again at most, so that one piece of the soak is half of it at least.
   */
  #overbakes(cycle: ThermalCycle, oven: number, one: number, other: number): boolean {
    const onShelves = (kind: number): Member[] =>
      this.#offsetsOf(oven, kind).flatMap((offsetC) => memberOn(this.day.kinds[kind]!, offsetC) ?? []);
    const halfSoaked = onShelves(one).map((hot) => ({ ...hot, soakLeastMinutes: hot.soakLeastMinutes / 2 }));
    return overbakesAnywhere(cycle, this.day.request.ambientC, halfSoaked, onShelves(other));
  }

  #mayPair(oven: number, one: number, other: number): boolean {
    if (one === other) return true;
    const set = this.set(oven, [one, other], [1, 1]);
    if (set === undefined) return false;
    const { cycle } = this.day.request.ovens[oven]!;
    if (cycle.kind === "fixed" || this.#meet(cycle, one, other)) return true;
    if (this.#overbakes(cycle, oven, one, other) || this.#overbakes(cycle, oven, other, one)) return false;
    const crowds = [
      [1, 1],
      [6, 1],
      [1, 6],
    ].map((counts) => ({
      ...set,
      tables: new Map<number, LooseFirings>(),
      preheated: new Map<string, LooseFirings>(),
      standings: [[one, other].map((kind, at) => anywhere(kind, counts[at]!, this.#offsetsOf(oven, kind)))],
    }));
    const { bucketK, pairStepK } = this.grain;
    const hottestC = this.hottestBucket(oven) * bucketK;
    const coolestC = this.coolestBucket() * bucketK;
    for (let hotC = hottestC; ; hotC = Math.max(coolestC, hotC - pairStepK)) {
      const tried = crowds.some((crowd) => this.#fire(crowd, hotC - pairStepK, hotC, PAIR).firings.length > 0);
      if (tried) return true;
      if (hotC === coolestC) return false;
    }
  }
}

/** No set-point is ruled out. */
const ANY = -Infinity;

/** Two kinds are kept apart only where they miss each other by more than this, minutes and K, in any company. */
const PAIR = { grace: 3, coolerUpToC: -Infinity, leastSetPointC: ANY };

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}

/** Sums of kg, mL and dm² carry rounding. */
const TINY = 1e-9;
