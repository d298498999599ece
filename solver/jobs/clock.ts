/**
 * What an arrangement costs: each load in turn goes into the oven that is free first. The arrangement last kept is
 * remembered load by load, so that a changed one is timed only from its first change on, and only until its ovens are
 * free at the same minutes again – or are all as late as before, when what follows can only cost as much or more.
 */
import type { Arrangement } from "./arrangement.ts";
import type { JobDay } from "./job-day.ts";

export class Clock {
  /** Of the arrangement last kept. */
  cost = Infinity;
  readonly #day: JobDay;
  /** Before each load of the arrangement kept: when the ovens are free (ascending), what is paid, the last load's end. */
  readonly #freeBefore: Float64Array;
  readonly #paidBefore: Float64Array;
  readonly #doneBefore: Float64Array;
  /** The last end of this load and those after it. */
  readonly #doneFrom: Float64Array;
  readonly #endOf: Float64Array;
  #loads = 0;
  readonly #free: Float64Array;
  /** Of the load timed last. */
  #paid = 0;
  #ends = 0;

  constructor(day: JobDay) {
    const places = day.count + 2;
    this.#day = day;
    this.#freeBefore = new Float64Array(places * day.ovens).fill(day.from, 0, day.ovens);
    this.#paidBefore = new Float64Array(places);
    this.#doneBefore = new Float64Array(places).fill(day.planFrom, 0, 1);
    this.#doneFrom = new Float64Array(places);
    this.#endOf = new Float64Array(places);
    this.#free = new Float64Array(day.ovens);
  }

  /** Cost of the arrangement as changed; Infinity as soon as it is sure to exceed `cutoff`. */
  price(arrangement: Arrangement, cutoff: number): number {
    const { firstChanged, lastChanged, loads, order } = arrangement;
    if (firstChanged === Infinity) return this.cost;
    const grown = loads - this.#loads;
    this.#start(firstChanged);
    let paid = this.#paidBefore[firstChanged]!;
    let done = this.#doneBefore[firstChanged]!;
    for (let at = firstChanged; at < loads; at++) {
      if (at > lastChanged) {
        const met = this.#compare(at - grown);
        if (met !== DIFFERENT) {
          const rest = this.#paidBefore[this.#loads]! - this.#paidBefore[at - grown]!;
          const whole = paid + rest + this.#crew(Math.max(done, this.#doneFrom[at - grown]!));
          if (met === EQUAL) return whole;
          if (whole > cutoff) return Infinity;
        }
      }
      this.#pass(arrangement, order[at]!);
      paid += this.#paid;
      if (this.#ends > done) done = this.#ends;
      if (paid + this.#crew(done) > cutoff) return Infinity;
    }
    return paid + this.#crew(done);
  }

  /** Remembers the arrangement as changed, as the one that others are compared with. */
  settle(arrangement: Arrangement): void {
    const { ovens } = this.#day;
    const { loads, order } = arrangement;
    const first = Math.min(arrangement.firstChanged, loads);
    this.#start(first);
    for (let at = first; at < loads; at++) {
      this.#pass(arrangement, order[at]!);
      const next = at + 1;
      this.#paidBefore[next] = this.#paidBefore[at]! + this.#paid;
      this.#doneBefore[next] = Math.max(this.#doneBefore[at]!, this.#ends);
      this.#endOf[at] = this.#ends;
      for (let oven = 0; oven < ovens; oven++) this.#freeBefore[next * ovens + oven] = this.#free[oven]!;
    }
    this.#doneFrom[loads] = this.#day.planFrom;
    for (let at = loads - 1; at >= 0; at--) this.#doneFrom[at] = Math.max(this.#endOf[at]!, this.#doneFrom[at + 1]!);
    this.#loads = loads;
    this.cost = this.#paidBefore[loads]! + this.#crew(this.#doneBefore[loads]!);
  }

  #start(place: number): void {
    const { ovens } = this.#day;
    for (let oven = 0; oven < ovens; oven++) this.#free[oven] = this.#freeBefore[place * ovens + oven]!;
  }

  /** The ovens as they are free now against those before a load of the arrangement kept. */
  #compare(place: number): Met {
    const { ovens } = this.#day;
    let met: Met = EQUAL;
    for (let oven = 0; oven < ovens; oven++) {
      const was = this.#freeBefore[place * ovens + oven]!;
      if (this.#free[oven]! < was) return DIFFERENT;
      if (this.#free[oven]! > was) met = LATER;
    }
    return met;
  }

  #crew(done: number): number {
    return (done - this.#day.planFrom) * this.#day.crewPerMinute;
  }

  /** Times one load: what it adds to pay, and when it ends. A load that would end after hours stays out of the oven. */
  #pass(arrangement: Arrangement, load: number): void {
    const day = this.#day;
    const free = this.#free;
    const opens = Math.max(Math.ceil(free[0]!), arrangement.release[load]!);
    const minutes = arrangement.minutes[load]!;
    const ends = opens + day.loadMinutes + minutes + day.unloadMinutes;
    const jobs = arrangement.jobsIn[load]!;
    let paid = 0;
    if (ends > day.end) {
      for (let index = 0; index < jobs; index++) paid += day.leftOver[arrangement.jobAt(load, index)]!;
      this.#paid = paid;
      this.#ends = day.planFrom;
      return;
    }
    for (let index = 0; index < jobs; index++) {
      const job = arrangement.jobAt(load, index);
      const late = ends - day.due[job]!;
      if (late > 0) paid += late * day.latePerMinute[job]!;
    }
    let oven = 1;
    for (; oven < day.ovens && free[oven]! < ends; oven++) free[oven - 1] = free[oven]!;
    free[oven - 1] = ends;
    this.#paid = paid + minutes * day.gasPerMinute;
    this.#ends = ends;
  }
}

/** How the ovens stand against the arrangement kept: free at the same minutes, none sooner, or neither. */
const EQUAL = 0;
const LATER = 1;
const DIFFERENT = 2;
type Met = typeof EQUAL | typeof LATER | typeof DIFFERENT;
