/**
 * Where the annealing goes next from a sequence: mostly a small move of loads, now and then a stretch filled afresh, another
 * taste, or bakes taken out and put back where they cost least.
 */
import type { Random } from "../random.ts";
import type { Draft, Move } from "./draft.ts";
import { Evaluator } from "./evaluate.ts";
import { eject, swap, trade } from "./exchanges.ts";
import { chooseLateRuin } from "./late-ruin.ts";
import { delay, merge, relocate, retune, shift, shiftRow, split } from "./moves.ts";
import { chooseRuin, insertAll, stepsToInsert, without } from "./rebuild.ts";
import { rechain } from "./rechain.ts";
import { Refiller } from "./refill.ts";
import type { PlannedLoad, Sequence, Taste } from "./sequence.ts";
import { drawTaste } from "./taste.ts";

const MOVES: readonly { readonly move: Move; readonly share: number }[] = [
  { move: relocate, share: 40 },
  { move: swap, share: 15 },
  { move: trade, share: 15 },
  { move: eject, share: 15 },
  { move: rechain, share: 15 },
  { move: shift, share: 20 },
  { move: shiftRow, share: 10 },
  { move: merge, share: 12 },
  { move: split, share: 8 },
  { move: retune, share: 5 },
  { move: delay, share: 5 },
];
const SHARES = MOVES.reduce((sum, { share }) => sum + share, 0);
/** On large days: of a hundred neighbours that are no repairs, stretches filled afresh. */
const REFILLS = 15;
/** One in so many is another taste. */
const NEIGHBOURS_PER_TASTE = 150;
/** One in so many is a repair; on large days, where one takes thousands of steps, they take so much of them at most. */
const NEIGHBOURS_PER_REPAIR = 120;
const REPAIR_SHARE = 0.3;
/** So many repairs of a hundred are for the sake of a late ticket, where there is one. */
const LATE_REPAIRS = 30;

/** Whether the budget would be spent after so many more steps. */
export type IsSpentAfter = (steps: number) => boolean;

export class Neighbours {
  readonly #current: Evaluator;
  /** Its own, so that what a repair has come to does not displace the sequence that is walked from. */
  readonly #repairer: Evaluator;
  readonly #refiller: Refiller;
  readonly #random: Random;
  /** Few steps for many loads: stretches are filled afresh, and repairs take their share of the steps and no more. */
  isLargeDay = false;
  #asked = 0;

  /** `current` has the sequence accepted whose neighbours are asked for. */
  constructor(current: Evaluator, random: Random) {
    this.#current = current;
    this.#repairer = new Evaluator(current.timetable);
    this.#refiller = new Refiller(current);
    this.#random = random;
  }

  /** Sequences timed and stretches filled so far. */
  get steps(): number {
    return this.#repairer.timed + this.#refiller.filled;
  }

  /** Undefined where nothing came of it, or of a repair because the budget is nearly spent; of `cutoff` see Refiller. */
  next(sequence: Sequence, draft: Draft, cutoff: number, isSpentAfter: IsSpentAfter): Sequence | undefined {
    const random = this.#random;
    if (++this.#asked % NEIGHBOURS_PER_REPAIR === 0 && this.#mayRepair())
      return withLoads(sequence, this.#repaired(sequence, draft, isSpentAfter));
    if (random.below(NEIGHBOURS_PER_TASTE) === 0) return { ...drawTaste(random), loads: sequence.loads };
    if (this.isLargeDay && random.below(100) < REFILLS)
      return withLoads(sequence, this.#refiller.refilled(draft, sequence, random, cutoff));
    return withLoads(sequence, drawMove(random)(draft, random));
  }

  #mayRepair(): boolean {
    return !this.isLargeDay || this.#repairer.timed <= REPAIR_SHARE * (this.#current.timed + this.steps);
  }

  /** The loads with some bakes taken out and put back, those that were in none with them; undefined where no steps are left. */
  #repaired(taste: Taste, draft: Draft, isSpentAfter: IsSpentAfter): readonly PlannedLoad[] | undefined {
    const random = this.#random;
    const late = random.below(100) < LATE_REPAIRS ? chooseLateRuin(draft, this.#current, random) : undefined;
    const { loads, taken } = without(draft, late?.bakes ?? chooseRuin(draft, random));
    const open = [...taken, ...draft.missing()];
    if (isSpentAfter(stepsToInsert(open.length))) return undefined;
    this.#repairer.pull = this.#current.pull;
    const rank = (ticket: number): number => (ticket === late?.ticket ? 0 : 1);
    return insertAll(this.#repairer, loads, open, taste, random, rank, () => isSpentAfter(0));
  }
}

function drawMove(random: Random): Move {
  let share = random.below(SHARES);
  return MOVES.find((entry) => (share -= entry.share) < 0)!.move;
}

function withLoads(sequence: Sequence, loads: readonly PlannedLoad[] | undefined): Sequence | undefined {
  return loads && { ...sequence, loads };
}
