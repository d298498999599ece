/**
 * The loads of a sequence that the proof has finished, as a plan could have them: which pans, in which order. Its times are too
 * good to be true, and of alike pans it only knows how many.
 */
import { newLoad } from "../sequence/sequence.ts";
import type { PlannedLoad } from "../sequence/sequence.ts";
import type { Label } from "./label.ts";
import type { ProofTask } from "./proof-task.ts";

export function goalLoads({ day, start, pans }: ProofTask, goal: Label): PlannedLoad[] {
  const steps = Uint8Array.from(start.panStep);
  // Per pan: the load that it was in last.
  const lastLoad = new Int32Array(day.pans.length).fill(-1);
  const loads: PlannedLoad[] = [];
  for (const { before, oven, members } of loadsOf(goal)) {
    const bakes = members.map((member) => {
      const { pan: alike, line } = pans[member]!;
      const step = start.panStep[alike]! + before.steps[member]!;
      const pan = longestOut(lastLoad, (one) => day.pans[one]!.line === line && steps[one] === step);
      steps[pan]!++;
      lastLoad[pan] = loads.length;
      return day.pans[pan]!.due[step]!.bake!;
    });
    loads.push(newLoad(oven, bakes));
  }
  return loads;
}

interface LabelLoad {
  readonly before: Label;
  readonly oven: number;
  readonly members: readonly number[];
}

function loadsOf(goal: Label): LabelLoad[] {
  const loads: LabelLoad[] = [];
  for (let at = goal; at.before !== undefined; at = at.before)
    loads.push({ before: at.before, oven: at.set!.oven, members: at.members });
  return loads.reverse();
}

/** Of the pans asked for the one whose last load is longest ago. */
function longestOut(lastLoad: Int32Array, isAsked: (pan: number) => boolean): number {
  let found = -1;
  for (let pan = 0; pan < lastLoad.length; pan++)
    if (isAsked(pan) && (found < 0 || lastLoad[pan]! < lastLoad[found]!)) found = pan;
  return found;
}
