/** Booth and bench as loads of a label ask for them. */
import type { HandsAtWork } from "./busy.ts";
import { busyUntil, withTask } from "./busy.ts";
import type { Label } from "./label.ts";
import type { ProofTask } from "./proof-task.ts";

export interface Shop {
  readonly task: ProofTask;
  readonly booth: HandsAtWork;
  readonly bench: HandsAtWork;
}

/** Lists of busy.ts. */
export interface Hands {
  readonly sprays: readonly number[];
  readonly preps: readonly number[];
  readonly owed: readonly number[];
  readonly owedPreps: readonly number[];
  readonly ready: number;
}

export const NOBODY: ReadonlySet<number> = new Set();

/** Booth and bench tasks with those of a load, and when the last of its pans alone would be flashed. Undefined: never. */
export function served(
  { task, booth }: Shop,
  label: Label,
  members: readonly number[],
  floating: ReadonlySet<number>,
): Hands | undefined {
  const { staffed, pans } = task;
  let { sprays, preps, owed, owedPreps } = label;
  let ready = -Infinity;
  for (const pan of members) {
    const { steps, readyMinute, prepMinutes } = pans[pan]!;
    const at = label.steps[pan]!;
    const { sprayMinutes, flashMinutes: flash, paint } = steps[at]!;
    let end = label.release[pan]!;
    if (sprayMinutes > 0) {
      const head = staffed.fit(Math.ceil(end - TINY), sprayMinutes);
      if (head < 0) return undefined;
      end = head + sprayMinutes;
      const task = { head, minutes: sprayMinutes, paint, flash, tail: label.root.tails[pan]![at]! };
      if (booth.hands > 0) {
        if (floating.has(pan)) owed = withTask(owed, task);
        else sprays = withTask(sprays, task);
      }
    }
    ready = Math.max(ready, end + flash);
    if (at === 0 && prepMinutes > 0) {
      const tail = sprayMinutes + label.root.tails[pan]![at]!;
      const task = { head: readyMinute, minutes: prepMinutes, paint: 0, flash: sprayMinutes + flash, tail };
      if (floating.has(pan)) owedPreps = withTask(owedPreps, task);
      else preps = withTask(preps, task);
    }
  }
  return { sprays, preps, owed, owedPreps, ready };
}

/** Whether booth and bench are through with a load before any pan outside it can need them. */
export function settled(
  { task, booth, bench }: Shop,
  label: Label,
  members: readonly number[],
  { sprays, preps }: Hands,
): boolean {
  let next = Infinity;
  for (let pan = 0; pan < label.steps.length; pan++) {
    const step = label.steps[pan]!;
    if (step >= label.root.goals[pan]! || members.includes(pan)) continue;
    next = Math.min(next, step === 0 ? task.pans[pan]!.readyMinute : label.release[pan]!);
  }
  return busyUntil(sprays, booth, false) <= next && busyUntil(preps, bench, false) <= next;
}

/** Tasks done before any other can begin bind nobody any more. */
export function stillMatters(
  tasks: readonly number[],
  work: HandsAtWork,
  { root }: Label,
  steps: Uint8Array,
  release: Float64Array,
): readonly number[] {
  if (tasks.length === 0) return tasks;
  let next = Infinity;
  for (let pan = 0; pan < steps.length; pan++) if (steps[pan]! < root.goals[pan]!) next = Math.min(next, release[pan]!);
  return busyUntil(tasks, work, false) <= next ? [] : tasks;
}

const TINY = 1e-6;
