/** What a new plan costs more, or less, than the plan in force: both counted alike from now on. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import type { Difference } from "../contract/searching.ts";
import { MINUTE, staffedBetween } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Current } from "../shop/stand.ts";
import type { After } from "./difference.ts";
import { panRate } from "./late-rate.ts";

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

type Still = DayFile["pans"][number];

function toCome(
  plan: PlanFile,
  day: DayFile,
  after: After,
  time: ShopTime,
): Record<keyof Omit<Sums, "money"> | "late" | "leftOver", number> {
  const loads = plan.loads.filter(({ id }) => !after.begun.has(id));
  const lastDone = Math.max(after.asOf, ...plan.loads.map(({ doneAt }) => time.millis(doneAt)));
  // Pans that are done, set aside or gone cost the same in both plans: nothing. Those that are left count as they are now.
  const known = new Set(day.pans.map(({ id }) => id));
  const pans = after.day.pans.filter(({ id }) => known.has(id));
  const late = lateness(plan, pans, after, time);
  return {
    gasKWh: loads.reduce((sum, load) => sum + load.gasKWh, 0),
    ovenMinutes: loads.reduce(
      (sum, load) => sum + (time.millis(load.doneAt) - time.millis(load.doorOpensAt)) / MINUTE,
      0,
    ),
    crewMinutes: staffedBetween(day, after.asOf, lastDone) / MINUTE,
    latePanMinutes: late.minutes,
    late: late.money,
    leftOver: leftOver(plan, day, pans, after.day),
  };
}

function lateness(
  plan: PlanFile,
  pans: readonly Still[],
  after: After,
  time: ShopTime,
): { readonly minutes: number; readonly money: number } {
  let minutes = 0;
  let money = 0;
  for (const { ticket, readyAt, promisedAt } of plan.tickets) {
    const promise = after.overdue[ticket] ?? promisedAt;
    if (promise === null) continue;
    const lateMinutes = Math.max(0, (time.millis(readyAt) - time.millis(promise)) / MINUTE);
    for (const pan of pans) {
      if ((pan.ticket ?? pan.id) !== ticket) continue;
      minutes += lateMinutes * (pan.quantity ?? 1);
      money += (lateMinutes / 60) * panRate(after.day, pan);
    }
  }
  return { minutes, money };
}

/** Coats that no load of the plan bakes, as a share of those that are due by now. */
function leftOver(plan: PlanFile, day: DayFile, pans: readonly Still[], now: DayFile): number {
  const byId = new Map(pans.map((pan) => [pan.id, pan]));
  const planned = new Map(day.pans.map(({ id, coating }) => [id, coating]));
  return plan.leftOver.reduce((sum, { id, coat }) => {
    const pan = byId.get(id);
    if (pan === undefined) return sum;
    const due = coatsIn(now, pan.coating) - (pan.nextCoat ?? 1) + 1;
    const missing = coatsIn(day, planned.get(id)) - coat + 1;
    const cost = pan.leftOverCost ?? now.prices?.leftOverPerPan ?? defaultLeftOverPerPan;
    return sum + cost * Math.min(1, missing / due);
  }, 0);
}

/** As the day file's schema has it. */
const defaultLeftOverPerPan = 1000;

function coatsIn({ coatings }: DayFile, coating: string | undefined): number {
  return coatings.find(({ id }) => id === coating)?.coats.length ?? 0;
}
