/** What a new plan costs more, or less, than the plan in force: both counted alike from now on. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { Difference } from "../contract/searching.ts";
import { MINUTE, staffedBetween } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Current } from "../shop/stand.ts";
import type { After } from "./difference.ts";
import { ticketRate } from "./late-rate.ts";

type Sums = Pick<Difference, "gasKWh" | "ovenMinutes" | "crewMinutes" | "latePanMinutes" | "money">;

/** Both plans counted alike: what is still to come from now on, at the day's prices. */
export function sumsOf(before: Current, after: After, time: ShopTime): Sums {
  const was = toCome(before.plan, before.day, after, time);
  const becomes = toCome(after.plan, after.day, after, time);
  const prices = after.day.prices ?? {};
  const more = (part: "gasKWh" | "ovenMinutes" | "crewMinutes" | "latePanMinutes" | "late" | "leftOver"): number =>
    becomes[part] - was[part];
  const money = {
    gas: more("gasKWh") * (prices.gasPerKWh ?? 0),
    crew: (more("crewMinutes") / 60) * (prices.crewPerHour ?? 0),
    late: more("late"),
    leftOver: more("leftOver"),
    moved: after.plan.cost.moved,
  };
  const total = Object.values(money).reduce((sum, part) => sum + part, 0);
  return {
    gasKWh: more("gasKWh"),
    ovenMinutes: more("ovenMinutes"),
    crewMinutes: more("crewMinutes"),
    latePanMinutes: more("latePanMinutes"),
    money: { ...money, total },
  };
}

function toCome(
  plan: PlanFile,
  day: DayFile,
  after: After,
  time: ShopTime,
): Record<keyof Omit<Sums, "money"> | "late" | "leftOver", number> {
  const loads = plan.loads.filter(({ id }) => !after.begun.has(id));
  const lastDone = Math.max(after.asOf, ...plan.loads.map(({ doneAt }) => time.millis(doneAt)));
  const late = lateness(plan, day, after, time);
  return {
    gasKWh: loads.reduce((sum, load) => sum + load.gasKWh, 0),
    ovenMinutes: loads.reduce(
      (sum, load) => sum + (time.millis(load.doneAt) - time.millis(load.doorOpensAt)) / MINUTE,
      0,
    ),
    crewMinutes: staffedBetween(day, after.asOf, lastDone) / MINUTE,
    latePanMinutes: late.minutes,
    late: late.money,
    leftOver: plan.cost.leftOver,
  };
}

/** Tickets that are over are the same in both plans and count in neither. */
function lateness(
  plan: PlanFile,
  day: DayFile,
  after: After,
  time: ShopTime,
): { readonly minutes: number; readonly money: number } {
  const alive = new Set(after.day.pans.map((pan) => pan.ticket ?? pan.id));
  let minutes = 0;
  let money = 0;
  for (const { ticket, readyAt, promisedAt } of plan.tickets) {
    const promise = after.overdue[ticket] ?? promisedAt;
    if (promise === null || !alive.has(ticket)) continue;
    const lateMinutes = Math.max(0, (time.millis(readyAt) - time.millis(promise)) / MINUTE);
    const pans = day.pans.filter((pan) => (pan.ticket ?? pan.id) === ticket);
    minutes += lateMinutes * pans.reduce((sum, { quantity }) => sum + (quantity ?? 1), 0);
    money += (lateMinutes / 60) * ticketRate(day, ticket);
  }
  return { minutes, money };
}
