/**
 * A stretch of loads filled afresh: their bakes go in again in the order of time, as in dispatch.ts, but tickets in another
 * order than before. The loads before and after it stay. Far cheaper than a repair, and it moves many bakes at once.
 */
import type { Random } from "../random.ts";
import type { Evaluator } from "./evaluate.ts";
import { LoadFiller } from "./load-filler.ts";
import type { Draft } from "./draft.ts";
import { newLoad } from "./sequence.ts";
import { firstFreeOven, readyFor } from "./ready.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";
import { ShopState } from "./shop-state.ts";

const FEWEST_LOADS = 2;
const MOST_LOADS = 6;
/** A load waits so long for pans to join it, and the oven so long for the first in line, minutes. */
const JOINS = [0, 10, 20, 40];
const OPENS = [0, 10, 30];
/** Tickets fall back in line by lot, by up to so many loads: near ones change places, or all are drawn afresh. */
const NEAR_LOADS = 1.5;
const FAR_LOADS = 100;

export class Refiller {
  /** Stretches filled so far. */
  filled = 0;
  readonly #evaluator: Evaluator;
  readonly #filler: LoadFiller;
  readonly #state: ShopState;

  /** `evaluator` has the sequence accepted that is to be changed. */
  constructor(evaluator: Evaluator) {
    this.#evaluator = evaluator;
    this.#filler = new LoadFiller(evaluator.timetable.book);
    this.#state = new ShopState(evaluator.timetable.day);
  }

  /** The loads with a stretch filled afresh; undefined where a bake finds no place or the cost is sure to exceed `cutoff`. */
  refilled(draft: Draft, taste: Taste, random: Random, cutoff: number): readonly PlannedLoad[] | undefined {
    const { loads } = draft;
    const { timetable } = this.#evaluator;
    this.filled++;
    const count = FEWEST_LOADS + random.below(MOST_LOADS - FEWEST_LOADS + 1);
    const from = random.below(Math.max(1, loads.length - count + 1));
    const stretch = loads.slice(from, from + count);
    const line = inLine(draft, stretch, random);
    const join = JOINS[random.below(JOINS.length)]!;
    const open = OPENS[random.below(OPENS.length)]!;
    const state = this.#state;
    state.copyFrom(this.#evaluator.before(from));
    const refilled: PlannedLoad[] = [];
    const waiting = new Set(line);
    while (waiting.size > 0) {
      const load = this.#nextLoad(state, waiting, join, open);
      if (load === undefined || timetable.place(state, load, taste) === undefined) return undefined;
      if (timetable.costAtLeast(state) > cutoff) return undefined;
      refilled.push(load);
      for (const bake of load.bakes) waiting.delete(bake);
    }
    return loads.toSpliced(from, count, ...refilled);
  }

  /** The first in line of those that may go in soon, and who else fits of those that are ready in time. */
  #nextLoad(state: ShopState, waiting: ReadonlySet<number>, join: number, open: number): PlannedLoad | undefined {
    const { timetable } = this.#evaluator;
    const { day, book } = timetable;
    const next = [...waiting]
      .filter((bake) => timetable.isNext(state, bake))
      .map((bake) => {
        const ready = readyFor(day, state, bake);
        const free = Math.min(...day.kinds[day.bakes[bake]!.kind]!.ovens.map((oven) => state.ovenFree[oven]!));
        return { bake, ready, opens: Math.max(ready, free) };
      });
    const soonest = Math.min(...next.map(({ opens }) => opens));
    const first = next.find(({ opens }) => opens <= soonest + open);
    const oven = first && firstFreeOven(book, state, day.bakes[first.bake]!.kind);
    if (oven === undefined) return undefined;
    const others = next.filter((one) => one !== first && one.ready <= first!.opens + join);
    const bakes = this.#filler.fill(
      oven,
      [first!, ...others].map(({ bake }) => bake),
    );
    return bakes.length === 0 ? undefined : newLoad(oven, bakes);
  }
}

/** The bakes of a stretch, tickets (or each coat of theirs) in another order: how far is drawn by lot. */
function inLine({ day }: Draft, stretch: readonly PlannedLoad[], random: Random): number[] {
  const reach = random.below(3) === 0 ? NEAR_LOADS : FAR_LOADS;
  const byCoat = reach === FAR_LOADS && random.below(2) === 0;
  const shifts = new Map<string, number>();
  const placed = stretch.flatMap(({ bakes }, at) =>
    bakes.map((bake) => {
      const { pan, step } = day.bakes[bake]!;
      const { ticket } = day.pans[pan]!;
      const key = byCoat ? `${ticket}/${step}` : `${ticket}`;
      let shift = shifts.get(key);
      if (shift === undefined) shifts.set(key, (shift = reach * random.next()));
      return { bake, place: at + shift };
    }),
  );
  return placed.sort((one, other) => one.place - other.place || one.bake - other.bake).map(({ bake }) => bake);
}
