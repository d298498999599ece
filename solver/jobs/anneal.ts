/** Better arrangements of jobs: simulated annealing over small moves and large, warmed up a few times more from the best. */
import type { Random } from "../random.ts";
import type { Progress } from "../stop.ts";
import { Arrangement } from "./arrangement.ts";
import { Clock } from "./clock.ts";
import type { JobDay } from "./job-day.ts";
import type { Move } from "./moves.ts";
import { exchange, join, merge, part, push, shift, split } from "./moves.ts";
import { refilling } from "./refill.ts";

/** Jobs of each load, loads in the order in which they ask for an oven. */
export type JobLoads = readonly (readonly number[])[];

interface Lot {
  readonly move: Move;
  /** Steps that a try counts for. */
  readonly steps: number;
}

const SMALL: readonly { readonly move: Move; readonly share: number }[] = [
  { move: join, share: 30 },
  { move: exchange, share: 25 },
  { move: shift, share: 20 },
  { move: push, share: 10 },
  { move: part, share: 6 },
  { move: split, share: 5 },
  { move: merge, share: 4 },
];
/** Tries that fill loads afresh where nothing is promised, for a hundred small ones; each takes the time of so many steps. */
const REFILL_SHARE = 10;
const REFILL_STEPS = 50;

/** Share of the budget at which each ends, and how much of the hottest temperature it starts from. */
interface WarmUp {
  readonly until: number;
  readonly from: number;
}

const WARM_UPS: readonly WarmUp[] = [
  { until: 0.8, from: 1 },
  { until: 1, from: 0.25 },
];
/** Where promises count, one long cooling often ends beside the best orders of whole loads: several short ones seldom do. */
const PROMISED_WARM_UPS: readonly WarmUp[] = [
  { until: 0.45, from: 1 },
  { until: 0.59, from: 0.25 },
  { until: 0.73, from: 0.25 },
  { until: 0.87, from: 0.25 },
  { until: 1, from: 0.25 },
];
/** Rounds between looks at the budget, and steps between breaths for the caller. */
const LOOK = 64;
const BREATH = 16384;
const LEAST_GAIN = 1e-9;

export class JobSearch {
  /** Changes tried so far. */
  steps = 0;
  readonly #arrangement: Arrangement;
  readonly #clock: Clock;
  readonly #random: Random;
  readonly #lot: readonly Lot[];
  readonly #warmUps: readonly WarmUp[];
  readonly #hottest: number;
  readonly #coldest: number;
  #best: JobLoads;
  #bestCost: number;

  constructor(day: JobDay, start: JobLoads, random: Random) {
    this.#arrangement = new Arrangement(day);
    this.#clock = new Clock(day);
    this.#random = random;
    const promised = day.due.some((due) => due < Infinity);
    const ordered = promised || day.ovens > 1 || day.release.some((release) => release > day.from);
    const small = SMALL.filter(({ move }) => ordered || move !== shift).map((one) => ({ ...one, steps: 1 }));
    const large = promised ? [] : [{ move: refilling(day), share: REFILL_SHARE, steps: REFILL_STEPS }];
    this.#lot = [...small, ...large].flatMap(({ move, share, steps }) =>
      Array.from({ length: share }, () => ({ move, steps })),
    );
    this.#warmUps = promised ? PROMISED_WARM_UPS : WARM_UPS;
    // A late load costs about this much: at several of it whole families of loads still change places. Many jobs get fewer
    // steps each and must end colder. Without promises all that counts is minutes, and the last of them are won in the cold.
    const price = meanOf(day.minutes) * (meanOf(day.latePerMinute) + day.crewPerMinute + day.gasPerMinute);
    this.#hottest = price * (promised ? 8 : 0.2);
    this.#coldest = price * (promised ? Math.min(0.2, 12 / day.count) : 0.002);
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
    for (const { until, from } of this.#warmUps) {
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
    let breathed = this.steps - BREATH;
    for (let round = 0; ; round++) {
      if (round % LOOK === 0) {
        const now = progress(this.steps);
        if (now >= until) {
          yield improved;
          return;
        }
        temperature = hottest * (this.#coldest / hottest) ** ((now - since) / (until - since));
      }
      if (this.steps - breathed >= BREATH) {
        yield improved;
        improved = false;
        breathed = this.steps;
      }
      // A try that finds nothing to change counts too: where nothing can be changed the budget still ends.
      const { move, steps } = this.#lot[random.below(this.#lot.length)]!;
      this.steps += steps;
      if (!move(this.#arrangement, random)) continue;
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
