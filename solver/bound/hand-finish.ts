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

/** Hands that change over between paints; of the paints in a set all but the first on each machine cost one, unless in a break. */
export interface Changeovers {
  readonly minutes: number;
  readonly free: number;
}

/** Sets by head and tail. `bakes`: of the same pans. */
export function taskSets(tasks: readonly Task[], bakes: readonly Task[], changeovers: Changeovers): TaskSet[] {
  const ends = bakeTails(bakes);
  const heads = levels(tasks.map((task) => task.head));
  const tails = levels(tasks.map((task) => task.tail));
  const sets: TaskSet[] = [];
  for (const head of heads)
    for (const tail of tails) {
      const perPan = new Map<number, Task[]>();
      const paints = new Map<number, number>();
      let minutes = 0;
      for (const task of tasks) {
        if (task.head < head || task.tail < tail) continue;
        minutes += task.minutes;
        paints.set(task.kind, (paints.get(task.kind) ?? 0) + 1);
        const own = perPan.get(task.pan);
        if (own === undefined) perPan.set(task.pan, [task]);
        else own.push(task);
      }
      if (paints.size === 0) continue;
      minutes += Math.max(0, paints.size - changeovers.free) * changeovers.minutes;
      // A paint is gone once all its tasks are.
      const worth = (task: Task): number => task.minutes + changeovers.minutes / paints.get(task.kind)!;
      let mostPerCoat = 0;
      for (const [pan, own] of perPan)
        mostPerCoat = Math.max(mostPerCoat, mostTakenOut(own, ends.get(pan) ?? [], tail, worth));
      sets.push({ head, tail, minutes, mostPerCoat });
    }
  return sets;
}

/** Per pan: the tails of its bakes, the last bake's first. */
function bakeTails(bakes: readonly Task[]): Map<number, number[]> {
  const ends = new Map<number, number[]>();
  for (const { pan, tail } of bakes) {
    const own = ends.get(pan);
    if (own === undefined) ends.set(pan, [tail]);
    else own.push(tail);
  }
  for (const own of ends.values()) own.sort((a, b) => a - b);
  return ends;
}

/**
 * What each of a pan's coats left over, the last ones, takes out of a set at most by `worth`: its own task, and those before it that
 * then leave less than `tail`. `own`: the pan's tasks in the set.
 */
function mostTakenOut(
  own: readonly Task[],
  ends: readonly number[],
  tail: number,
  worth: (task: Task) => number,
): number {
  let most = 0;
  for (let left = 1; left <= Math.max(1, ends.length); left++) {
    const end = ends[left] ?? Infinity;
    let taken = 0;
    for (const task of own) if (!(task.tail - end >= tail)) taken += worth(task);
    most = Math.max(most, taken / left);
  }
  return most;
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
