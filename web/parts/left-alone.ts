/** Whether a firing to come will be over before everybody has left the shop. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import type { LoadState } from "./load-state.ts";

/**
 * False where the load's whole firing, doors included, lies inside one interval in which people are at work, and where it has begun:
 * nobody need be warned of it any more.
 */
export function isLeftAlone(
  { staffed }: Pick<DayFile, "staffed">,
  { state, doorOpensAt, doneAt }: Pick<PlanLoad, "doorOpensAt" | "doneAt"> & { readonly state: LoadState },
): boolean {
  if (state !== "planned" && state !== "pinned") return false;
  return !staffed.some(({ from, to }) => by(from, doorOpensAt) <= 0 && by(to, doneAt) >= 0);
}

/** Milliseconds from `instant` to `text`, an instant or a time on the clock that `instant` is told by. */
function by(text: string, instant: string): number {
  const offset = /(Z|[+-]\d\d:\d\d)$/;
  const told = offset.test(text) ? text : text + (offset.exec(instant)?.[0] ?? "Z");
  return Date.parse(told) - Date.parse(instant);
}
