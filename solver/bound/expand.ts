/** Every load that may come next after a label, as labels: the exact search's branching. */
import { busyUntil } from "./busy.ts";
import type { Candidate, Rider } from "./free-rides.ts";
import { nameOf, rideFree } from "./free-rides.ts";
import type { ExactSearchOptions } from "./exact-search.ts";
import type { Label, Rough } from "./label.ts";
import type { LoadSet, LoadSets } from "./load-sets.ts";
import type { Way } from "./load-ways.ts";
import { waysToFire } from "./load-ways.ts";
import type { NextDoor } from "./next-door.ts";
import type { Hands, Shop } from "./hands-served.ts";
import { NOBODY, served, settled, stillMatters } from "./hands-served.ts";

const TINY = 1e-6;
/** Loads that open within so many minutes of the soonest are looked at together. */
const WINDOW_MINUTES = 12;

/** Pans of one kind and step that are alike, earliest first. */
interface Choice {
  readonly kind: number;
  readonly pans: readonly number[];
}

export class Expansion {
  readonly #shop: Shop;
  readonly #nextDoor: NextDoor;
  readonly #rides: boolean;
  readonly #closer: LoadSets | undefined;

  constructor(shop: Shop, nextDoor: NextDoor, { rides = true, closer }: Pick<ExactSearchOptions, "rides" | "closer">) {
    this.#shop = shop;
    this.#nextDoor = nextDoor;
    this.#rides = rides;
    this.#closer = closer;
  }

