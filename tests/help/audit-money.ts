/**
 * What a new plan costs more than the one in force, worked out anew from the two plan files and their days, both from now
 * on: gas, crew, lateness, pans left over. Zone arithmetic by luxon; nothing of the service's own sums is used.
 */
import { DateTime } from "luxon";
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";

export interface TwoPlans {
  readonly before: PlanFile;
  readonly beforeDay: DayFile;
  readonly plan: PlanFile;
  readonly day: DayFile;
  readonly now: number;
  /** Loads over, under way, or broken off: the same in both. */
  readonly begun: ReadonlySet<string>;
}

export interface Money {
  readonly gas: number;
  readonly crew: number;
  readonly late: number;
  readonly leftOver: number;
}

type Pan = DayFile["pans"][number];

/** More by the new plan, in the day's currency and at its prices. */
export function moreMoney(two: TwoPlans): Money & { readonly crewMinutes: number; readonly latePanMinutes: number } {
  const { before, beforeDay, plan, day } = two;
  const prices = day.prices ?? {};
  const was = new Set(beforeDay.pans.map(({ id }) => id));
  const both = day.pans.filter(({ id }) => was.has(id));
  const crewMinutes = crew(plan, day, two.now) - crew(before, beforeDay, two.now);
  const late = [lateness(plan, day.pans, day), lateness(before, both, day)] as const;
  return {
    gas: (gas(plan, two.begun) - gas(before, two.begun)) * (prices.gasPerKWh ?? 0),
    crew: (crewMinutes / 60) * (prices.crewPerHour ?? 0),
    crewMinutes,
    late: late[0].money - late[1].money,
    latePanMinutes: late[0].minutes - late[1].minutes,
    leftOver: left(plan, day, day.pans, day) - left(before, beforeDay, both, day),
  };
}

function gas(plan: PlanFile, begun: ReadonlySet<string>): number {
  let kWh = 0;
  for (const load of plan.loads) if (!begun.has(load.id)) kWh += load.gasKWh;
  return kWh;
}

function crew({ loads }: PlanFile, { staffed, timeZone }: DayFile, now: number): number {
  const at = (text: string): number => DateTime.fromISO(text, { zone: timeZone }).toMillis();
  const end = loads.reduce((last, { doneAt }) => Math.max(last, Date.parse(doneAt)), now);
  let millis = 0;
  for (const { from, to } of staffed) millis += Math.max(0, Math.min(at(to), end) - Math.max(at(from), now));
  return millis / 60_000;
}

function lateness(plan: PlanFile, pans: readonly Pan[], day: DayFile): { money: number; minutes: number } {
  const prices = day.prices ?? {};
  let money = 0;
  let minutes = 0;
  for (const pan of pans) {
    const ticket = plan.tickets.find((one) => one.ticket === (pan.ticket ?? pan.id));
    if (ticket === undefined || ticket.promisedAt === null) continue;
    const late = Math.max(0, Date.parse(ticket.readyAt) - Date.parse(ticket.promisedAt)) / 60_000;
    const normal = prices.latePerPanHour ?? 0;
    const rate = pan.latePerHour ?? (pan.priority === "rush" ? (prices.rushLatePerPanHour ?? normal) : normal);
    minutes += late * (pan.quantity ?? 1);
    money += (late / 60) * (pan.quantity ?? 1) * rate;
  }
  return { money, minutes };
}

/** Pieces left over, each by the share of its coats due now that it will not get. */
function left(plan: PlanFile, planned: DayFile, pans: readonly Pan[], day: DayFile): number {
  const coats = (of: DayFile, coating: string): number => of.coatings.find(({ id }) => id === coating)!.coats.length;
  let money = 0;
  for (const pan of pans)
    for (const { coat } of plan.leftOver.filter(({ id }) => id === pan.id)) {
      const then = planned.pans.find(({ id }) => id === pan.id)!;
      const due = coats(day, pan.coating) - (pan.nextCoat ?? 1) + 1;
      const missing = coats(planned, then.coating) - coat + 1;
      money += (pan.leftOverCost ?? day.prices?.leftOverPerPan ?? 1000) * Math.min(1, missing / due);
    }
  return money;
}
