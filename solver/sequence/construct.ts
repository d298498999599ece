/**
 * Whole sequences built ticket by ticket, each bake where the sequence then costs least: starts that know of promises,
 * which the careful hand does not.
 */
import type { DayModel, Ticket } from "../day/day-model.ts";
import type { Random } from "../random.ts";
import type { Evaluator } from "./evaluate.ts";
import { insertAll } from "./rebuild.ts";
import type { Sequence, Taste } from "./sequence.ts";

/** Lower comes first. */
export type TicketRule = (ticket: Ticket) => number;

/** What was promised first; and what was promised soon for the price of its lateness. */
export const TICKET_RULES: readonly TicketRule[] = [
  ({ promised }) => promised ?? Infinity,
  ({ promised, latePerHour }) => (promised === null ? Infinity : promised / (1 + latePerHour)),
];

/** Sequences timed while one is built, about: some places for each bake. */
export function stepsToConstruct(day: DayModel): number {
  return PLACES_PER_BAKE * day.bakes.length;
}

const PLACES_PER_BAKE = 25;

export function construct(evaluator: Evaluator, rule: TicketRule, taste: Taste, random: Random): Sequence {
  const { day } = evaluator.timetable;
  const rank = day.tickets.map(rule);
  const loads = insertAll(evaluator, [], [...day.bakes.keys()], taste, random, (ticket) => rank[ticket]!);
  return { haste: taste.haste, heatCredit: taste.heatCredit, loads };
}
