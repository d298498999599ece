/**
 * Sequences built in the order of time, each load chosen by where it leads: every load that may well come next is followed to the end
 * of the day by urgency, and the few that end cheapest are built on (pilot method; Duin and Voß, The pilot method, Networks 34, 1999;
 * beam search; Ow and Morton, Filtered beam search in scheduling, International Journal of Production Research 26, 1988; both from
 * memory). A rule alone does not see that coats baked now hold up others until they no longer fit into the day.
 */
import type { Built } from "./dispatch.ts";
import type { Group } from "./dispatch-keys.ts";
import { groupsOf } from "./dispatch-keys.ts";
import { LoadFiller } from "./load-filler.ts";
import { newLoad } from "./sequence.ts";
import { firstFreeOven } from "./ready.ts";
import type { PlannedLoad } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";
import { FIRST_TASTE } from "./taste.ts";
import type { Timetable } from "./timetable.ts";
import { Urgency } from "./urgency.ts";
import { Waiting } from "./waiting.ts";

/** What is looked at, round by round, while there is time. */
export interface Foresight {
  /** Minutes ahead that a promise is felt, see Urgency.of. */
  readonly patiences: readonly number[];
  readonly rounds: readonly Round[];
}

interface Round {
  /** So many of the loads that come next are built on; 0: the day is only followed from its beginning. */
  readonly kept: number;
  /** By so many of the patiences that ended cheapest in the round before; in the order given as long as all go on. */
  readonly patiences: number;
}

const TWO_PATIENCES: readonly Round[] = [1, 3, 9, 27].map((kept) => ({ kept, patiences: 2 }));
/** Which patience serves a day differs, by up to three times the cost, and building by one may take seconds on large days. */
const EVER_FEWER: readonly Round[] = [
  { kept: 0, patiences: 5 },
  { kept: 1, patiences: 3 },
  { kept: 3, patiences: 2 },
  { kept: 9, patiences: 1 },
  { kept: 27, patiences: 1 },
];

/** Of two searches each begins with its own. */
export function foresightOf(isLargeDay: boolean, isSecond: boolean): Foresight {
  if (!isLargeDay) return { patiences: isSecond ? [90, 180] : [120, 60], rounds: TWO_PATIENCES };
  return { patiences: isSecond ? [10, 40, 90, 180, 400] : [20, 60, 130, 270, 600], rounds: EVER_FEWER };
}

/** A load that may come next opens at most so much later than the first could, minutes; the most urgent groups open one each. */
const LOOK_MINUTES = 60;
const MOST_OPENERS = 10;
/** And it waits so much longer for others to join, minutes: each is looked at. */
const JOINS = [0, 20];
/** Where a sequence is followed to its end, the load that can open first does, and waits so long. */
const FOLLOWED_JOIN_MINUTES = 10;

/** Loads so far, the state after them, and what follows. */
interface Begun {
  readonly loads: readonly PlannedLoad[];
  readonly state: ShopState;
  readonly waiting: Waiting;
  /** Of the sequence that urgency makes of it; Infinity where that was given up. */
  readonly cost: number;
}

export class LookAhead {
  /** Sequences followed to their end so far. */
  followed = 0;
  readonly #timetable: Timetable;
  readonly #groups: readonly Group[];
  readonly #foresight: Foresight;
  readonly #urgency: Urgency;
  readonly #filler: LoadFiller;
  readonly #state: ShopState;
  readonly #waiting: Waiting;

  constructor(timetable: Timetable, foresight: Foresight) {
    const { day, book } = timetable;
    this.#timetable = timetable;
    this.#foresight = foresight;
    this.#groups = groupsOf(day);
    this.#urgency = new Urgency(day, this.#groups);
    this.#filler = new LoadFiller(book.plain);
    this.#state = new ShopState(day);
    this.#waiting = new Waiting(day, this.#groups);
  }

  /** Yields each sequence that costs less than all before it; `undefined` after any other, so that a caller may stop it. */
  *search(): Generator<Built | undefined> {
    let best = Infinity;
    let ended = this.#foresight.patiences.map((patienceMinutes) => ({ patienceMinutes, cost: Infinity }));
    for (const { kept, patiences } of this.#foresight.rounds) {
      if (ended.length > patiences) ended = ended.toSorted((a, b) => a.cost - b.cost).slice(0, patiences);
      for (const one of ended) {
        one.cost = Infinity;
        const builds = kept === 0 ? this.#followed(one.patienceMinutes) : this.#built(kept, one.patienceMinutes, best);
        for (const found of builds) {
          one.cost = found?.cost ?? one.cost;
          yield found !== undefined && found.cost < best ? found : undefined;
          best = Math.min(best, one.cost);
        }
      }
    }
  }

