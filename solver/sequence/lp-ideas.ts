/**
 * What the LP solver makes of a sequence: pans dealt out anew among the loads of a stretch, doors that open later, the
 * best choice among the loads met so far. The search asks in its pauses, by its count of steps and never by a clock, and
 * judges each answer like its own.
 */
import type { Lp } from "../lp/lp.ts";
import type { Random } from "../random.ts";
import { Evaluator } from "./evaluate.ts";
import type { Placed } from "./lp-placed.ts";
import { placeAll } from "./lp-placed.ts";
import { LoadPool } from "./lp-pool.ts";
import { reassign } from "./lp-reassign.ts";
import { retime } from "./lp-retime.ts";
import { insertAll } from "./rebuild.ts";
import type { Sequence } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

/** Steps of the search between two questions; longer, up to the most, while the answers gain nothing. */
const STEPS_BETWEEN = 200;
const MOST_STEPS_BETWEEN = 6400;
const LONGER = 1.5;
/** Loads of a stretch whose pans are dealt out anew: few, so that the model stays small, now and then more. */
const STRETCHES = [4, 6, 8, 12];
/** No door is moved by more, minutes. */
const REACH_MINUTES = 60;
/** What is asked, in turn. */
const TURNS = ["deal", "time", "deal", "pool"] as const;

export class LpIdeas {
  readonly #rough: Timetable;
  readonly #exact: Evaluator;
  /** Its own, so that what is put back does not displace the sequence that the search starts from. */
  readonly #inserter: Evaluator;
  readonly #lp: Lp;
  readonly #random: Random;
  readonly #pool: LoadPool;
  #due = STEPS_BETWEEN;
  #between = STEPS_BETWEEN;
  #turn = 0;

  constructor(rough: Timetable, exact: Evaluator, lp: Lp, random: Random) {
    this.#rough = rough;
    this.#exact = exact;
    this.#inserter = new Evaluator(rough);
    this.#lp = lp;
    this.#random = random;
    this.#pool = new LoadPool(rough);
  }

  /** Sequences timed so far. */
  get timed(): number {
    return this.#inserter.timed;
  }

  /** Whether the search has gone far enough since the last question. */
  isDue(steps: number): boolean {
    return steps >= this.#due;
  }

  /** A sequence to judge beside the best, or undefined where the LP solver has none; `current` only feeds the pool. */
  ask(best: Sequence, current: Sequence): Sequence | undefined {
    const turn = TURNS[this.#turn++ % TURNS.length]!;
    const placed = placeAll(this.#rough, best);
    this.#pool.add(placed);
    if (current !== best) this.#pool.add(placeAll(this.#rough, current));
    if (turn === "time") return this.#doorsMoved(best);
    return turn === "pool" ? this.#chosenFromPool(best) : this.#dealtAnew(best, placed);
  }

  /** The search tells whether the last answer became its best. */
  settle(steps: number, kept: boolean): void {
    this.#between = kept ? STEPS_BETWEEN : Math.min(this.#between * LONGER, MOST_STEPS_BETWEEN);
    this.#due = steps + this.#between;
  }

  /** The sequence with the doors where the timing LP puts them. */
  #doorsMoved(sequence: Sequence): Sequence | undefined {
    return retime(this.#exact.timetable, this.#lp, sequence, REACH_MINUTES);
  }

  /** The sequence with the pans of one stretch, drawn by lot, where the assignment LP puts them. */
  #dealtAnew(sequence: Sequence, placed: Placed): Sequence | undefined {
    const count = Math.min(placed.loads.length, STRETCHES[this.#random.below(STRETCHES.length)]!);
    if (count === 0) return undefined;
    const byDoor = [...placed.loads.keys()].sort(
      (a, b) => placed.loads[a]!.slot.doorOpens - placed.loads[b]!.slot.doorOpens || a - b,
    );
    const from = this.#random.below(byDoor.length - count + 1);
    const stretch = byDoor.slice(from, from + count);
    const dealt = reassign(this.#rough, this.#lp, sequence, placed, stretch);
    return dealt && this.#filled(sequence, dealt.loads, dealt.open);
  }

  #chosenFromPool(sequence: Sequence): Sequence | undefined {
    const choice = this.#pool.usable ? this.#pool.choose(this.#lp) : undefined;
    return choice && this.#filled(sequence, choice.loads, choice.open);
  }

  #filled(sequence: Sequence, loads: Sequence["loads"], open: readonly number[]): Sequence {
    return { ...sequence, loads: insertAll(this.#inserter, loads, open, sequence, this.#random) };
  }
}
