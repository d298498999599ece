/** What a new plan changes against the plan in force from now on: pan by pan, ticket by ticket, and what it costs. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import type { Difference, PanDifference, TicketDifference } from "../contract/searching.ts";
import type { OnHold } from "../shop/equipment.ts";
import { MINUTE, shopTime, staffedBetween } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Current } from "../shop/stand.ts";
import { clockText, laterWords, panWords, ticketWords } from "./difference-words.ts";

/** The side a difference is seen from: what is known about the new plan besides its file. */
export interface After {
  readonly plan: PlanFile;
  readonly day: DayFile;
  readonly asOf: number;
  readonly onHold: readonly OnHold[];
  readonly finished: readonly string[];
  /** Ids of loads over or under way. */
  readonly opened: ReadonlySet<string>;
  /** True promises of tickets whose promise the day file had to move on. */
  readonly overdue: Readonly<Record<string, string>>;
}

const movedMinutes = 15;

export function differenceOf(before: Current, after: After): Difference {
  const time = shopTime(after.day);
  const pans = panDifferences(before, after, time);
  const tickets = ticketDifferences(before, after, time);
  const sums = sumsOf(before, after, time);
  const told = [
    ...pans.filter(({ change }) => change !== "same" && change !== "done" && change !== "none"),
    ...tickets.filter(({ minutes }) => minutes !== 0),
  ];
  return {
    from: before.id,
    asOf: time.write(after.asOf),
    pans,
    tickets,
    ...sums,
    words: told.map(({ words }) => words),
  };
}

function panDifferences(before: Current, after: After, time: ShopTime): PanDifference[] {
  const ids = new Set([
    ...before.day.pans.map(({ id }) => id),
    ...after.day.pans.map(({ id }) => id),
    ...after.onHold.map(({ pan }) => pan),
  ]);
  const known = new Map(after.day.inForce?.map(({ id, doorOpensAt }) => [id, doorOpensAt]));
  return [...ids].map((pan) => {
    const was = nextBake(before.plan.loads, pan, after.opened);
    const becomes = nextBake(after.plan.loads, pan, after.opened);
    const minutes =
      was && becomes ? Math.round((time.millis(becomes.doorOpensAt) - time.millis(was.doorOpensAt)) / MINUTE) : null;
    const change = changeOf({ pan, before, after, was, becomes, minutes, follows: known.has(pan) });
    const priced = known.get(pan);
    const moved =
      priced !== undefined &&
      (becomes === null || Math.abs(time.millis(becomes.doorOpensAt) - time.millis(priced)) > movedMinutes * MINUTE);
    const line = after.day.pans.find(({ id }) => id === pan) ?? before.day.pans.find(({ id }) => id === pan);
    const why =
      after.onHold.find((one) => one.pan === pan)?.why ??
      after.plan.leftOver.find(({ id }) => id === pan)?.reason ??
      "";
    const entry = { pan, ticket: line?.ticket ?? pan, change, minutes, moved, was, becomes };
    return { ...entry, words: panWords(entry, why) };
  });
}

interface Compared {
  readonly pan: string;
  readonly before: Current;
  readonly after: After;
  readonly was: PanDifference["was"];
  readonly becomes: PanDifference["becomes"];
  readonly minutes: number | null;
  readonly follows: boolean;
}

function changeOf({ pan, before, after, was, becomes, minutes, follows }: Compared): PanDifference["change"] {
  if (after.finished.includes(pan)) return "done";
  if (after.onHold.some((one) => one.pan === pan)) return "on hold";
  if (!after.day.pans.some(({ id }) => id === pan)) return "gone";
  if (!before.day.pans.some(({ id }) => id === pan)) return becomes === null ? "left over" : "new";
  if (becomes === null) return after.plan.leftOver.some(({ id }) => id === pan) ? "left over" : "none";
  if (!follows || was === null || minutes === null) return "planned again";
  return minutes === 0 ? "same" : minutes > 0 ? "later" : "earlier";
}

