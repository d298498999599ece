import type { Ticket } from "./day-model.ts";

/** Money that a ticket costs by its lateness, handed over at minute `ready`; -Infinity: at no minute yet. */
export function lateCost({ promised, latePerHour }: Ticket, ready: number): number {
  return promised === null ? 0 : (Math.max(0, ready - promised) * latePerHour) / 60;
}
