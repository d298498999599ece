/** How soon benches, booth or ovens can be through with their tasks: one-machine heads and tails, shared by several. */
import type { Task } from "./chains.ts";
import type { StaffedClock } from "./staffed-clock.ts";

/**
 * A set of tasks that none begins before `head` and each leaves at least `tail` minutes. Together they take `minutes` of
 * all machines; leaving out one coat takes off at most `mostPerCoat`.
 */
export interface TaskSet {
  readonly head: number;
  readonly tail: number;
  readonly minutes: number;
  readonly mostPerCoat: number;
}

/** As many heads and tails are looked at, spread evenly over all there are. */
const MOST_LEVELS = 40;

/**
 * Sets by head and tail. `changeoverMinutes` between paints of one machine; of the paints in a set all but the first on
 * each machine cost one, unless it is made in a break.
 */
export function taskSets(tasks: readonly Task[], changeoverMinutes: number, freeChangeovers: number): TaskSet[] {
  const heads = levels(tasks.map((task) => task.head));
  const tails = levels(tasks.map((task) => task.tail));
  const sets: TaskSet[] = [];
  for (const head of heads)
    for (const tail of tails) {
      let mostPerCoat = 0;
      const paints = new Set<number>();
      let minutes = 0;
      for (const task of tasks) {
        if (task.head < head || task.tail < tail) continue;
        minutes += task.minutes;
        paints.add(task.kind);
        mostPerCoat = Math.max(mostPerCoat, task.minutes + changeoverMinutes);
      }
      if (paints.size === 0) continue;
      minutes += Math.max(0, paints.size - freeChangeovers) * changeoverMinutes;
      sets.push({ head, tail, minutes, mostPerCoat });
    }
  return sets;
}

/** The last of a set ends when the machines have run for its minutes after its head, and its tail comes after that. */
export function finishOf(sets: readonly TaskSet[], machines: number, clock: StaffedClock, left: number): number {
  let finish = -Infinity;
  for (const { head, tail, minutes, mostPerCoat } of sets) {
    const work = (minutes - left * mostPerCoat) / machines;
    if (work > 0) finish = Math.max(finish, clock.minuteOf(clock.read(head) + work) + tail);
  }
  return finish;
}

function levels(values: readonly number[]): number[] {
  const sorted = [...new Set(values)].sort((a, b) => a - b);
  if (sorted.length <= MOST_LEVELS) return sorted;
  const step = (sorted.length - 1) / (MOST_LEVELS - 1);
  return Array.from({ length: MOST_LEVELS }, (_, index) => sorted[Math.round(index * step)]!);
}
