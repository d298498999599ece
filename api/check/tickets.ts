/** Rule 9: when each ticket is ready, and by how much that misses its promise. */
import type { PieceBakes } from "./bakes.ts";
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { apart, figure, tolerance } from "./fault.ts";
import type { PlanView } from "./plan-view.ts";

export interface Ticket {
  readonly name: string;
  readonly pieces: readonly PieceBakes[];
  /** Minutes since the epoch; with a piece left over no sooner than work goes on. */
  readonly ready: number;
  readonly leewayMinutes: number;
  readonly promised: number | null;
  readonly lateMinutes: number;
}

export function ticketsOf(day: DayView, pieces: readonly PieceBakes[]): Ticket[] {
  const byTicket = new Map<string, PieceBakes[]>();
  for (const one of pieces) {
    const name = one.piece.line.pan.ticket;
    byTicket.set(name, [...(byTicket.get(name) ?? []), one]);
  }
  return [...byTicket].map(([name, own]) => {
    const doneAt = own.flatMap((one) => doneMinute(day, one) ?? []);
    const ready = Math.max(
      ...doneAt,
      own.some(({ firstMissing }) => firstMissing !== undefined) ? day.nextOpen : -Infinity,
    );
    const promised = own.find(({ piece }) => piece.line.promisedMinute !== null)?.piece.line.promisedMinute ?? null;
    return {
      name,
      pieces: own,
      ready,
      leewayMinutes: Math.max(tolerance.instantMinutes, ...own.flatMap((one) => one.bakes.at(-1)?.leewayMinutes ?? [])),
      promised,
      lateMinutes: promised === null ? 0 : Math.max(0, ready - promised),
    };
  });
}

/** When a finished piece is done: inspected, then finished. Undefined for a piece left over. */
function doneMinute(day: DayView, { bakes, firstMissing }: PieceBakes): number | undefined {
  if (firstMissing !== undefined || bakes.length === 0) return undefined;
  return Math.max(...bakes.map(({ inspected }) => inspected)) + day.day.finishMinutes;
}

/** The list holds every ticket of the day once. */
export function checkTickets(day: DayView, plan: PlanView, tickets: readonly Ticket[], report: Report): void {
  const known = new Map(tickets.map((ticket) => [ticket.name, ticket]));
  const listed = new Set<string>();
  for (const [index, said] of plan.file.tickets.entries()) {
    const path = `tickets[${index}]`;
    const ticket = known.get(said.ticket);
    if (ticket === undefined || listed.has(said.ticket))
      report({
        rule: "9 tickets",
        path,
        message: `Ticket ${said.ticket} is ${ticket === undefined ? "no ticket of this day" : "listed twice"}.`,
        said: said.ticket,
      });
    if (ticket !== undefined) checkTicket(day, said, ticket, path, report);
    listed.add(said.ticket);
  }
  for (const { name } of tickets)
    if (!listed.has(name))
      report({ rule: "9 tickets", path: "tickets", message: `Ticket ${name} is not listed.`, found: name });
}

function checkTicket(
  day: DayView,
  said: PlanView["file"]["tickets"][number],
  ticket: Ticket,
  path: string,
  report: Report,
): void {
  const { clock } = day;
  const ready = clock.minutes(said.readyAt);
  const promised = said.promisedAt === null ? null : clock.minutes(said.promisedAt);
  if (apart(ready, ticket.ready, ticket.leewayMinutes))
    report({
      rule: "9 tickets",
      path: `${path}.readyAt`,
      message: `Ticket ${ticket.name} is said to be ready at ${clock.show(ready)}, found ${clock.show(ticket.ready)}.`,
      said: clock.show(ready),
      found: clock.show(ticket.ready),
    });
  if (apart(promised ?? 0, ticket.promised ?? 0, tolerance.exactMinutes))
    report({
      rule: "9 tickets",
      path: `${path}.promisedAt`,
      message: `Ticket ${ticket.name} is said to be promised for ${clock.show(promised ?? Number.NaN)}, the day says ${clock.show(ticket.promised ?? Number.NaN)}.`,
    });
  if (apart(said.lateMinutes, ticket.lateMinutes, ticket.leewayMinutes))
    report({
      rule: "9 tickets",
      path: `${path}.lateMinutes`,
      message: `Ticket ${ticket.name} is said to be ${figure(said.lateMinutes)} min late, found ${figure(ticket.lateMinutes)}.`,
      said: said.lateMinutes,
      found: ticket.lateMinutes,
    });
}