  /** The labels that a closer look makes of a load. */
  closer({ before, candidate, hands }: Rough): Label[] {
    const { set, doors, closesBy } = candidate;
    const sets = this.#closer!;
    const close = sets.set(set.oven, set.kinds, set.counts);
    if (close === undefined) return [];
    const ways = waysToFire({ ...this.#shop.task, sets }, before, { set: close, doors, closesBy });
    return ways.map((way) => this.#after(before, candidate, way, hands, undefined));
  }

  /**
   * Labels after each load that may come next and whose door opens before long; without a floor yet. `later` stands for all
   * other loads; undefined where there are none.
   */
  next(label: Label): { readonly children: Label[]; readonly later: Label | undefined } {
    const all = this.#choices(label);
    const until = this.#soonestOpen(label, all) + WINDOW_MINUTES;
    const choices = all.flatMap(({ kind, pans }) => {
      const soon = pans.filter((pan) => this.#opens(label, pan) <= until);
      return soon.length === 0 ? [] : [{ kind, pans: soon }];
    });
    const { ovens } = this.#shop.task.day.request;
    const loads = new Map<string, Candidate>();
    this.#until = until;
    this.#skipped = choices.length < all.length || choices.some(({ pans }, at) => pans.length < all[at]!.pans.length);
    for (let oven = 0; oven < ovens.length; oven++)
      this.#fill(
        label,
        oven,
        choices,
        choices.map(() => 0),
        0,
        loads,
      );
    if (this.#rides) {
      const riders = choices.map(({ kind, pans }): Rider => ({ pans, heatKWh: this.#heatKWh(kind) }));
      rideFree(riders, loads, this.#shop.task.sets.grain);
    }
    const children: Label[] = [];
    for (const candidate of loads.values()) {
      if (candidate.ways.length === 0) continue;
      const hands = served(this.#shop, label, candidate.members, candidate.floating);
      if (hands === undefined) continue;
      const rough = this.#closer === undefined ? undefined : { before: label, candidate, hands, looked: false };
      for (const way of candidate.ways) children.push(this.#after(label, candidate, way, hands, rough));
    }
    const later = this.#skipped && until < Infinity ? { ...label, notBefore: until, dead: false } : undefined;
    return { children, later };
  }

  #until = Infinity;
  /** Some load was left for later. */
  #skipped = false;

  /** The door may open for this pan alone. */
  #opens(label: Label, pan: number): number {
    const { sprayMinutes, flashMinutes } = this.#shop.task.pans[pan]!.steps[label.steps[pan]!]!;
    return Math.ceil(label.release[pan]! - TINY) + sprayMinutes + flashMinutes;
  }

  #soonestOpen(label: Label, choices: readonly Choice[]): number {
    let soonest = Infinity;
    for (const { kind, pans } of choices)
      for (const oven of this.#shop.task.day.kinds[kind]!.ovens)
        soonest = Math.min(soonest, Math.max(label.free[oven]!, this.#opens(label, pans[0]!)));
    return Math.max(soonest, label.notBefore, label.lastOpen, this.#shop.task.day.request.planFromMinute);
  }

  /** Gas that one pan's own heat takes about, per oven. */
  #heatKWh(kind: number): number[] {
    const { request, kinds } = this.#shop.task.day;
    const { body, coat } = kinds[kind]!;
    return request.ovens.map(({ cycle }) => {
      if (cycle.kind === "fixed" || coat.window === null) return 0;
      return (body.heatJPerK * (coat.window.metalHighC - request.ambientC)) / 3.6e6 / cycle.efficiency;
    });
  }

  #choices(label: Label): Choice[] {
    const { root } = label;
    const found = new Map<number, { kind: number; pans: number[] }>();
    for (let pan = 0; pan < label.steps.length; pan++) {
      const step = label.steps[pan]!;
      if (step >= root.goals[pan]!) continue;
      const key = root.alike[pan]! * 64 + step;
      const known = found.get(key);
      if (known !== undefined) known.pans.push(pan);
      else found.set(key, { kind: this.#shop.task.pans[pan]!.steps[step]!.kind, pans: [pan] });
    }
    for (const { pans } of found.values()) pans.sort((a, b) => label.release[a]! - label.release[b]! || a - b);
    return [...found.values()];
  }

  #fill(
    label: Label,
    oven: number,
    choices: readonly Choice[],
    counts: number[],
    at: number,
    loads: Map<string, Candidate>,
  ): void {
    if (at === choices.length) {
      const set = this.#setOf(oven, choices, counts);
      if (set === undefined || set === "empty") return;
      const members = choices.flatMap(({ pans }, index) => pans.slice(0, counts[index]));
      const candidate = this.#fire(label, set, counts, members);
      if (candidate !== undefined) loads.set(nameOf(oven, counts), candidate);
      return;
    }
    this.#fill(label, oven, choices, counts, at + 1, loads);
    const { kind, pans } = choices[at]!;
    if (!this.#shop.task.day.kinds[kind]!.ovens.includes(oven)) return;
    for (let other = 0; other < at; other++)
      if (counts[other]! > 0 && !this.#shop.task.sets.pair(oven, kind, choices[other]!.kind)) return;
    for (let count = 1; count <= pans.length; count++) {
      counts[at] = count;
      if (this.#setOf(oven, choices, counts) === undefined) break;
      this.#fill(label, oven, choices, counts, at + 1, loads);
    }
    counts[at] = 0;
  }

  #setOf(oven: number, choices: readonly Choice[], counts: readonly number[]): LoadSet | "empty" | undefined {
    const perKind = new Map<number, number>();
    for (let at = 0; at < counts.length; at++) {
      if (counts[at] === 0) continue;
      const { kind } = choices[at]!;
      perKind.set(kind, (perKind.get(kind) ?? 0) + counts[at]!);
    }
    if (perKind.size === 0) return "empty";
    const kinds = [...perKind.keys()].sort((a, b) => a - b);
    return this.#shop.task.sets.set(
      oven,
      kinds,
      kinds.map((kind) => perKind.get(kind)!),
    );
  }

  #fire(label: Label, set: LoadSet, counts: readonly number[], members: readonly number[]): Candidate | undefined {
    const { pans, day } = this.#shop.task;
    const hands = served(this.#shop, label, members, NOBODY);
    if (hands === undefined) return undefined;
    let ready = Math.max(label.lastOpen, day.request.planFromMinute, hands.ready);
    let closesBy = Infinity;
    for (const pan of members) closesBy = Math.min(closesBy, pans[pan]!.steps[label.steps[pan]!]!.closesBy);
    if (hands.sprays !== label.sprays) ready = Math.max(ready, busyUntil(hands.sprays, this.#shop.booth, true));
    if (hands.preps !== label.preps) ready = Math.max(ready, busyUntil(hands.preps, this.#shop.bench, true));
    const natural = Math.max(Math.ceil(ready - TINY), label.free[set.oven]!);
    if (natural <= label.notBefore) return undefined;
    if (natural > this.#until) {
      this.#skipped = true;
      return undefined;
    }
    const asked = { doors: this.#nextDoor.doors(label, members, Math.ceil(ready - TINY)), closesBy };
    const ways = waysToFire(this.#shop.task, label, { set, ...asked });
    if (ways.length === 0) return undefined;
    const isSettled = this.#rides && settled(this.#shop, label, members, hands);
    const size = members.length;
    return { set, counts: [...counts], size, members, ways, floating: new Set(), settled: isSettled, ...asked };
  }

  #after(label: Label, { set, members }: Candidate, way: Way, hands: Hands, rough: Rough | undefined): Label {
    const { day, pans } = this.#shop.task;
    const { root } = label;
    const { oven } = set;
    const steps = label.steps.slice();
    const release = label.release.slice();
    const free = label.free.slice();
    const hotC = label.hotC.slice();
    const coolC = label.coolC.slice();
    const soiled = label.soiled.slice();
    for (const pan of members) {
      const step = pans[pan]!.steps[steps[pan]!]!;
      const hand = way.firing.handMinutes[set.kinds.indexOf(step.kind)]!;
      release[pan] = way.done + hand + step.inspectMinutes;
      steps[pan]!++;
      if (steps[pan] === root.goals[pan]) release[pan] = this.#handedOver(root.ticketBase, pan, release[pan]!);
    }
    const rest = this.#nextDoor.restMinutes(label, { set, members, way, steps });
    sortAlike(root.alike, steps, release, rest);
    free[oven] = way.done;
    hotC[oven] = way.firing.hotC;
    coolC[oven] = way.firing.coolC;
    soiled[oven] = set.soils || (label.soiled[oven] === 1 && !way.isBurnt) ? 1 : 0;
    return {
      root,
      before: label,
      set,
      members,
      floor: label.floor,
      gasCost: label.gasCost + way.gasKWh * day.request.prices.gasPerKWh,
      lastOpen: free.length > 1 ? way.open : -Infinity,
      notBefore: -Infinity,
      lastDone: Math.max(label.lastDone, way.done),
      steps,
      release,
      rest,
      free,
      hotC,
      coolC,
      soiled,
      sprays: stillMatters(hands.sprays, this.#shop.booth, label, steps, release),
      preps: hands.preps,
      owed: hands.owed,
      owedPreps: hands.owedPreps,
      dead: false,
      followed: false,
      rough,
    };
  }

  /** Sooner than this makes no difference to a pan that is finished. */
  #handedOver(ticketBase: Float64Array, pan: number, release: number): number {
    const { day, pans } = this.#shop.task;
    const { ticket } = pans[pan]!;
    const { promised } = day.tickets[ticket]!;
    if (promised === null) return 0;
    return Math.max(release, Math.max(promised, ticketBase[ticket]!) - day.request.finishMinutes);
  }
}

/** Alike pans in the order of their state, so that equal states look equal. */
function sortAlike(alike: Uint16Array, steps: Uint8Array, release: Float64Array, rest: Float64Array): void {
  for (let at = 1; at < steps.length; at++) {
    for (let place = at; place > 0 && alike[place] === alike[place - 1]; place--) {
      const before = place - 1;
      const inOrder =
        steps[before]! > steps[place]! || (steps[before] === steps[place] && release[before]! <= release[place]!);
      if (inOrder) break;
      [steps[before], steps[place]] = [steps[place]!, steps[before]!];
      [release[before], release[place]] = [release[place]!, release[before]!];
      [rest[before], rest[place]] = [rest[place]!, rest[before]!];
    }
  }
}
