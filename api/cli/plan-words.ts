/** What the printed plan looks up again and again: coats, ovens and shelves by id, and pans gathered into short words. */
import type { Day, DayCoat, DayOven } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { dayClock } from "../day/origin.ts";
import { clockText } from "./clock-text.ts";
import type { ClockText } from "./clock-text.ts";
import { itemRanges } from "./lines.ts";

/** Everything a part of the printed plan needs. */
export interface Printed {
  readonly day: Day;
  readonly plan: PlanFile;
  readonly clock: ClockText;
  /** `planFrom` with its offset. */
  readonly from: string;
}

export function printed(day: Day, plan: PlanFile): Printed {
  const from = dayClock(day).toInstant(0);
  return { day, plan, from, clock: clockText(day.timeZone, from) };
}

export function ovenOf(day: Day, id: string): DayOven {
  return found(day.ovens, id);
}

export function coatOf(day: Day, pan: { readonly id: string; readonly coat: number }): DayCoat {
  const { coating } = found(day.pans, pan.id);
  const coat = found(day.coatings, coating).coats[pan.coat - 1];
  if (!coat) throw new Error(`${pan.id} has no coat ${pan.coat}`);
  return coat;
}

function found<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  const one = list.find((entry) => entry.id === id);
  if (!one) throw new Error(`the plan names ${id}, which its day does not have`);
  return one;
}

/** Items of one line as the bench calls them: "K-201-A 1–4"; just "K-201-A" where the line is one piece. */
export function piecesText(day: Day, id: string, items: readonly number[]): string {
  return found(day.pans, id).quantity === 1 ? id : `${id} ${itemRanges(items)}`;
}

/** "primer ×6, top coat ×2", the largest first. */
export function coatsText(day: Day, load: PlanLoad): string {
  const counts = new Map<string, number>();
  for (const pan of load.pans) {
    const { name } = coatOf(day, pan);
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return [...counts]
    .toSorted((a, b) => b[1] - a[1])
    .map(([name, count]) => `${name} ×${count}`)
    .join(", ");
}

/** In order, neighbours for which `same` holds gathered. */
export function gathered<T>(list: readonly T[], same: (a: T, b: T) => boolean): T[][] {
  const groups: T[][] = [];
  for (const one of list) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    if (group && last !== undefined && same(last, one)) group.push(one);
    else groups.push([one]);
  }
  return groups;
}