function nextBake(loads: readonly PlanLoad[], pan: string, opened: ReadonlySet<string>): PanDifference["was"] {
  for (const load of loads) {
    if (opened.has(load.id) && load.state !== "planned") continue;
    const place =
      load.state === "firing" || load.state === "fired" ? undefined : load.pans.find(({ id }) => id === pan);
    if (place === undefined || (opened.has(load.id) && load.state === "planned" && isPast(load, opened))) continue;
    return {
      load: load.id,
      oven: load.oven,
      coat: place.coat,
      setPointC: load.setPointC,
      doorOpensAt: load.doorOpensAt,
    };
  }
  return null;
}

/** A load of the old plan that has been opened since is no longer to come. */
function isPast(load: PlanLoad, opened: ReadonlySet<string>): boolean {
  return opened.has(load.id);
}

function ticketDifferences(before: Current, after: After, time: ShopTime): TicketDifference[] {
  const names = new Set([
    ...before.plan.tickets.map(({ ticket }) => ticket),
    ...after.plan.tickets.map(({ ticket }) => ticket),
  ]);
  return [...names].flatMap((ticket) => {
    const was = before.plan.tickets.find((one) => one.ticket === ticket);
    const becomes = after.plan.tickets.find((one) => one.ticket === ticket);
    // Wholly done before now: a fact, not a difference.
    if (becomes === undefined && was !== undefined && time.millis(was.readyAt) <= after.asOf) return [];
    const promisedAt = after.overdue[ticket] ?? becomes?.promisedAt ?? was?.promisedAt ?? null;
    const late = (readyAt: string | undefined): number | null =>
      readyAt === undefined
        ? null
        : promisedAt === null
          ? 0
          : Math.max(0, (time.millis(readyAt) - time.millis(promisedAt)) / MINUTE);
    const minutes =
      was && becomes ? Math.round((time.millis(becomes.readyAt) - time.millis(was.readyAt)) / MINUTE) : null;
    const entry = {
      ticket,
      promisedAt: promisedAt === null ? null : time.write(time.millis(promisedAt)),
      wasReadyAt: was?.readyAt ?? null,
      readyAt: becomes?.readyAt ?? null,
      minutes,
      wasLateMinutes: late(was?.readyAt),
      lateMinutes: late(becomes?.readyAt),
    };
    return [{ ...entry, words: ticketWords(entry) }];
  });
}

type Sums = Pick<Difference, "gasKWh" | "ovenMinutes" | "crewMinutes" | "latePanMinutes" | "money">;

/** Both plans counted alike: what is still to come from now on, at the day's prices. */
function sumsOf(before: Current, after: After, time: ShopTime): Sums {
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
  const loads = plan.loads.filter(
    ({ id, state }) => state !== "fired" && state !== "firing" && !(after.opened.has(id) && plan !== after.plan),
  );
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
  const { latePerPanHour = 0, rushLatePerPanHour = latePerPanHour } = day.prices ?? {};
  const alive = new Set(after.day.pans.map((pan) => pan.ticket ?? pan.id));
  let minutes = 0;
  let money = 0;
  for (const { ticket, readyAt, promisedAt } of plan.tickets) {
    const promise = after.overdue[ticket] ?? promisedAt;
    if (promise === null || !alive.has(ticket)) continue;
    const lateMinutes = Math.max(0, (time.millis(readyAt) - time.millis(promise)) / MINUTE);
    const pans = day.pans.filter((pan) => (pan.ticket ?? pan.id) === ticket);
    minutes += lateMinutes * pans.reduce((sum, { quantity }) => sum + (quantity ?? 1), 0);
    const perHour = pans.reduce(
      (sum, pan) =>
        sum +
        (pan.quantity ?? 1) * (pan.latePerHour ?? (pan.priority === "rush" ? rushLatePerPanHour : latePerPanHour)),
      0,
    );
    money += (lateMinutes / 60) * perHour;
  }
  return { minutes, money };
}

export { clockText, laterWords };
