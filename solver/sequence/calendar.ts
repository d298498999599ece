/**
 * The timetable of one kind of hands, benches or sprayers: tasks without overlap on each, with change-over minutes
 * between tasks of different paint. Tasks are put in at the earliest gap; the sequence decides who asks first.
 */
import type { StaffedTime } from "./staffed-time.ts";

export class Calendar {
  readonly servers: number;
  readonly #capacity: number;
  readonly #changeover: number;
  readonly #counts: Int32Array;
  readonly #starts: Int32Array;
  readonly #ends: Int32Array;
  readonly #paints: Int32Array;
  readonly #owners: Int32Array;

  /** `capacity`: the most tasks that one server can ever hold. */
  constructor(servers: number, capacity: number, changeoverMinutes: number) {
    this.servers = servers;
    this.#capacity = capacity;
    this.#changeover = changeoverMinutes;
    this.#counts = new Int32Array(servers);
    this.#starts = new Int32Array(servers * capacity);
    this.#ends = new Int32Array(servers * capacity);
    this.#paints = new Int32Array(servers * capacity);
    this.#owners = new Int32Array(servers * capacity);
  }

  copyFrom(other: Calendar): void {
    for (let server = 0; server < this.servers; server++) {
      const count = other.#counts[server]!;
      const base = server * this.#capacity;
      this.#counts[server] = count;
      for (let at = base; at < base + count; at++) {
        this.#starts[at] = other.#starts[at]!;
        this.#ends[at] = other.#ends[at]!;
        this.#paints[at] = other.#paints[at]!;
        this.#owners[at] = other.#owners[at]!;
      }
    }
  }

  /**
   * Puts a task in at the earliest possible start ≥ `from` and answers that start, or -1 when none fits staffed time.
   * `owner` names the task for `remove` and `tasks`.
   */
  insert(from: number, minutes: number, paint: number, owner: number, staffed: StaffedTime): number {
    let bestStart = -1;
    let bestServer = -1;
    for (let server = 0; server < this.servers; server++) {
      const start = this.#earliest(server, from, minutes, paint, staffed);
      if (start >= 0 && (bestStart < 0 || start < bestStart)) {
        bestStart = start;
        bestServer = server;
      }
    }
    if (bestServer >= 0) this.#put(bestServer, bestStart, bestStart + minutes, paint, owner);
    return bestStart;
  }

  remove(owner: number): void {
    for (let server = 0; server < this.servers; server++) {
      const base = server * this.#capacity;
      const count = this.#counts[server]!;
      for (let at = base + count - 1; at >= base; at--) {
        if (this.#owners[at] !== owner) continue;
        for (let after = at + 1; after < base + count; after++) this.#move(after, after - 1);
        this.#counts[server] = count - 1;
        return;
      }
    }
  }

  /** Every task, server by server (from 0), in time order. */
  tasks(): { server: number; owner: number; from: number; to: number }[] {
    const all = [];
    for (let server = 0; server < this.servers; server++)
      for (let at = server * this.#capacity; at < server * this.#capacity + this.#counts[server]!; at++)
        all.push({ server, owner: this.#owners[at]!, from: this.#starts[at]!, to: this.#ends[at]! });
    return all;
  }

  #earliest(server: number, from: number, minutes: number, paint: number, staffed: StaffedTime): number {
    const starts = this.#starts;
    const ends = this.#ends;
    const paints = this.#paints;
    const changeover = this.#changeover;
    const base = server * this.#capacity;
    const end = base + this.#counts[server]!;
    let next = this.#firstEndingAfter(base, end, from);
    let start = from;
    for (;;) {
      if (next > base) {
        const clear = ends[next - 1]! + (paints[next - 1] === paint ? 0 : changeover);
        if (clear > start) start = clear;
      }
      // Most gaps are too short whether or not anybody is there.
      if (next < end && start + minutes > starts[next]!) {
        next++;
        continue;
      }
      start = staffed.fit(start, minutes);
      if (start < 0 || next >= end) return start;
      if (start + minutes + (paints[next] === paint ? 0 : changeover) <= starts[next]!) return start;
      next++;
    }
  }

  #firstEndingAfter(base: number, end: number, minute: number): number {
    let low = base;
    let high = end;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#ends[middle]! > minute) high = middle;
      else low = middle + 1;
    }
    return low;
  }

  #put(server: number, start: number, end: number, paint: number, owner: number): void {
    const base = server * this.#capacity;
    const count = this.#counts[server]!;
    let at = base + count;
    for (; at > base && this.#starts[at - 1]! >= end; at--) this.#move(at - 1, at);
    this.#starts[at] = start;
    this.#ends[at] = end;
    this.#paints[at] = paint;
    this.#owners[at] = owner;
    this.#counts[server] = count + 1;
  }

  #move(from: number, to: number): void {
    this.#starts[to] = this.#starts[from]!;
    this.#ends[to] = this.#ends[from]!;
    this.#paints[to] = this.#paints[from]!;
    this.#owners[to] = this.#owners[from]!;
  }
}
