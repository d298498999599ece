/** Holds a re-plan to the contract from outside: what it may not touch, and every line of its difference worked out anew. */
import { DateTime } from "luxon";
import { expect } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile, PlanLoad } from "../../api/contract/plan.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { moreMoney } from "./audit-money.ts";
import type { TestService } from "./service.ts";

export interface LoadNow {
  readonly id: string;
  readonly state: string;
  readonly load: PlanLoad;
}

export interface Replanning {
  /** The plan in force and the day that it was planned from. */
  readonly before: PlanFile;
  readonly beforeDay: DayFile;
  /** Loads after what happened was reported. */
  readonly loads: readonly LoadNow[];
  readonly now: number;
  readonly done: SearchAnswer;
  readonly day: DayFile;
}

const at = (instant: string): number => Date.parse(instant);
const minuteOf = (instant: string): number => Math.ceil(at(instant) / 60_000);

export async function loadsOf(shop: TestService): Promise<LoadNow[]> {
  return (await shop.ask("GET", "/loads")).body.loads as LoadNow[];
}

export async function dayOf(shop: TestService, plan: string): Promise<DayFile> {
  return (await shop.ask("GET", `/plans/${plan}/request`)).body.day as DayFile;
}

export function auditReplan(replanning: Replanning): void {
  // That it is sound has been seen by the client, as of every plan.
  expect(replanning.done.problem).toBeNull();
  expectUntouched(replanning);
  expectPansTrue(replanning);
  expectTicketsTrue(replanning);
  expectSumsTrue(replanning);
}

function isBegun({ load, state }: LoadNow, now: number): boolean {
  return !["planned", "pinned"].includes(state) || at(load.doorOpensAt) <= now;
}

/** A load in the oven is in the new plan as it was reported; a pinned one stands where it stood, or is told to be lost. */
function expectUntouched({ loads, now, done, day }: Replanning): void {
  const ovens = new Set(day.ovens.map(({ id }) => id));
  for (const { id, state, load } of loads) {
    const found = done.plan!.loads.find((one) => one.id === id);
    if (state === "interrupted" || state === "dropped") expect(found, id).toBeUndefined();
    else if (state === "fired" || at(load.doneAt) <= now)
      expect(found === undefined || found.state === "firing", id).toBe(true);
    else if (state === "firing" || at(load.doorOpensAt) <= now)
      expect(found, id).toMatchObject({ ...fixed(load), state: "firing", pans: load.pans.map(places) });
    else if (state === "pinned" && ovens.has(load.oven) && !done.lostPins.includes(id) && found !== undefined) {
      expect(found, id).toMatchObject({ ...fixed(load), state: "pinned" });
      for (const pan of found.pans) expect(load.pans.map(places)).toContainEqual(places(pan));
    }
  }
}

const fixed = ({ oven, setPointC, doorOpensAt, doorClosesAt, burnerOffAt, unloadAt, doneAt }: PlanLoad) => ({
  oven,
  setPointC,
  doorOpensAt,
  doorClosesAt,
  burnerOffAt,
  unloadAt,
  doneAt,
});
const places = ({ id, item, coat, shelf, xCm, yCm, turned }: PlanLoad["pans"][number]) => ({
  id,
  item,
  coat,
  shelf,
  xCm,
  yCm,
  turned,
});

function expectPansTrue({ before, beforeDay, loads, now, done, day }: Replanning): void {
  const { pans } = done.difference!;
  const begun = new Set(loads.filter((entry) => isBegun(entry, now)).map(({ id }) => id));
  expect(pans.map(({ pan }) => pan).toSorted()).toEqual([...new Set(pans.map(({ pan }) => pan))].toSorted());
  for (const { id } of [...beforeDay.pans, ...day.pans])
    expect(
      pans.some(({ pan }) => pan === id),
      id,
    ).toBe(true);
  let moved = 0;
  for (const one of pans) {
    const was = first(before.loads, one.pan, begun);
    const becomes = first(done.plan!.loads, one.pan, begun);
    expect(one.was?.load, `${one.pan} was`).toBe(was?.id);
    expect(one.becomes?.load, `${one.pan} becomes`).toBe(becomes?.id);
    expect(one.becomes?.setPointC).toBe(becomes?.setPointC);
    if (becomes !== undefined) expect(one.words).toContain(becomes.doorOpensAt.slice(11, 16));
    if (was !== undefined && becomes !== undefined) {
      const minutes = (at(becomes.doorOpensAt) - at(was.doorOpensAt)) / 60_000;
      expect(one.minutes, one.pan).toBe(minutes);
      if (["same", "earlier", "later"].includes(one.change))
        expect(one.change).toBe(minutes === 0 ? "same" : minutes < 0 ? "earlier" : "later");
      if (one.change === "later") expect(one.words).toContain(`${minutes} min later`);
      if (one.change === "earlier") expect(one.words).toContain(`${-minutes} min earlier`);
    }
    if (one.change === "left over") expect(done.plan!.leftOver.map(({ id }) => id)).toContain(one.pan);
    if (one.change === "gone" || one.change === "on hold" || one.change === "done")
      expect(day.pans.map(({ id }) => id)).not.toContain(one.pan);
    const priced = day.inForce?.find(({ id }) => id === one.pan);
    const gap = priced && becomes ? Math.abs(at(becomes.doorOpensAt) - at(priced.doorOpensAt)) / 60_000 : Infinity;
    expect(one.moved, one.pan).toBe(priced !== undefined && gap > 15);
    if (one.moved) moved++;
  }
  const money = moved * (day.prices?.movePerPan ?? 0);
  expect(done.plan!.cost.moved).toBeCloseTo(money, 6);
  expect(done.difference!.money.moved).toBeCloseTo(money, 6);
}

