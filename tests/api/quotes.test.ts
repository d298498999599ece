/** Quotes on invented days: what is said before a job is taken is, number by number, what taking it then does. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkPlan } from "../../api/check/check-plan.ts";
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { shopTime } from "../../api/shop/instants.ts";
import { planDay } from "../../api/planning/plan-day.ts";
import { moreMoney } from "../help/audit-money.ts";
import { generatedDay } from "../help/days.ts";
import type { DayWish } from "../help/days.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
});
afterAll(() => shop.stop());

/** Steps, so that every run takes the same way; the seconds are never reached. */
const quick = { steps: 30, seconds: 60 };

async function inForce(day: DayFile): Promise<void> {
  // Nothing has begun yet.
  shop.setNow(new Date(shopTime(day).millis(day.planFrom) - 600_000).toISOString());
  expect((await shop.ask("PUT", "/day", { body: day })).status).toBe(200);
  const { body } = await shop.ask("POST", "/plans", { body: quick });
  const done = await shop.finished(body.id);
  expect(done.problem).toBeNull();
  expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
}

type Pan = DayFile["pans"][number];

/** Two alike pans of a ticket that nobody has, ready in half an hour. */
function job(day: DayFile, more: Partial<Pan> = {}): Pan {
  const like = day.pans.find(({ sprayed, nextCoat }) => sprayed !== true && (nextCoat ?? 1) === 1) ?? day.pans[0]!;
  const { latePerHour: _rate, leftOverCost: _left, ...line } = like;
  return { ...line, id: "RUSH-1", ticket: "RUSH", quantity: 2, nextCoat: 1, sprayed: false, promisedAt: null, ...more };
}

async function asked(pans: Pan[], more: object = {}) {
  const { status, body, text } = await shop.ask("POST", "/quotes", { body: { pans, ...quick, ...more } });
  expect(status, text).toBe(202);
  await shop.finished(body.id);
  return (await shop.ask("GET", `/quotes/${body.id}`)).body;
}

async function state() {
  const day = await shop.ask("GET", "/day");
  const plan = await shop.ask("GET", "/plans/in-force");
  const events = await shop.ask("GET", "/events");
  return {
    tag: day.headers.get("etag"),
    day: day.body,
    plan: plan.body.plan as PlanFile,
    inForce: plan.body.id,
    events: events.body,
    tickets: (await shop.ask("GET", "/tickets")).body.tickets,
    loads: (await shop.ask("GET", "/loads")).body.loads,
  };
}

async function faults(id: string): Promise<unknown> {
  const { day } = (await shop.ask("GET", `/plans/${id}/request`)).body;
  const { plan } = (await shop.ask("GET", `/plans/${id}`)).body;
  const read = readDay(day);
  return read.ok ? checkPlan(read.day, plan) : read.problems;
}

const idOf = ({ id }: { id: string }): string => id;
const byId = (a: { id: string }, b: { id: string }): number => a.id.localeCompare(b.id);
const minutes = (plan: PlanFile): number =>
  plan.loads.reduce((sum, load) => sum + (Date.parse(load.doneAt) - Date.parse(load.doorOpensAt)) / 60_000, 0);
/** Whole minutes: nothing is handed over before it is ready. */
const whole = (instant: string): number => Math.ceil(Date.parse(instant) / 60_000);

const wishes: readonly DayWish[] = [
  { pans: 8, ovens: 1, door: "hot", pace: "calm", seed: 81 },
  { pans: 10, ovens: 1, door: "cold", pace: "overloaded", seed: 82 },
  { pans: 10, ovens: 2, door: "hot", pace: "overloaded", seed: 83 },
  { pans: 9, ovens: 2, door: "cold", pace: "calm", seed: 84 },
  { pans: 8, ovens: 1, door: "hot", pace: "calm", seed: 85, cycle: "fixed" },
];

