/**
 * Loads of jobs in the order in which they ask for an oven, changed in place by four primitive changes that are logged,
 * so that a move that is not kept is undone at once.
 */
import type { JobDay } from "./job-day.ts";

const ADD = 0;
const REMOVE = 1;
const OPEN = 2;
const CLOSE = 3;
const FIGURES = 3;

export class Arrangement {
  readonly day: JobDay;
  /** Load numbers in order; the first `loads` of it count. */
  readonly order: Int16Array;
  loads = 0;
  /** Per load number. */
  readonly jobsIn: Int16Array;
  readonly areaDm2: Float64Array;
  readonly minutes: Float64Array;
  readonly release: Float64Array;
  readonly family: Int32Array;
  /** Place in the order. */
  readonly placeOf: Int16Array;
  /** Per job: its load number. */
  readonly loadOf: Int16Array;
  /** Places changed since the log was last cleared; the first counts in the old and the new order alike. */
  firstChanged = Infinity;
  lastChanged = -1;
  readonly #rows: Int16Array;
  readonly #unused: number[] = [];
  /** Primitive changes since they were last kept, three figures each. */
  #log = new Int16Array(FIGURES * 64);
  #logged = 0;

  constructor(day: JobDay) {
    const { count } = day;
    this.day = day;
    this.order = new Int16Array(count + 1);
    this.jobsIn = new Int16Array(count + 1);
    this.areaDm2 = new Float64Array(count + 1);
    this.minutes = new Float64Array(count + 1);
    this.release = new Float64Array(count + 1);
    this.family = new Int32Array(count + 1);
    this.placeOf = new Int16Array(count + 1);
    this.loadOf = new Int16Array(count).fill(-1);
    this.#rows = new Int16Array((count + 1) * count);
    for (let load = count; load >= 0; load--) this.#unused.push(load);
  }

  /** The job at `index` of a load. */
  jobAt(load: number, index: number): number {
    return this.#rows[load * this.day.count + index]!;
  }

  jobsOf(load: number): number[] {
    return Array.from({ length: this.jobsIn[load]! }, (_, index) => this.jobAt(load, index));
  }

  /** Jobs of each load, in order. */
  written(): number[][] {
    return Array.from(this.order.subarray(0, this.loads), (load) => this.jobsOf(load));
  }

  /** Takes these loads in place of all it had; logged like any other change. */
  become(loads: readonly (readonly number[])[]): void {
    for (let job = 0; job < this.day.count; job++) if (this.loadOf[job]! >= 0) this.remove(job);
    for (const jobs of loads) {
      const load = this.open(this.loads, this.day.family[jobs[0]!]!);
      for (const job of jobs) this.add(load, job);
    }
  }

  /** True when the load has room for so much more of that family. */
  takes(load: number, family: number, areaDm2: number): boolean {
    return this.family[load] === family && this.areaDm2[load]! + areaDm2 <= this.day.roomDm2 + ROOM_TOLERANCE_DM2;
  }

  /** Opens an empty load at a place in the order and answers its number. */
  open(place: number, family: number): number {
    const load = this.#unused.pop()!;
    this.jobsIn[load] = 0;
    this.areaDm2[load] = this.minutes[load] = this.release[load] = 0;
    this.family[load] = family;
    this.#insert(place, load);
    this.#write(OPEN, load, place);
    this.#note(place, 1);
    return load;
  }

  add(load: number, job: number): void {
    this.#put(load, job);
    this.#write(ADD, load, job);
    this.#note(this.placeOf[load]!, 0);
  }

  /** Takes a job out of its load; a load left empty is closed. */
  remove(job: number): void {
    const load = this.loadOf[job]!;
    this.#leave(load, job);
    if (this.jobsIn[load] === 0) this.#close(load, this.placeOf[load]!);
  }

  /** Two jobs of different loads change places. */
  exchange(one: number, other: number): void {
    const oneLoad = this.loadOf[one]!;
    const otherLoad = this.loadOf[other]!;
    this.#leave(oneLoad, one);
    this.#leave(otherLoad, other);
    this.add(oneLoad, other);
    this.add(otherLoad, one);
  }

