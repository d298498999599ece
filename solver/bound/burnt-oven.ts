/** An oven that owes a clean burn, burnt clean before a load: when its door may open then, and on how hot a chamber. */
import { needsCleanOven } from "../loads/mixing.ts";
import type { ThermalCycle } from "../shop.ts";
import type { FirstDoors } from "./first-doors.ts";
import { firstDoors } from "./first-doors.ts";
import type { Label } from "./label.ts";
import { endsWithDoorFrom, latestEnd } from "./last-work.ts";
import type { Shut } from "./oven-start.ts";
import { cleaned } from "./oven-start.ts";
import type { ProofTask } from "./proof-task.ts";

const TINY = 1e-6;

/** Whether some bake that is left needs a clean oven, and may be baked in this one. */
export function needsCleanLater({ day, pans }: ProofTask, { steps, root }: Label, oven: number): boolean {
  const { mixing } = day.request;
  return pans.some((pan, at) =>
    pan.steps.slice(steps[at], root.goals[at]).some(({ kind }) => {
      const { coat, ovens } = day.kinds[kind]!;
      return ovens.includes(oven) && needsCleanOven(mixing, [coat.mixGroup]);
    }),
  );
}

export interface BurntStart {
  readonly shut: Shut;
  /** The door opens at this minute or later. */
  readonly open: number;
  /** There may be time for a pre-heat between the burn and the door. */
  readonly mayPreheat: boolean;
}

/** For a door at minute `ready` or later of an oven that stands `shut`; together they hold every way to burn it clean first. */
export function burntStarts(
  task: ProofTask,
  oven: number,
  cycle: ThermalCycle,
  shut: Shut,
  ready: number,
): BurntStart[] {
  return burntClean(task, oven, cycle, shut, ready).flatMap(({ burnt, from }) => {
    const first = firstOf(task, cycle, burnt);
    if (first === undefined || from >= first.before) return [{ shut: burnt, open: from, mayPreheat: true }];
    const { hotC } = first;
    const vented = { ...burnt, free: first.from, hotC, coolC: hotC, shutMinutes: 0 };
    return [
      { shut: vented, open: Math.max(from, first.from), mayPreheat: false },
      { shut: burnt, open: first.before, mayPreheat: true },
    ];
  });
}

/** Undefined also where the grain does not tell them from later doors. */
function firstOf({ day, isPart, sets }: ProofTask, cycle: ThermalCycle, burnt: Shut): FirstDoors | undefined {
  // A chamber that may have been above the burn's set-point may be hotter after it.
  if (isPart || burnt.hotC > burnt.coolC) return undefined;
  const { bucketK } = sets.grain;
  const first = firstDoors(cycle, day.request.ambientC, burnt.hotC, burnt.free);
  return first !== undefined && first.hotC <= cycle.doorLimitC - bucketK ? first : undefined;
}

/** The oven burnt clean for a door at `from` or later; what opens at the second is asked for besides the first. */
function burntClean(
  { day, staffed }: ProofTask,
  oven: number,
  cycle: ThermalCycle,
  shut: Shut,
  ready: number,
): readonly { readonly burnt: Shut; readonly from: number }[] {
  const { ambientC, mixing, ovens } = day.request;
  const burnt = cleaned(cycle, ambientC, mixing, shut);
  if (burnt === undefined) return [];
  const soonest = { burnt, from: Math.max(ready, Math.ceil(burnt.free - TINY)) };
  if (!ovens[oven]!.attended) return [soonest];
  const minutes = burnt.free - shut.free;
  const start = staffed.fit(Math.ceil(shut.free - TINY), minutes);
  if (start < 0) return [];
  const free = start + minutes;
  const from = staffed.fit(Math.max(ready, Math.ceil(free - TINY)), cycle.loadMinutes);
  if (from < 0) return [];
  const shutMinutes = from - Math.max(free, latestEnd(staffed.intervals, from, minutes));
  const hot = { ...burnt, free };
  if (shutMinutes <= 0) return [{ burnt: hot, from }];
  const later = endsWithDoorFrom(staffed.intervals, from, minutes);
  return [
    { burnt: { ...hot, shutMinutes }, from },
    { burnt: hot, from: Math.ceil(later - TINY) },
  ].filter((one) => one.from < Infinity);
}
