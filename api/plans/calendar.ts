/** A plan as a calendar (RFC 5545): one entry a firing, one for each ticket's hand-over. */
import { createEvents } from "ics";
import type { EventAttributes } from "ics";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { lateMinutesShown, readyMinute } from "../contract/words.ts";
import { MINUTE } from "../shop/instants.ts";

type Stamp = [number, number, number, number, number];

/** UTC, as the calendar's own program turns it into local time. */
function stamp(instant: string | number): Stamp {
  const date = new Date(instant);
  return [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate(), date.getUTCHours(), date.getUTCMinutes()];
}

export function calendarOf(id: string, plan: PlanFile): string {
  const entries = [...plan.loads.map((load) => firing(id, plan, load)), ...handOvers(id, plan)];
  const { error, value } = createEvents(entries, { productId: "ovenful", calName: plan.dayTitle || "Firing plan" });
  if (!value) throw error ?? new Error("no calendar was written");
  return value;
}

const utc = { startInputType: "utc", startOutputType: "utc", endInputType: "utc", endOutputType: "utc" } as const;

function firing(id: string, plan: PlanFile, load: PlanLoad): EventAttributes {
  const heat = load.setPointC === null ? "" : ` ${load.setPointC} °C`;
  const pans = load.pans.map(
    (pan) => `${pan.id}${pan.item > 1 ? ` (${pan.item})` : ""}, coat ${pan.coat}, shelf ${pan.shelf ?? "–"}`,
  );
  const out =
    load.burnerOffAt === null
      ? []
      : [`Burner off ${load.burnerOffAt.slice(11, 16)}, up to ${load.slackMinutes ?? 0} min later is fine.`];
  return {
    uid: `${id}-${load.id}@ovenful`,
    title: `${load.id}: ${load.kind} in ${load.oven}${heat}`,
    description: [...out, ...pans, ...plan.cautions].join("\n"),
    start: stamp(load.doorOpensAt),
    end: stamp(load.doneAt),
    ...utc,
    created: stamp(plan.madeAt),
    calName: plan.dayTitle || "Firing plan",
  };
}

function handOvers(id: string, plan: PlanFile): EventAttributes[] {
  return plan.tickets.map((one, i) => {
    const { ticket, readyAt, promisedAt, lateMinutes } = one;
    return {
      uid: `${id}-ticket-${i + 1}@ovenful`,
      title: `Ticket ${ticket} ready${lateMinutes > 0 ? `, ${lateMinutesShown(one)} min late` : ""}`,
      description: promisedAt === null ? "Nothing promised." : `Promised ${promisedAt.slice(0, 16).replace("T", " ")}.`,
      start: stamp(readyMinute(readyAt) * MINUTE),
      duration: { minutes: 5 },
      ...utc,
      created: stamp(plan.madeAt),
    };
  });
}
