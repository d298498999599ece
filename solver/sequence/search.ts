/**
 * Stage 4 of plan.ts: better sequences. First many are built anew, each load chosen by where it leads, others led by ranks; then
 * simulated annealing over small moves of loads, with stretches filled afresh and destroy-and-repair between them, warmed up
 * several times from the best, which is polished each time. On days of some pans the first of two searches builds and anneals anew
 * several times before that. Every improvement is timed without rounding before it counts.
 */
import type { Lp } from "../lp/lp.ts";
import type { Random } from "../random.ts";
import { restOf } from "../stop.ts";
import type { Progress } from "../stop.ts";
import type { WarmUp } from "./budget-shares.ts";
import {
  DISPATCH_UNTIL,
  dispatchUntil,
  FEW_DISPATCHED,
  FEWEST_PANS_OF_LINES,
  LARGE_LOOK_AHEAD_UNTIL,
  LINE_FROM,
  LINES_UNTIL,
  LINES_WHERE_LATE,
  LINES_WHERE_ON_TIME,
  LOOK_AHEAD_UNTIL,
  MOST_OF_LINE,
  POLISH,
  RANKS_SHARE,
  SECOND_DISPATCH_UNTIL,
  TRY_FROM,
  TRY_UNTIL,
  WARM_UPS_AFTER_LINES,
  warmUpsOf,
} from "./budget-shares.ts";
import { Evaluator } from "./evaluate.ts";
import { LpIdeas } from "./lp-ideas.ts";
import { Draft } from "./draft.ts";
import type { IsSpentAfter } from "./neighbours.ts";
import { Neighbours } from "./neighbours.ts";
import { Dispatcher } from "./dispatch.ts";
import { dispatchSearch } from "./dispatch-search.ts";
import type { Improvement } from "./improvement.ts";
import { ownLine, walkable } from "./improvement.ts";
import { jointFirings } from "./joint-firings.ts";
import { polish } from "./polish.ts";
import { foresightOf, LookAhead } from "./look-ahead.ts";
import type { Sequence } from "./sequence.ts";
import { studyLoads } from "./study-loads.ts";
import type { Timetable } from "./timetable.ts";

/**
 * On days of more pans there is time for one way at most: where promises clash searches look ahead and do not rank, and two of them go
 * on from the better one's best.
 */
const MOST_PANS_OF_MANY_WAYS = 45;
const COLDEST = 2e-5;
/** While tickets are on time, a minute of all bakes' mean done is worth so much of the crew's; late, they pull by themselves. */
const PULL = 0.3;
const MOST_LATE_SHARE = 0.05;

export interface SearchParts {
  /** With and without rounding of chamber temperatures. */
  readonly rough: Timetable;
  readonly exact: Timetable;
  readonly lp: Lp;
  readonly random: Random;
  readonly progress: Progress;
  readonly start: Sequence;
  /** See PlanOptions. */
  readonly isSecond: boolean;
}

export class Search {
  readonly #rough: Evaluator;
  readonly #exact: Evaluator;
  readonly #neighbours: Neighbours;
  readonly #lookAhead: LookAhead;
  readonly #dispatcher: Dispatcher;
  readonly #isSecond: boolean;
  readonly #random: Random;
  #progress: Progress;
  readonly #lpIdeas: LpIdeas;
  #best: Improvement;
  /** The best that it has found by itself. */
  #own: Improvement;

  constructor({ rough, exact, lp, random, progress, start, isSecond }: SearchParts) {
    this.#rough = new Evaluator(rough);
    this.#exact = new Evaluator(exact);
    this.#neighbours = new Neighbours(this.#rough, random);
    this.#lookAhead = new LookAhead(rough, foresightOf(!this.#hasManyWays, isSecond));
    // Loads that take a closer look find some plans and miss others: of two searches one builds of them.
    this.#dispatcher = new Dispatcher(rough, !isSecond);
    this.#isSecond = isSecond;
    this.#random = random;
    this.#progress = progress;
    this.#lpIdeas = new LpIdeas(rough, this.#exact, lp, random);
    this.#best = { sequence: start, cost: this.#exact.cost(start) };
    this.#own = this.#best;
    this.#exact.accept(start);
  }

  get best(): Improvement {
    return this.#best;
  }

  /** Sequences timed elsewhere on behalf of this search. */
  timedElsewhere = 0;

