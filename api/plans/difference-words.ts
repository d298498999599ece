/** Differences between plans in plain words. */
import type { PanDifference, TicketDifference } from "../contract/searching.ts";
import { lateMinutesShown } from "../contract/words.ts";
import { wholeMinuteFrom } from "../clock.ts";
import type { ShopTime } from "../shop/instants.ts";

/** The minute at which something is ready: nothing is handed over sooner, so seconds count as a minute. */
function readyText(instant: string, { millis, write }: ShopTime): string {
  return clockText(write(wholeMinuteFrom(millis(instant))), instant);
}

/** 2026-03-10T08:31:00+00:00 as 08:31, with the date where it is another day. */
export function clockText(instant: string, dayOf = instant): string {
  const date = instant.slice(0, 10);
  return date === dayOf.slice(0, 10) ? instant.slice(11, 16) : `${date} ${instant.slice(11, 16)}`;
}

export function laterWords(minutes: number): string {
  return minutes >= 0 ? `${minutes} min later` : `${-minutes} min earlier`;
}

export function panWords({ pan, change, minutes, was, becomes }: Omit<PanDifference, "words">, why: string): string {
  const goesIn =
    becomes === null
      ? ""
      : `coat ${becomes.coat} goes in at ${clockText(becomes.doorOpensAt)} with ${becomes.load}${heat(becomes.setPointC)}`;
  switch (change) {
    case "same":
      return `${pan}: ${goesIn}, as before.`;
    case "earlier":
    case "later":
      return `${pan}: ${goesIn} instead of ${was === null ? "before" : clockText(was.doorOpensAt, becomes?.doorOpensAt)}, ${laterWords(minutes ?? 0)}.`;
    case "new":
      return `${pan} is new: ${goesIn}.`;
    case "planned again":
      return `${pan} is planned again: ${goesIn}.`;
    case "left over":
      return `${pan} is left over${was === null ? "" : `; it was to go in at ${clockText(was.doorOpensAt)}`}. ${sentence(why)}`.trim();
    case "on hold":
      return `${pan} waits outside the plan. ${sentence(why)}`.trim();
    case "gone":
      return why === "" ? `${pan} is no longer in the list.` : `${pan} is out of the plan. ${sentence(why)}`;
    case "done":
      return `${pan} is done.`;
    case "none":
      return `${pan}: its last bake is in the oven.`;
  }
}

function heat(setPointC: number | null): string {
  return setPointC === null ? "" : ` at ${setPointC} °C`;
}

function sentence(text: string): string {
  const bare = text.trim();
  if (bare === "") return "";
  const begun = bare.charAt(0).toUpperCase() + bare.slice(1);
  return /[.!?]$/.test(begun) ? begun : `${begun}.`;
}

export function ticketWords(entry: Omit<TicketDifference, "words">, time: ShopTime): string {
  const { ticket, waitsFor, wasReadyAt, readyAt } = entry;
  if (waitsFor.length > 0) {
    const rest = readyAt === null ? "" : `; the rest is ready at ${readyText(readyAt, time)}`;
    return `Ticket ${ticket} cannot be handed over whole: ${waitsFor.join(", ")} outside the plan${rest}.`;
  }
  if (readyAt === null)
    return `Ticket ${ticket} is no longer planned${wasReadyAt === null ? "" : `; it was to be ready at ${readyText(wasReadyAt, time)}`}.`;
  return `Ticket ${ticket} is ready at ${readyText(readyAt, time)}${movedWords(entry)}${promiseWords(entry, readyAt)}.`;
}

function movedWords({ minutes }: Omit<TicketDifference, "words">): string {
  if (minutes === null) return "";
  return minutes === 0 ? ", as before" : `, ${laterWords(minutes)} than before`;
}

function promiseWords({ promisedAt, lateMinutes }: Omit<TicketDifference, "words">, readyAt: string): string {
  if (promisedAt === null) return "";
  const promise = clockText(promisedAt, readyAt);
  return lateMinutes !== null && lateMinutes > 0
    ? `: ${lateMinutesShown({ promisedAt, readyAt })} min after its promise of ${promise}`
    : `: in time for ${promise}`;
}
