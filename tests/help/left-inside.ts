/** Days on which nobody is there for a while, and ovens that need nobody: what is in them then cools down inside. */
import type { DayFile } from "../../api/contract/day.ts";
import type { FiringPlan } from "../../solver/index.ts";
import type { PlanRequest } from "../../solver/shop.ts";
import { later } from "./day-calendar.ts";

export interface Pause {
  /** From the beginning of work on. */
  readonly afterMinutes: number;
  readonly minutes: number;
}

/** The day with ovens that need nobody and one pause, as much longer. */
export function withPause(file: DayFile, { afterMinutes, minutes }: Pause): DayFile {
  const [first] = file.staffed;
  const last = file.staffed.at(-1);
  if (first === undefined || last === undefined) throw new Error("nobody works on this day");
  const pause = later(first.from, afterMinutes, file.timeZone);
  return {
    ...file,
    staffed: [
      { from: first.from, to: pause },
      { from: later(pause, minutes, file.timeZone), to: later(last.to, minutes, file.timeZone) },
    ],
    ovens: file.ovens.map((oven) => ({ ...oven, attended: false })),
  };
}

/** Bakes whose doors are closed before the pause and opened after it. */
export function leftInside(plan: FiringPlan, request: PlanRequest): number {
  const [before, after] = request.staffed;
  return plan.loads.filter(
    ({ kind, doorCloses, unload }) => kind === "bake" && doorCloses <= before!.to && unload >= after!.from,
  ).length;
}