  /** Keeps a sequence found elsewhere as the best when it is; true when kept. */
  offer(sequence: Sequence): boolean {
    studyLoads(this.#exact.timetable, sequence.loads);
    return this.#keepBest({ sequence, cost: this.#exact.cost(sequence) });
  }

  /** Sequences timed, filled and built so far, the measure of a step budget. */
  get steps(): number {
    const timed = this.#rough.timed + this.#exact.timed + this.#lpIdeas.timed + this.timedElsewhere;
    return timed + this.#neighbours.steps + this.#lookAhead.followed + this.#dispatcher.built;
  }

  /** Searches until its budget is spent, handing out each improvement; `undefined` now and then, so that a caller may stop it. */
  *run(): Generator<Improvement | undefined> {
    if (this.#rough.timetable.day.bakes.length === 0) return;
    // First sequences take a tenth of some budgets where this code has not run yet: no stage is to be passed over for that.
    this.#progress = restOf(this.#progress, this.steps);
    this.#own = this.#best;
    const given = this.#best;
    yield* this.#foresee();
    if (this.#hasLines) return yield* this.#lines();
    const isLate = this.#isLate();
    const isShort = isLate && (this.#isSecond || !this.#hasManyWays);
    if (this.#hasManyWays || !isLate) yield* this.#dispatch(isShort ? SECOND_DISPATCH_UNTIL : 1);
    let since = this.#progress(this.steps);
    if (since < DISPATCH_UNTIL) {
      yield* this.#anneal(isShort ? this.#own : given, TRY_FROM, since, TRY_UNTIL);
      since = TRY_UNTIL;
    }
    yield* this.#polish(since + POLISH);
    const fewBuilt = this.#dispatcher.built < FEW_DISPATCHED;
    this.#neighbours.isLargeDay = fewBuilt;
    yield* this.#warmUp(warmUpsOf(this.#rough.timetable.day.pans.length, fewBuilt), since, this.#hasManyWays);
  }

  /** `begun`: when; the first begins from its own best where it `isOwn`. */
  *#warmUp(warmUps: readonly WarmUp[], begun: number, isOwn = false): Generator<Improvement | undefined> {
    let since = begun;
    for (const [at, { until, from }] of warmUps.entries()) {
      const start = at === 0 && isOwn ? ownLine(this.#own, this.#best) : this.#best;
      yield* this.#anneal(start, from, since, until);
      const isLast = at === warmUps.length - 1;
      yield* this.#polish(isLast ? 1 : until + POLISH, isLast);
      since = until;
    }
  }

  /** Several searches one after another, each built anew and cooled down once, and then warm-ups of the best. */
  *#lines(): Generator<Improvement | undefined> {
    this.#neighbours.isLargeDay = true;
    const lines = this.#isLate() ? LINES_WHERE_LATE : LINES_WHERE_ON_TIME;
    for (let left = lines; left > 0; left--) {
      const begun = this.#progress(this.steps);
      const until = begun + Math.max(0, LINES_UNTIL - begun) / left;
      if (left < lines) this.#own = { sequence: this.#best.sequence, cost: Infinity };
      yield* this.#rank(() => this.#progress(this.steps) >= begun + RANKS_SHARE * (until - begun));
      const start = ownLine(this.#own, this.#best, MOST_OF_LINE);
      yield* this.#anneal(start, LINE_FROM, this.#progress(this.steps), until);
    }
    yield* this.#polish(LINES_UNTIL + POLISH);
    yield* this.#warmUp(WARM_UPS_AFTER_LINES, LINES_UNTIL);
  }

  get #hasLines(): boolean {
    return !this.#isSecond && this.#hasManyWays && this.#rough.timetable.day.pans.length >= FEWEST_PANS_OF_LINES;
  }

  get #hasManyWays(): boolean {
    return this.#rough.timetable.day.pans.length <= MOST_PANS_OF_MANY_WAYS;
  }

  /** For as long as promises clash. */
  *#foresee(): Generator<Improvement | undefined> {
    if (!this.#isLate()) return;
    const until = this.#hasManyWays ? LOOK_AHEAD_UNTIL : LARGE_LOOK_AHEAD_UNTIL;
    for (const found of this.#lookAhead.search()) {
      yield found !== undefined && this.#keep(found.sequence) ? this.#best : undefined;
      if (this.#progress(this.steps) >= until || !this.#isLate()) return;
    }
  }

  *#dispatch(most: number): Generator<Improvement | undefined> {
    yield* this.#rank(() => this.#progress(this.steps) >= Math.min(most, dispatchUntil(this.#dispatcher.built)));
  }

  *#rank(spent: () => boolean): Generator<Improvement | undefined> {
    for (const sequence of dispatchSearch(this.#dispatcher, this.#best.sequence, this.#random, spent))
      yield sequence !== undefined && this.#keep(sequence) ? this.#best : undefined;
  }

  /** The last time the firings of all loads are chosen together too. */
  *#polish(until: number, isLast = false): Generator<Improvement | undefined> {
    const spent = (): boolean => this.#progress(this.steps) >= Math.min(1, until);
    for (;;) {
      const before = this.#best;
      const was = { isOwn: before === this.#own, unpolished: before.unpolished ?? before.sequence };
      for (const better of polish(this.#exact, before, spent, isLast)) yield* this.#take(better, was);
      if (!isLast || spent()) return;
      const polished = this.#best;
      for (const better of jointFirings(this.#exact, polished, spent)) yield* this.#take(better, was);
      this.#exact.accept(this.#best.sequence);
      if (this.#best === polished) return;
    }
  }

  /** What the last hand has made of a sequence, unless another search has sent a better one meanwhile. */
  *#take(
    better: Improvement | undefined,
    { isOwn, unpolished }: { readonly isOwn: boolean; readonly unpolished: Sequence },
  ): Generator<Improvement | undefined> {
    if (better === undefined || better.cost >= this.#best.cost) return yield undefined;
    this.#best = { ...better, unpolished };
    if (isOwn) this.#own = this.#best;
    yield this.#best;
  }

  *#anneal(start: Improvement, hottest: number, since: number, until: number): Generator<Improvement | undefined> {
    this.#rough.pull = this.#pull();
    // Where promises clash there are better things to do with the time.
    this.#rough.timetable.book.doubtsTold = !this.#isLate();
    let current = walkable(start, (sequence) => this.#rough.cost(sequence));
    let cost = this.#rough.cost(current);
    let lowest = cost - this.#rough.pulled;
    this.#rough.accept(current);
    let draft = new Draft(this.#rough.timetable.book, current.loads);
    const isSpentAfter: IsSpentAfter = (steps) => this.#progress(this.steps + steps) >= 1;
    for (let round = 0; ; round++) {
      const progress = this.#progress(this.steps);
      if (progress >= until || progress >= 1) return;
      if (round % 64 === 0) yield undefined;
      // The walk itself goes on from where it is: led to the best each time, it would search there only.
      if (this.#askLp(current)) yield this.#best;
      const through = (progress - since) / (until - since);
      const temperature = Math.max(cost, 1e-9) * hottest * (COLDEST / hottest) ** through;
      const cutoff = cost - temperature * Math.log(1 - this.#random.next());
      const candidate = this.#neighbours.next(current, draft, cutoff, isSpentAfter);
      if (candidate === undefined) continue;
      const candidateCost = this.#rough.cost(candidate, cutoff);
      if (candidateCost > cutoff) continue;
      const plain = candidateCost - this.#rough.pulled;
      current = candidate;
      cost = candidateCost;
      this.#rough.accept(current);
      draft = new Draft(this.#rough.timetable.book, current.loads);
      if (plain >= lowest) continue;
      lowest = plain;
      if (this.#keep(current)) yield this.#best;
    }
  }

  /** See Evaluator.pull; by the best plan so far. */
  #pull(): number {
    return this.#isLate() ? 0 : (PULL * this.#rough.timetable.day.request.prices.crewPerHour) / 60;
  }

  /** The best plan so far pays for lateness. */
  #isLate(): boolean {
    return this.#exact.end.lateCost > MOST_LATE_SHARE * this.#best.cost;
  }

  /** Now and then, what the LP solver makes of the best; true when that is better. */
  #askLp(current: Sequence): boolean {
    if (!this.#lpIdeas.isDue(this.steps)) return false;
    const idea = this.#lpIdeas.ask(this.#best.sequence, current);
    const kept = idea !== undefined && this.#keep(idea);
    this.#lpIdeas.settle(this.steps, kept);
    return kept;
  }

  /** Keeps a sequence as the best when it is so without rounding too. */
  #keep(sequence: Sequence): boolean {
    const found = { sequence, cost: this.#exact.cost(sequence) };
    if (found.cost < this.#own.cost) this.#own = found;
    return this.#keepBest(found);
  }

  #keepBest(found: Improvement): boolean {
    if (found.cost >= this.#best.cost - 1e-9) return false;
    this.#best = found;
    this.#exact.accept(found.sequence);
    return true;
  }
}
