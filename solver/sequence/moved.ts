/** Pans that a re-plan moves: their first bake not yet begun opens well before or after the plan in force had it, or not at all. */
import type { DayModel } from "../day/day-model.ts";

/** A pan counts as moved beyond this, minutes. */
const STAYS_WITHIN_MINUTES = 15;

export interface InForcePan {
  /** Door opening in the plan in force, minutes. */
  readonly doorOpens: number;
  /** Position among the pan's due coats of the first bake not yet begun. */
  readonly step: number;
  /** Its door opening where it stands in a pinned load, else null. */
  readonly pinned: number | null;
}

/** Per pan: where the plan in force had it; undefined for pans that plan did not know, or whose bakes have all begun. */
export function inForcePans(day: DayModel): (InForcePan | undefined)[] {
  const opens = new Map(day.request.inForce.map(({ line, item, doorOpens }) => [`${line}/${item}`, doorOpens]));
  return day.pans.map(({ line, item, due }) => {
    const doorOpens = opens.get(`${line}/${item}`);
    const step = due.findIndex(({ held }) => held === null || held.load.state === "pinned");
    if (doorOpens === undefined || step < 0) return undefined;
    return { doorOpens, step, pinned: due[step]!.held?.load.doorOpens ?? null };
  });
}

export function isMoved(pan: InForcePan, doorOpens: number): boolean {
  return Math.abs(doorOpens - pan.doorOpens) > STAYS_WITHIN_MINUTES;
}
