/** Who is late and why, what is left over, and when each ticket is ready to hand over. */
import { lateMinutesShown } from "../contract/words.ts";
import { order } from "./hands.ts";
import { duration, pad, wrap } from "./lines.ts";
import { coatOf, gathered, piecesText } from "./plan-words.ts";
import type { Printed } from "./plan-words.ts";

/** Empty where nobody is late. Worst first. */
export function lateLines({ plan, clock }: Printed): string[] {
  return plan.tickets
    .filter(({ lateMinutes }) => lateMinutes > 0)
    .toSorted((a, b) => b.lateMinutes - a.lateMinutes)
    .flatMap((one) => {
      const { ticket, readyAt, promisedAt, reason } = one;
      const promised = promisedAt === null ? "" : `, promised ${clock.time(promisedAt)}`;
      const why = reason === null ? "" : ` Why: ${reason}.`;
      return wrap(
        `${ticket}: ready ${clock.by(readyAt)}${promised}: ${duration(lateMinutesShown(one))} late.${why}`,
        "  ",
        "    ",
      );
    });
}

/** Empty where everything is baked. */
export function leftOverLines({ day, plan }: Printed): string[] {
  const alike = plan.leftOver.toSorted((a, b) => a.id.localeCompare(b.id) || a.coat - b.coat || a.item - b.item);
  return gathered(alike, (a, b) => a.id === b.id && a.coat === b.coat && a.reason === b.reason).flatMap((group) => {
    const first = group[0];
    if (!first) return [];
    const pieces = piecesText(
      day,
      first.id,
      group.map(({ item }) => item),
    );
    return wrap(`${pieces}, from its ${coatOf(day, first).name} on: ${first.reason}.`, "  ", "    ");
  });
}

/** In order of hand-over. */
export function ticketLines({ plan, clock }: Printed): string[] {
  const rows = plan.tickets
    .toSorted((a, b) => order(a.readyAt, b.readyAt))
    .map((one) => {
      const { ticket, readyAt, promisedAt, lateMinutes } = one;
      const promise = promisedAt === null ? "no promise" : `promised ${clock.time(promisedAt)}`;
      return {
        ready: clock.by(readyAt),
        ticket,
        rest: lateMinutes > 0 ? `${promise}, ${duration(lateMinutesShown(one))} late` : promise,
      };
    });
  const readyWidth = Math.max(...rows.map(({ ready }) => ready.length), 0);
  const ticketWidth = Math.max(...rows.map(({ ticket }) => ticket.length), 0);
  return rows.map(({ ready, ticket, rest }) => `  ${pad(ready, readyWidth)}  ${pad(ticket, ticketWidth)}  ${rest}`);
}
