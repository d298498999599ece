/** Better arrangements of jobs: simulated annealing over small moves, warmed up once more from the best. */
import type { Random } from "../random.ts";
import type { Progress } from "../stop.ts";
import { Arrangement } from "./arrangement.ts";
import { Clock } from "./clock.ts";
import type { JobDay } from "./job-day.ts";
import type { Move } from "./moves.ts";
import { exchange, join, merge, part, push, shift, split } from "./moves.ts";

/** Jobs of each load, loads in the order in which they ask for an oven. */
export type JobLoads = readonly (readonly number[])[];

const MOVES: readonly { readonly move: Move; readonly share: number }[] = [
  { move: join, share: 30 },
  { move: exchange, share: 25 },
  { move: shift, share: 20 },
  { move: push, share: 10 },
  { move: part, share: 6 },
  { move: split, share: 5 },
  { move: merge, share: 4 },
];

/** Share of the budget at which each ends, and how much of the hottest temperature it starts from. */
const WARM_UPS = [
  { until: 0.8, from: 1 },
  { until: 1, from: 0.25 },
] as const;
/** Rounds between looks at the budget, and between breaths for the caller. */
const LOOK = 64;
const BREATH = 16384;
const LEAST_GAIN = 1e-9;

export class JobSearch {
  /** Changes tried so far. */
  steps = 0;
  readonly #arrangement: Arrangement;
  readonly #clock: Clock;
  readonly #random: Random;
  readonly #lot: readonly Move[];
  readonly #hottest: number;
  readonly #coldest: number;
  #best: JobLoads;
  #bestCost: number;

  constructor(day: JobDay, start: JobLoads, random: Random) {
    this.#arrangement = new Arrangement(day);
    this.#clock = new Clock(day);
    this.#random = random;
    const ordered = day.due.some((due) => due < Infinity);
    this.#lot = MOVES.filter(({ move }) => ordered || move !== shift).flatMap(({ move, share }) =>
      Array.from({ length: share }, () => move),
    );
    // A late load costs about this much: at several of it whole families of loads still change places. Many jobs get fewer
    // steps each and must end colder. Without promises all that counts is minutes, and the last of them are won in the cold.
    const price = meanOf(day.minutes) * (meanOf(day.latePerMinute) + day.crewPerMinute + day.gasPerMinute);
    this.#hottest = price * (ordered ? 8 : 0.3);
    this.#coldest = price * (ordered ? Math.min(0.2, 12 / day.count) : 0.006);
    this.#take(start);
    this.#best = start;
    this.#bestCost = this.#clock.cost;
  }

  get best(): JobLoads {
    return this.#best;
  }

  /** Searches until its budget is spent; now and then says whether the best has become better since it said so last. */
  *run(progress: Progress): Generator<boolean> {
    let since = 0;
    for (const { until, from } of WARM_UPS) {
      if (since > 0) this.#take(this.#best);
      yield* this.#anneal(from, progress, since, until);
      since = until;
    }
  }

  *#anneal(from: number, progress: Progress, since: number, until: number): Generator<boolean> {
    const clock = this.#clock;
    const random = this.#random;
    const hottest = this.#hottest * from;
    let temperature = hottest;
    let improved = false;
    for (let round = 0; ; round++) {
      if (round % LOOK === 0) {
        const now = progress(this.steps);
        if (now >= until) {
          yield improved;
          return;
        }
        temperature = hottest * (this.#coldest / hottest) ** ((now - since) / (until - since));
      }
      if (round % BREATH === 0) {
        yield improved;
        improved = false;
      }
      // A try that finds nothing to change counts too: where nothing can be changed the budget still ends.
      this.steps++;
      if (!this.#lot[random.below(this.#lot.length)]!(this.#arrangement, random)) continue;
      const cutoff = clock.cost - temperature * Math.log(1 - random.next());
      if (clock.price(this.#arrangement, cutoff) > cutoff) {
        this.#arrangement.undo();
        continue;
      }
      clock.settle(this.#arrangement);
      this.#arrangement.keep();
      if (clock.cost >= this.#bestCost - LEAST_GAIN) continue;
      this.#bestCost = clock.cost;
      this.#best = this.#arrangement.written();
      improved = true;
    }
  }

  /** Goes on from these loads. */
  #take(loads: JobLoads): void {
    this.#arrangement.become(loads);
    this.#clock.settle(this.#arrangement);
    this.#arrangement.keep();
  }
}

function meanOf(figures: Float64Array): number {
  return figures.reduce((sum, figure) => sum + figure, 0) / figures.length;
}