function first(loads: readonly PlanLoad[], pan: string, begun: ReadonlySet<string>): PlanLoad | undefined {
  return loads
    .filter(({ id, pans }) => !begun.has(id) && pans.some((one) => one.id === pan))
    .toSorted((a, b) => at(a.doorOpensAt) - at(b.doorOpensAt))[0];
}

function expectTicketsTrue({ before, beforeDay, done, day }: Replanning): void {
  for (const one of done.difference!.tickets) {
    const was = before.tickets.find(({ ticket }) => ticket === one.ticket);
    const becomes = done.plan!.tickets.find(({ ticket }) => ticket === one.ticket);
    expect(one.readyAt).toBe(becomes?.readyAt ?? null);
    expect(one.wasReadyAt).toBe(was?.readyAt ?? null);
    if (was && becomes) expect(one.minutes).toBe(minuteOf(becomes.readyAt) - minuteOf(was.readyAt));
    // As it was given; a ticket that came in since has it from the new day.
    const given = [...beforeDay.pans, ...day.pans].find((pan) => (pan.ticket ?? pan.id) === one.ticket);
    const promise = given?.promisedAt ?? null;
    if (becomes && one.promisedAt !== null) {
      const late = Math.max(0, (at(becomes.readyAt) - at(one.promisedAt)) / 60_000);
      expect(one.lateMinutes).toBeCloseTo(late, 6);
      if (one.waitsFor.length === 0)
        expect(one.words).toContain(late > 0 ? `${Math.ceil(late)} min after its promise` : "in time");
    }
    if (promise === null) expect(one.lateMinutes ?? 0).toBe(0);
    // Whatever happens, nobody moves a promise that was given.
    else expect(at(one.promisedAt!), one.ticket).toBe(DateTime.fromISO(promise, { zone: day.timeZone }).toMillis());
    if (was && one.promisedAt !== null)
      expect(one.wasLateMinutes).toBeCloseTo(Math.max(0, (at(was.readyAt) - at(one.promisedAt)) / 60_000), 6);
    for (const pan of one.waitsFor) expect(done.onHold.map((held) => held.pan)).toContain(pan);
  }
  for (const { ticket } of done.plan!.tickets)
    expect(done.difference!.tickets.map((one) => one.ticket)).toContain(ticket);
  for (const pan of day.pans) expect(done.plan!.tickets.map(({ ticket }) => ticket)).toContain(pan.ticket ?? pan.id);
}

function expectSumsTrue({ before, beforeDay, loads, now, done, day }: Replanning): void {
  const begun = new Set(loads.filter((entry) => isBegun(entry, now)).map(({ id }) => id));
  const toCome = (plan: PlanFile): PlanLoad[] => plan.loads.filter(({ id }) => !begun.has(id));
  const gas = (plan: PlanFile): number => toCome(plan).reduce((sum, { gasKWh }) => sum + gasKWh, 0);
  const minutes = (plan: PlanFile): number =>
    toCome(plan).reduce((sum, { doorOpensAt, doneAt }) => sum + (at(doneAt) - at(doorOpensAt)) / 60_000, 0);
  const { gasKWh, ovenMinutes, crewMinutes, latePanMinutes, money } = done.difference!;
  const found = moreMoney({ before, beforeDay, plan: done.plan!, day, now, begun });
  expect(crewMinutes, "crew minutes").toBeCloseTo(found.crewMinutes, 6);
  expect(latePanMinutes, "late minutes").toBeCloseTo(found.latePanMinutes, 6);
  for (const part of ["gas", "crew", "late", "leftOver"] as const)
    expect(money[part], part).toBeCloseTo(found[part], 6);
  // The new plan's own account holds the same: the checker has worked that out by itself.
  const none: PlanFile = { ...done.plan!, loads: [], tickets: [], leftOver: [] };
  const whole = moreMoney({ before: none, beforeDay: day, plan: done.plan!, day, now, begun: new Set() });
  for (const part of ["gas", "crew", "late", "leftOver"] as const) {
    const rounding = part === "late" ? latenessRounding(day) : 0.005;
    expect(Math.abs(whole[part] - done.plan!.cost[part]), `${part} of the new plan`).toBeLessThan(rounding);
  }
  expect(gasKWh).toBeCloseTo(gas(done.plan!) - gas(before), 6);
  expect(ovenMinutes).toBeCloseTo(minutes(done.plan!) - minutes(before), 6);
  expect(money.total).toBeCloseTo(money.gas + money.crew + money.late + money.leftOver + money.moved, 6);
}

/** What half a second of every pan's lateness costs: a plan tells instants to the second. */
function latenessRounding({ pans, prices }: DayFile): number {
  const dearest = Math.max(prices?.latePerPanHour ?? 0, prices?.rushLatePerPanHour ?? 0);
  const perHour = pans.reduce((sum, { quantity, latePerHour }) => sum + (quantity ?? 1) * (latePerHour ?? dearest), 0);
  return 0.005 + (0.5 / 3600) * perHour;
}
