/** What a new plan changes against the plan in force from now on: pan by pan, ticket by ticket, and what it costs. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import type { Difference, PanDifference, TicketDifference } from "../contract/searching.ts";
import { readyMinute } from "../contract/words.ts";
import type { OnHold } from "../shop/equipment.ts";
import { MINUTE, shopTime } from "../shop/instants.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Current, SetAside } from "../shop/stand.ts";
import { sumsOf } from "./difference-sums.ts";
import { panWords, ticketWords } from "./difference-words.ts";

/** The side a difference is seen from: what is known about the new plan besides its file. */
export interface After {
  readonly plan: PlanFile;
  readonly day: DayFile;
  readonly asOf: number;
  readonly onHold: readonly OnHold[];
  /** Pans that planning is not asked about. */
  readonly setAside: readonly SetAside[];
  readonly finished: readonly string[];
  /** Ids of loads over, under way or broken off. */
  readonly begun: ReadonlySet<string>;
  /** Of searches by older versions, which moved promises on: the true ones, by ticket. */
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
    ...tickets.filter(({ minutes, waitsFor }) => minutes !== 0 || waitsFor.length > 0),
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
    const was = nextBake(before.plan.loads, pan, after.begun);
    const becomes = nextBake(after.plan.loads, pan, after.begun);
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
      after.setAside.find((one) => one.pan === pan)?.why ??
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
  if (isOnHold(after, pan)) return "on hold";
  if (!after.day.pans.some(({ id }) => id === pan)) return "gone";
  if (!before.day.pans.some(({ id }) => id === pan)) return becomes === null ? "left over" : "new";
  if (becomes === null) return after.plan.leftOver.some(({ id }) => id === pan) ? "left over" : "none";
  if (!follows || was === null || minutes === null) return "planned again";
  return minutes === 0 ? "same" : minutes > 0 ? "later" : "earlier";
}

function isOnHold({ onHold, setAside }: After, pan: string): boolean {
  return onHold.some((one) => one.pan === pan) || setAside.some((one) => one.pan === pan && one.state === "on hold");
}

/** The pan's first bake not yet begun. */
function nextBake(loads: readonly PlanLoad[], pan: string, begun: ReadonlySet<string>): PanDifference["was"] {
  for (const load of loads) {
    const place = begun.has(load.id) ? undefined : load.pans.find(({ id }) => id === pan);
    if (place === undefined) continue;
    const { id, oven, setPointC, doorOpensAt } = load;
    return { load: id, oven, coat: place.coat, setPointC, doorOpensAt };
  }
  return null;
}

function ticketDifferences(before: Current, after: After, time: ShopTime): TicketDifference[] {
  const names = new Set([
    ...before.plan.tickets.map(({ ticket }) => ticket),
    ...after.plan.tickets.map(({ ticket }) => ticket),
  ]);
  const waiting = before.day.pans
    .filter(({ id }) => isOnHold(after, id))
    .map((pan) => ({ id: pan.id, ticket: pan.ticket ?? pan.id }));
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
    const minutes = was && becomes ? readyMinute(becomes.readyAt) - readyMinute(was.readyAt) : null;
    const waitsFor = waiting.filter((pan) => pan.ticket === ticket).map(({ id }) => id);
    const entry = {
      ticket,
      waitsFor,
      promisedAt: promisedAt === null ? null : time.write(time.millis(promisedAt)),
      wasReadyAt: was?.readyAt ?? null,
      readyAt: becomes?.readyAt ?? null,
      minutes,
      wasLateMinutes: late(was?.readyAt),
      lateMinutes: late(becomes?.readyAt),
    };
    return [{ ...entry, words: ticketWords(entry, time) }];
  });
}