describe("a quote", { timeout: 180_000 }, () => {
  it.each(wishes)(
    "is what accepting it then does: $pans pans, $ovens ovens, $door door, $pace, seed $seed",
    async (wish) => {
      const day = generatedDay(wish);
      await inForce(day);
      const before = await state();
      const quoted = await asked([job(day)]);
      expect(await state()).toEqual(before);
      expect(quoted.plan).not.toBeNull();
      expect(await faults(quoted.id)).toEqual([]);
      const { quote } = quoted;
      const accepted = await shop.ask("POST", `/plans/${quoted.id}/accept`, { body: { offer: quoted.offer } });
      expect(accepted.status, accepted.text).toBe(200);
      const after = await state();

      expect(after.inForce).toBe(quoted.id);
      expect(after.plan).toEqual(quoted.plan);
      expect(after.loads.map(({ load }: { load: { id: string } }) => load).toSorted(byId)).toEqual(
        quoted.plan.loads.toSorted(byId),
      );
      expect(await faults(quoted.id)).toEqual([]);

      // The hand-over, and the promise in day, ticket list and plan.
      const own = after.plan.tickets.find(({ ticket }) => ticket === "RUSH")!;
      const pans = after.day.pans.filter((pan: Pan) => pan.ticket === "RUSH");
      expect(pans).toHaveLength(2);
      if (quote.promiseAt === null) {
        expect(after.plan.leftOver.some(({ id }) => id.startsWith("RUSH-1"))).toBe(true);
        expect(quote.earliestReadyAt).toBeNull();
      } else {
        expect(own).toMatchObject({ readyAt: quote.earliestReadyAt, promisedAt: quote.promiseAt, lateMinutes: 0 });
        for (const pan of pans) expect(Date.parse(pan.promisedAt)).toBe(Date.parse(quote.promiseAt));
        const told = after.tickets.find(({ ticket }: { ticket: string }) => ticket === "RUSH");
        expect(told).toMatchObject({ readyAt: quote.earliestReadyAt, lateMinutes: 0 });
        expect(Date.parse(quote.promiseAt) - Date.parse(quote.earliestReadyAt)).toBeGreaterThanOrEqual(10 * 60_000);
        expect(Date.parse(quote.promiseAt) % (5 * 60_000)).toBe(0);
      }

      // Who slips, and by how much: from the tickets of both plans.
      const slips = before.plan.tickets.flatMap(({ ticket, readyAt }) => {
        const now = after.plan.tickets.find((one) => one.ticket === ticket)!;
        const later = whole(now.readyAt) - whole(readyAt);
        return later > 0 ? [{ ticket, minutes: later, lateMinutes: now.lateMinutes }] : [];
      });
      const said = quote.slips.map((slip: (typeof slips)[number]) => [slip.ticket, slip.minutes]);
      expect(new Map(said)).toEqual(new Map(slips.map((slip) => [slip.ticket, slip.minutes])));
      for (const slip of slips)
        expect(quote.slips.find(({ ticket }: { ticket: string }) => ticket === slip.ticket).lateMinutes).toBeCloseTo(
          slip.lateMinutes,
          1,
        );

      // What it takes: from the accounts of both plans.
      expect(quote.extraGasKWh).toBeCloseTo(after.plan.gas.kWh - before.plan.gas.kWh, 2);
      expect(quote.extraOvenMinutes).toBeCloseTo(minutes(after.plan) - minutes(before.plan), 6);
      if (quote.promiseAt !== null) {
        expect(quote.extraMoney).toBeCloseTo(after.plan.cost.total - before.plan.cost.total, 1);
        expect(quote.suggestedSurcharge).toBe(Math.max(0, Math.ceil(quote.extraMoney)));
      }

      // Taken back, all is as it was.
      expect((await shop.ask("POST", `/events/${accepted.body.event}/undo`, { body: {} })).status).toBe(201);
      const undone = await state();
      expect([undone.day, undone.plan, undone.loads]).toEqual([before.day, before.plan, before.loads]);
    },
  );
});