  /** A load goes to another place, counted without it. */
  shift(load: number, to: number): void {
    const from = this.placeOf[load]!;
    this.#close(load, from, false);
    this.#insert(to, load);
    this.#write(OPEN, load, to);
    this.#note(to, 1);
  }

  /** What has been changed stands. */
  keep(): void {
    this.#forget();
  }

  /** Takes back all that was changed since it was last kept. */
  undo(): void {
    const log = this.#log;
    for (let at = this.#logged - FIGURES; at >= 0; at -= FIGURES) {
      const load = log[at + 1]!;
      const figure = log[at + 2]!;
      if (log[at] === ADD) this.#take(load, figure);
      else if (log[at] === REMOVE) this.#put(load, figure);
      else if (log[at] === OPEN) {
        this.#delete(figure);
        if (this.jobsIn[load] === 0) this.#unused.push(load);
      } else {
        if (this.jobsIn[load] === 0) this.#unused.pop();
        this.#insert(figure, load);
      }
    }
    this.#forget();
  }

  #write(change: number, load: number, figure: number): void {
    if (this.#logged === this.#log.length) {
      const longer = new Int16Array(2 * this.#log.length);
      longer.set(this.#log);
      this.#log = longer;
    }
    this.#log[this.#logged++] = change;
    this.#log[this.#logged++] = load;
    this.#log[this.#logged++] = figure;
  }

  #forget(): void {
    this.#logged = 0;
    this.firstChanged = Infinity;
    this.lastChanged = -1;
  }

  #leave(load: number, job: number): void {
    this.#take(load, job);
    this.#write(REMOVE, load, job);
    this.#note(this.placeOf[load]!, 0);
  }

  #close(load: number, place: number, empties = true): void {
    this.#delete(place);
    if (empties) this.#unused.push(load);
    this.#write(CLOSE, load, place);
    this.#note(place, -1);
  }

  #note(place: number, grown: number): void {
    if (place <= this.lastChanged) this.lastChanged += grown;
    if (place < this.firstChanged) this.firstChanged = place;
    const last = grown < 0 ? place - 1 : place;
    if (last > this.lastChanged) this.lastChanged = last;
  }

  #insert(place: number, load: number): void {
    const { order, placeOf } = this;
    for (let at = this.loads; at > place; at--) {
      const other = order[at - 1]!;
      order[at] = other;
      placeOf[other] = at;
    }
    order[place] = load;
    placeOf[load] = place;
    this.loads++;
  }

  #delete(place: number): void {
    const { order, placeOf } = this;
    this.loads--;
    for (let at = place; at < this.loads; at++) {
      const other = order[at + 1]!;
      order[at] = other;
      placeOf[other] = at;
    }
  }

  #put(load: number, job: number): void {
    const { day } = this;
    this.#rows[load * day.count + this.jobsIn[load]!++] = job;
    this.loadOf[job] = load;
    this.family[load] = day.family[job]!;
    this.areaDm2[load]! += day.areaDm2[job]!;
    if (day.minutes[job]! > this.minutes[load]!) this.minutes[load] = day.minutes[job]!;
    if (day.release[job]! > this.release[load]!) this.release[load] = day.release[job]!;
  }

  #take(load: number, job: number): void {
    const { day } = this;
    const first = load * day.count;
    const last = first + --this.jobsIn[load]!;
    let at = first;
    while (this.#rows[at] !== job) at++;
    this.#rows[at] = this.#rows[last]!;
    let areaDm2 = 0;
    let minutes = 0;
    let release = 0;
    for (let index = first; index < last; index++) {
      const other = this.#rows[index]!;
      areaDm2 += day.areaDm2[other]!;
      if (day.minutes[other]! > minutes) minutes = day.minutes[other]!;
      if (day.release[other]! > release) release = day.release[other]!;
    }
    this.areaDm2[load] = areaDm2;
    this.minutes[load] = minutes;
    this.release[load] = release;
  }
}

/** Sums of areas that differ by less are equal; the recipes allow as much. */
const ROOM_TOLERANCE_DM2 = 1e-9;
