/** What an hour late costs. */
import type { DayFile } from "../contract/day.ts";

/** Of a line of pans, all its pieces together. */
export function panRate({ prices = {} }: DayFile, pan: DayFile["pans"][number]): number {
  const { latePerPanHour = 0, rushLatePerPanHour = latePerPanHour } = prices;
  return (pan.quantity ?? 1) * (pan.latePerHour ?? (pan.priority === "rush" ? rushLatePerPanHour : latePerPanHour));
}

/** Of a whole ticket. */
export function ticketRate(day: DayFile, ticket: string): number {
  return day.pans.reduce((sum, pan) => ((pan.ticket ?? pan.id) === ticket ? sum + panRate(day, pan) : sum), 0);
}