  /** What urgency alone makes of the day. */
  *#followed(patienceMinutes: number): Generator<Built> {
    const loads: PlannedLoad[] = [];
    const cost = this.#follow(this.#begin(), loads, patienceMinutes, Infinity);
    yield { sequence: { ...FIRST_TASTE, loads }, cost };
  }

  /**
   * Built load by load: each sequence followed that costs less than those before it by this patience, `undefined` after any other.
   * `known`: money that another has come to; what costs more is followed to its end only where it is built on.
   */
  *#built(kept: number, patienceMinutes: number, known: number): Generator<Built | undefined> {
    let best = Infinity;
    let front: Begun[] = [this.#begin()];
    while (front.length > 0) {
      const next: Begun[] = [];
      for (const begun of front)
        for (const one of this.#nextLoads(begun, patienceMinutes)) {
          const loads = [...one.loads];
          const cutoff = Math.max(Math.min(best, known), costOf(next, kept));
          const cost = this.#follow(one, loads, patienceMinutes, cutoff);
          next.push({ ...one, cost });
          yield cost < best ? { sequence: { ...FIRST_TASTE, loads }, cost } : undefined;
          best = Math.min(best, cost);
        }
      front = next.filter(({ cost }) => cost < Infinity).sort((a, b) => a.cost - b.cost);
      front.length = Math.min(front.length, kept);
    }
  }

  #begin(): Begun {
    const waiting = new Waiting(this.#timetable.day, this.#groups);
    return { loads: [], state: this.#timetable.startState(), waiting, cost: Infinity };
  }

  /** Each load that may well come next, put in place. */
  *#nextLoads({ loads, state, waiting }: Begun, patienceMinutes: number): Generator<Begun> {
    const soonest = waiting.look(state);
    if (soonest === Infinity) return;
    const { opens } = waiting;
    const urgency = opens.map((open, group) =>
      open === Infinity ? 0 : this.#urgency.of(group, open, patienceMinutes),
    );
    const openers = [...opens.keys()]
      .filter((group) => opens[group]! <= soonest + LOOK_MINUTES)
      .sort((a, b) => urgency[b]! - urgency[a]! || a - b)
      .slice(0, MOST_OPENERS);
    const seen = new Set<string>();
    for (const opener of openers)
      for (const joinMinutes of JOINS) {
        const after = new ShopState(this.#timetable.day);
        after.copyFrom(state);
        const rest = new Waiting(this.#timetable.day, this.#groups);
        rest.copyFrom(waiting);
        const load = this.#placed(after, rest, opener, joinMinutes, patienceMinutes);
        if (load === undefined) continue;
        const key = [...load.bakes].sort((a, b) => a - b).join();
        if (seen.has(key)) continue;
        seen.add(key);
        yield { loads: [...loads, load], state: after, waiting: rest, cost: Infinity };
      }
  }

  /** Adds the loads that urgency chooses; answers what they all cost, or Infinity as soon as that is sure to exceed `cutoff`. */
  #follow(begun: Begun, loads: PlannedLoad[], patienceMinutes: number, cutoff: number): number {
    this.followed++;
    const state = this.#state;
    const waiting = this.#waiting;
    state.copyFrom(begun.state);
    waiting.copyFrom(begun.waiting);
    for (;;) {
      const opener = this.#mostUrgent(state, waiting, patienceMinutes);
      if (opener === undefined) break;
      const load = this.#placed(state, waiting, opener, FOLLOWED_JOIN_MINUTES, patienceMinutes);
      if (load === undefined) waiting.settle(this.#groups[opener]!.bakes);
      else loads.push(load);
      if (this.#timetable.costAtLeast(state) > cutoff) return Infinity;
    }
    this.#timetable.finish(state);
    return this.#timetable.cost(state);
  }

  /** Of those that may open a load first; undefined when no pan waits any more. */
  #mostUrgent(state: ShopState, waiting: Waiting, patienceMinutes: number): number | undefined {
    const soonest = waiting.look(state);
    let first: number | undefined;
    let most = -Infinity;
    for (const [group, open] of waiting.opens.entries()) {
      if (open === Infinity || open > soonest) continue;
      const urgency = this.#urgency.of(group, open, patienceMinutes);
      if (urgency > most) {
        most = urgency;
        first = group;
      }
    }
    return first;
  }

  /** The load that a group opens, others joining it by urgency, put in place; undefined where it finds none. */
  #placed(
    state: ShopState,
    waiting: Waiting,
    opener: number,
    joinMinutes: number,
    patienceMinutes: number,
  ): PlannedLoad | undefined {
    const oven = firstFreeOven(this.#timetable.book, state, this.#groups[opener]!.kind);
    if (oven === undefined) return undefined;
    const open = waiting.opens[opener]!;
    const urgency = waiting.ready.map((ready, group) =>
      ready > open + joinMinutes ? -Infinity : this.#urgency.of(group, Math.max(ready, open), patienceMinutes),
    );
    const others = [...urgency.keys()].filter((group) => group !== opener && urgency[group]! > -Infinity);
    others.sort((a, b) => urgency[b]! - urgency[a]! || a - b);
    const asked: number[] = [];
    for (const group of [opener, ...others]) waiting.ask(state, group, open + joinMinutes, asked);
    const bakes = this.#filler.fill(oven, asked);
    const tries = bakes.length > 1 ? [bakes, bakes.slice(0, 1)] : [bakes];
    return tries
      .map((some) => newLoad(oven, some))
      .find((load) => this.#timetable.place(state, load, FIRST_TASTE) !== undefined);
  }
}

/** Of the cheapest so many the dearest; Infinity where there are fewer. */
function costOf(next: readonly Begun[], kept: number): number {
  if (next.length < kept) return Infinity;
  return next.map(({ cost }) => cost).sort((a, b) => a - b)[kept - 1]!;
}