describe("a quote with a load in the oven", { timeout: 180_000 }, () => {
  it("leaves what is begun as it is, and counts from now on as accepting it then does", async () => {
    const day = shopDay("small-morning");
    await inForce(day);
    const firing = (await state()).plan.loads[1]!;
    const now = (Date.parse(firing.doorClosesAt) + Date.parse(firing.unloadAt)) / 2;
    shop.setNow(new Date(now).toISOString());
    const before = await state();
    const quoted = await asked([job(day, { readyAt: "2026-06-09T10:00" })]);
    expect(await faults(quoted.id)).toEqual([]);
    expect(await state()).toEqual(before);
    const accepted = await shop.ask("POST", `/plans/${quoted.id}/accept`, { body: { offer: quoted.offer } });
    expect(accepted.status, accepted.text).toBe(200);
    const after = await state();
    expect(after.plan).toEqual(quoted.plan);
    const isBegun = ({ doorOpensAt }: { doorOpensAt: string }): boolean => Date.parse(doorOpensAt) <= now;
    const begun = ({ loads }: { loads: { load: PlanFile["loads"][number] }[] }): unknown =>
      loads.map(({ load: { state: _state, ...load } }) => load).filter(isBegun);
    expect(begun(after)).toEqual(begun(before));
    const toCome = (plan: PlanFile): PlanFile => ({ ...plan, loads: plan.loads.filter((load) => !isBegun(load)) });
    const gas = (plan: PlanFile): number => toCome(plan).loads.reduce((sum, load) => sum + load.gasKWh, 0);
    const { quote } = quoted;
    expect(quote.extraGasKWh).toBeCloseTo(gas(after.plan) - gas(before.plan), 6);
    expect(quote.extraOvenMinutes).toBeCloseTo(minutes(toCome(after.plan)) - minutes(toCome(before.plan)), 6);
    const found = moreMoney({
      before: before.plan,
      beforeDay: (await shop.ask("GET", `/plans/${before.inForce}/request`)).body.day,
      plan: after.plan,
      day: (await shop.ask("GET", `/plans/${quoted.id}/request`)).body.day,
      now: Math.ceil(now / 60_000) * 60_000,
      begun: new Set(
        after.loads
          .map(({ load }: { load: PlanFile["loads"][number] }) => load)
          .filter(isBegun)
          .map(idOf),
      ),
    });
    expect(quote.extraMoney).toBeCloseTo(
      found.gas + found.crew + found.late + found.leftOver + after.plan.cost.moved,
      6,
    );
    const own = after.plan.tickets.find(({ ticket }) => ticket === "RUSH")!;
    expect(own).toMatchObject({ readyAt: quote.earliestReadyAt, promisedAt: quote.promiseAt, lateMinutes: 0 });
    const slips = after.plan.tickets.flatMap(({ ticket, readyAt }) => {
      const was = before.plan.tickets.find((one) => one.ticket === ticket);
      const later = was === undefined ? 0 : whole(readyAt) - whole(was.readyAt);
      return later > 0 ? [[ticket, later] as const] : [];
    });
    const said = quote.slips.map((slip: { ticket: string; minutes: number }) => [slip.ticket, slip.minutes]);
    expect(new Map(said)).toEqual(new Map(slips));
  });
});

describe("a wish", { timeout: 120_000 }, () => {
  it("that leaves room is promised; one that cannot be kept is not", async () => {
    const day = shopDay("small-morning");
    await inForce(day);
    const evening = "2026-06-09T17:30";
    const easy = await asked([job(day, { promisedAt: evening })]);
    expect(Date.parse(easy.quote.promiseAt)).toBe(Date.parse(`${evening}:00+01:00`));
    expect(easy.quote).toMatchObject({ wishKept: true, wishAt: easy.quote.promiseAt });
    const hard = await asked([job(day, { promisedAt: "2026-06-09T08:30" })]);
    expect(hard.quote.wishKept).toBe(false);
    expect(hard.quote.words.join(" ")).toContain("cannot be kept");
    expect(Date.parse(hard.quote.promiseAt)).toBeGreaterThan(Date.parse(hard.quote.wishAt));
    expect(await faults(hard.id)).toEqual([]);
  });
});

