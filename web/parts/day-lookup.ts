/** What the plan's ids mean in the day it was planned from. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile, PlanLoad } from "../../api/contract/plan.ts";

export interface Planned {
  readonly day: DayFile;
  readonly plan: PlanFile;
}

export type OvenFile = DayFile["ovens"][number];
export type PanFile = DayFile["pans"][number];

export function ovenOf(day: DayFile, id: string): OvenFile | undefined {
  return day.ovens.find((oven) => oven.id === id);
}

export function ovenName(day: DayFile, id: string): string {
  return ovenOf(day, id)?.name ?? id;
}

export function panOf(day: DayFile, id: string): PanFile | undefined {
  return day.pans.find((pan) => pan.id === id);
}

/** The piece as the bench calls it: with its number only where the line has several. */
export function pieceName(day: DayFile, { id, item }: { readonly id: string; readonly item: number }): string {
  return (panOf(day, id)?.quantity ?? 1) > 1 ? `${id} ${item}` : id;
}

export function coatOf(day: DayFile, { id, coat }: { readonly id: string; readonly coat: number }) {
  const coating = day.coatings.find((one) => one.id === panOf(day, id)?.coating);
  return coating?.coats[coat - 1];
}

export function coatName(day: DayFile, pan: { readonly id: string; readonly coat: number }): string {
  return coatOf(day, pan)?.name ?? `coat ${pan.coat}`;
}

/** The metal range every pan of the load allows at once, for the check with a thermometer; null where there is none. */
export function metalRange(day: DayFile, load: PlanLoad): { readonly low: number; readonly high: number } | null {
  const bakes = load.pans.map((pan) => coatOf(day, pan)?.bake);
  const lows = bakes.flatMap((bake) => bake?.metalLowC ?? []);
  const highs = bakes.flatMap((bake) => bake?.metalHighC ?? []);
  if (lows.length === 0 || highs.length === 0) return null;
  return { low: Math.max(...lows), high: Math.min(...highs) };
}
