/** What bench and booth are asked for: coats of pans, by one number each. Bakes come first, then every due coat of every pan. */
import type { BakeKind, DayModel } from "../day/day-model.ts";

/** One coat of one pan: `step` is its position among the pan's due coats. */
export interface HandTask {
  readonly pan: number;
  readonly step: number;
}

/** More due coats than any pan has. */
const LONGEST_CHAIN = 64;

/** The number of a coat that is no bake, since it stands in a pinned load. */
export function pinnedTask(day: DayModel, { pan, step }: HandTask): number {
  return day.bakes.length + pan * LONGEST_CHAIN + step;
}

export function taskOf(day: DayModel, task: number): HandTask {
  if (task < day.bakes.length) return day.bakes[task]!;
  const rest = task - day.bakes.length;
  return { pan: Math.floor(rest / LONGEST_CHAIN), step: rest % LONGEST_CHAIN };
}

export function kindOf(day: DayModel, task: number): BakeKind {
  if (task < day.bakes.length) return day.kinds[day.bakes[task]!.kind]!;
  const { pan, step } = taskOf(day, task);
  return day.kinds[day.pans[pan]!.due[step]!.kind]!;
}

/** One more than the highest number. */
export function countTasks(day: DayModel): number {
  const isPinned = day.request.held.some(({ state }) => state === "pinned");
  return day.bakes.length + (isPinned ? day.pans.length * LONGEST_CHAIN : 0);
}