describe("a quote that is not taken as it was seen", { timeout: 120_000 }, () => {
  it("is refused while a better offer stands in its place, and taken as what then stands", async () => {
    const day = shopDay("small-morning");
    await inForce(day);
    const { body } = await shop.ask("POST", "/quotes", { body: { pans: [job(day)], seconds: 60 } });
    const refused = await shop.ask("POST", `/plans/${body.id}/accept`, { body: { offer: "another" } });
    expect(refused.status).toBe(409);
    const now = (await shop.ask("GET", `/quotes/${body.id}`)).body;
    expect(now.state).toBe("stopped");
    expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: { offer: now.offer } })).status).toBe(200);
    expect((await shop.ask("GET", "/plans/in-force")).body.plan).toEqual(now.plan);
  });

  it("stays open while other plans are asked for, and ends when the day changes", async () => {
    const day = shopDay("small-morning");
    await inForce(day);
    const one = await asked([job(day)]);
    await asked([job(day, { id: "OTHER-1", ticket: "OTHER" })]);
    await shop.ask("POST", "/readings", { body: { oven: day.ovens[0]!.id, chamberC: 200 } });
    expect((await shop.ask("POST", `/plans/${one.id}/accept`, { body: {} })).status).toBe(200);
    const late = await asked([job(day, { id: "LATE-1", ticket: "LATE" })]);
    await shop.ask("POST", "/events", { body: { kind: "pan-withdrawn", pan: day.pans.at(-1)!.id } });
    const refused = await shop.ask("POST", `/plans/${late.id}/accept`, { body: {} });
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain("changed");
  });

  it("needs a ticket of its own and a plan to compare with", async () => {
    const day = shopDay("small-morning");
    expect((await shop.ask("PUT", "/day", { body: day })).status).toBe(200);
    const early = await shop.ask("POST", "/quotes", { body: { pans: [job(day)] } });
    expect(early).toMatchObject({ status: 409, body: { detail: expect.stringContaining("No plan is in force") } });
    await inForce(day);
    const joined = await shop.ask("POST", "/quotes", { body: { pans: [job(day, { ticket: day.pans[0]!.ticket! })] } });
    expect(joined).toMatchObject({ status: 409, body: { detail: expect.stringContaining("ticket of its own") } });
  });
});

describe("a quote that was taken", { timeout: 120_000 }, () => {
  it("can be made again from what the closed day keeps, to the byte", async () => {
    const day = shopDay("small-morning");
    await inForce(day);
    const quoted = await asked([job(day)]);
    await shop.ask("POST", `/plans/${quoted.id}/accept`, { body: {} });
    shop.setNow("2026-06-09T20:00:00Z");
    const { body: closed, text } = await shop.ask("POST", "/day/close", { body: {} });
    expect(closed.id, text).toBe(1);
    const kept = (await shop.ask("GET", `/days/${closed.id}`)).body.plans.at(-1);
    expect(kept.planFile).toEqual(quoted.plan);
    const pans = kept.day.pans.map((pan: Pan) => ({ ...pan, promisedAt: kept.wishes[pan.id] ?? pan.promisedAt }));
    const read = readDay({ ...kept.day, pans });
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    const { seconds } = kept.planFile.search;
    let told = 0;
    const { plan } = await planDay(read.day, {
      ...kept.options,
      seconds: null,
      clock: { now: () => Date.parse(kept.planFile.madeAt) },
      secondsNow: () => (told++ === 0 ? 0 : seconds),
    });
    const bakes = ({ loads }: PlanFile): unknown => loads.map(({ id: _id, ...load }) => load);
    expect(JSON.stringify(bakes(plan))).toBe(JSON.stringify(bakes(kept.planFile)));
    expect([plan.gas, plan.prep, plan.booth]).toEqual([kept.planFile.gas, kept.planFile.prep, kept.planFile.booth]);
  });
});
