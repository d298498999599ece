/**
 * A coat is put back before the ones that follow it: what it costs to have it so late shows only once they are in too. The
 * lateness they then make sure of, about, tells places apart that cost alike without them.
 */
import type { DayModel } from "../day/day-model.ts";
import type { Evaluator } from "./evaluate.ts";

/** From ready for the oven to the hand, about: a bake alone is some 45, the rest is its wait for an oven. */
export const LIKELY_BAKE_MINUTES = 70;

/** Money, in the sequence timed last, for the latest of these bakes; 0 where no coat follows or nothing is late by then. */
export function lateByFollowing(evaluator: Evaluator, bakes: readonly number[]): number {
  const { day } = evaluator.timetable;
  let most = 0;
  for (const bake of bakes) {
    const { pan, step } = day.bakes[bake]!;
    const { promised, latePerHour } = day.tickets[day.pans[pan]!.ticket]!;
    const minutes = followingMinutes(day, pan, step);
    if (promised === null || minutes === 0) continue;
    const ready = evaluator.released(pan) + minutes + day.request.finishMinutes;
    most = Math.max(most, ((ready - promised) * latePerHour) / 60);
  }
  return most;
}

/** Minutes from the hand after coat `step` of a pan to the hand after its last one, about. */
export function followingMinutes(day: DayModel, pan: number, step: number): number {
  const { due } = day.pans[pan]!;
  let minutes = 0;
  for (let at = step + 1; at < due.length; at++) {
    const { sprayMinutes, flashMinutes, inspectMinutes } = day.kinds[due[at]!.kind]!.coat;
    minutes += sprayMinutes + flashMinutes + LIKELY_BAKE_MINUTES + inspectMinutes;
  }
  return minutes;
}
