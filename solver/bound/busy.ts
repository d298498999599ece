/**
 * When hands are through with a set of tasks at the soonest: the exact condition of work that may be interrupted, and of several
 * hands that each takes whole tasks only.
 */
import type { StaffedClock } from "./staffed-clock.ts";

export interface HandsAtWork {
  readonly hands: number;
  readonly changeoverMinutes: number;
  /** Change-overs that may fall into breaks, and the first paint of each hand. */
  readonly freeChangeovers: number;
  readonly clock: StaffedClock;
  readonly breaks: boolean;
}

/** Numbers per task in a list: head, minutes, paint, minutes to the door (its flash), minutes to the pan's last done. */
export const TASK = 5;

/** One task; the pan's last done comes no sooner than `tail` after its end. */
export interface HandTask {
  readonly head: number;
  readonly minutes: number;
  readonly paint: number;
  readonly flash: number;
  readonly tail: number;
}

/** Tasks in a list as `TASK` says, latest head first. `withFlash`: until the last has flashed. */
export function busyUntil(tasks: readonly number[], work: HandsAtWork, withFlash: boolean): number {
  const count = tasks.length / TASK;
  let until = -Infinity;
  let minutes = 0;
  let paints = 0;
  let colours = 0;
  let tail = Infinity;
  let shortest = Infinity;
  for (let at = 0; at < count; at++) {
    const head = tasks[TASK * at]!;
    minutes += tasks[TASK * at + 1]!;
    shortest = Math.min(shortest, tasks[TASK * at + 1]!);
    const bit = 1 << (tasks[TASK * at + 2]! % 31);
    if ((paints & bit) === 0) {
      paints |= bit;
      colours++;
    }
    if (withFlash) tail = Math.min(tail, tasks[TASK * at + 3]!);
    const all = minutes + Math.max(0, colours - work.freeChangeovers) * work.changeoverMinutes;
    // Of so many tasks one hand has its share, rounded up.
    const span = Math.max(all / work.hands, Math.ceil((at + 1) / work.hands) * shortest);
    const end =
      (work.breaks ? work.clock.minuteOf(work.clock.read(head) + span) : head + span) + (withFlash ? tail : 0);
    if (end > until) until = end;
  }
  return until;
}

/** The tasks with one more, latest head first. */
export function withTask(tasks: readonly number[], { head, minutes, paint, flash, tail }: HandTask): number[] {
  const all: number[] = [];
  let put = false;
  for (let at = 0; at < tasks.length; at += TASK) {
    if (!put && tasks[at]! < head) {
      all.push(head, minutes, paint, flash, tail);
      put = true;
    }
    for (let part = 0; part < TASK; part++) all.push(tasks[at + part]!);
  }
  if (!put) all.push(head, minutes, paint, flash, tail);
  return all;
}

/**
 * From every head on no more work, where several hands share it no more tasks of at least the same length either, and where
 * `colours` matter no other ones.
 */
export function lighter(
  one: readonly number[],
  other: readonly number[],
  { hands }: HandsAtWork,
  colours: boolean,
): boolean {
  if (one.length === 0 || one === other) return true;
  let mine = 0;
  let myPaints = 0;
  let its = 0;
  let itsPaints = 0;
  let next = 0;
  let myShortest = Infinity;
  let itsShortest = Infinity;
  for (let at = 0; at < one.length; at += TASK) {
    const head = one[at]!;
    mine += one[at + 1]!;
    myShortest = Math.min(myShortest, one[at + 1]!);
    myPaints |= 1 << (one[at + 2]! % 31);
    while (next < other.length && other[next]! >= head) {
      its += other[next + 1]!;
      itsShortest = Math.min(itsShortest, other[next + 1]!);
      itsPaints |= 1 << (other[next + 2]! % 31);
      next += TASK;
    }
    if (hands > 1 && (at >= next || myShortest > itsShortest)) return false;
    if (mine > its || (colours && (myPaints & ~itsPaints) !== 0)) return false;
  }
  return true;
}
