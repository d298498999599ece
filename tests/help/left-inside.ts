/** Days on which nobody is there for a while, and ovens that need nobody: what is in them then cools down inside. */
import type { DayFile } from "../../api/contract/day.ts";
import { readInstant, writeInstant } from "../../api/day/instants.ts";
import type { FiringPlan } from "../../solver/index.ts";
import type { PlanRequest } from "../../solver/shop.ts";

const MINUTE = 60_000;

export interface Pause {
  /** From the beginning of work on. */
  readonly afterMinutes: number;
  readonly minutes: number;
}

/** The day with ovens that need nobody and one pause, as much longer. */
export function withPause(file: DayFile, { afterMinutes, minutes }: Pause): DayFile {
  const millis = (text: string): number => {
    const read = readInstant(text, file.timeZone);
    if (read.kind !== "instant") throw new Error(`${text} is no instant`);
    return read.millis;
  };
  const write = (at: number): string => writeInstant(at, file.timeZone);
  const [first] = file.staffed;
  const last = file.staffed.at(-1);
  if (first === undefined || last === undefined) throw new Error("nobody works on this day");
  const pause = millis(first.from) + afterMinutes * MINUTE;
  const back = pause + minutes * MINUTE;
  return {
    ...file,
    staffed: [
      { from: first.from, to: write(pause) },
      { from: write(back), to: write(millis(last.to) + minutes * MINUTE) },
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
