import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { checkPlan } from "../../api/check/check-plan.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { auditReplan, dayOf, loadsOf } from "../help/audit-replan.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

// A machine shared with others may be ten times as slow.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
});
afterAll(() => shop.stop());

/** Steps, not seconds, so that every run takes the same way. */
const quick = { steps: 60, seconds: 10 };

async function plannedDay(): Promise<SearchAnswer> {
  shop.setNow("2026-09-15T05:00:00Z");
  expect(
    (
      await shop.ask("PUT", "/day", {
        raw: JSON.stringify(shopDay("full-day")),
        headers: { "Content-Type": "application/json" },
      })
    ).status,
  ).toBe(200);
  const { body } = await shop.ask("POST", "/plans", { body: quick });
  const done = await shop.finished(body.id);
  expect(done.problem).toBeNull();
  expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
  return done;
}

async function faultsOf(id: string): Promise<unknown[]> {
  const { day } = (await shop.ask("GET", `/plans/${id}/request`)).body;
  const { plan } = (await shop.ask("GET", `/plans/${id}`)).body;
  const read = readDay(day);
  return read.ok ? checkPlan(read.day, plan) : [...read.problems];
}

describe("planning the rest of the day anew", () => {
  let first: SearchAnswer;
  beforeEach(async () => {
    first = await plannedDay();
  });

  /** Half-way through the second load. */
  const midOf = (index: number): string => {
    const load = first.plan!.loads[index]!;
    return new Date((Date.parse(load.doorClosesAt) + Date.parse(load.unloadAt)) / 2).toISOString();
  };

  it("leaves the load in the oven as it is and answers within a second", async () => {
    const firing = first.plan!.loads[1]!;
    shop.setNow(midOf(1));
    const began = performance.now();
    const { status, body } = await shop.ask("POST", "/replans", { body: quick });
    expect(performance.now() - began).toBeLessThan(3000);
    expect(status).toBe(202);
    const done = await shop.finished(body.id);
    expect(done.problem).toBeNull();
    const after = done.plan!.loads.find(({ id }) => id === firing.id)!;
    expect(after).toMatchObject({
      state: "firing",
      doorOpensAt: firing.doorOpensAt,
      unloadAt: firing.unloadAt,
      setPointC: firing.setPointC,
    });
    expect(after.pans.map(({ id }) => id)).toEqual(firing.pans.map(({ id }) => id));
    expect(done.soFar.map(({ load }) => load)).toContain(first.plan!.loads[0]!.id);
    expect(await faultsOf(body.id)).toEqual([]);
  });

  it("sends a failed pan through strip and every coat again, and says so", async () => {
    const failed = first.plan!.loads.flatMap(({ pans }) => pans)[0]!.id;
    shop.setNow(first.plan!.loads.find(({ pans }) => pans.length > 0)!.doneAt);
    const happened = [{ kind: "pan-failed", pan: failed, cause: "pinholes", stripMinutes: 40 }];
    const { status, body } = await shop.ask("POST", "/replans", { body: { happened, ...quick } });
    expect(status).toBe(202);
    const done = await shop.finished(body.id);
    expect(await faultsOf(body.id)).toEqual([]);
    const told = done.difference!.pans.find(({ pan }) => pan === failed)!;
    expect(["planned again", "left over"]).toContain(told.change);
    const { day } = (await shop.ask("GET", `/plans/${body.id}/request`)).body;
    expect(day.pans.find(({ id }: { id: string }) => id === failed)).toMatchObject({ prepMinutes: 40 });
  });

  it("tells what each pan of a load had when the power went, and bakes on", async () => {
    const load = first.plan!.loads[1]!;
    shop.setNow(midOf(1));
    const happened = [{ kind: "load-interrupted", load: load.id, cause: "power cut" }];
    const { status, body } = await shop.ask("POST", "/replans", { body: { happened, ...quick } });
    expect(status).toBe(202);
    expect(body.interrupted[0].pans).toHaveLength(load.pans.length);
    expect(body.interrupted[0].steps.join(" ")).toMatch(/purge/);
    const done = await shop.finished(body.id);
    expect(await faultsOf(body.id)).toEqual([]);
    expect(done.plan!.loads.some(({ id }) => id === load.id)).toBe(false);
  });

  it.each([
    ["a shelf is lost", { kind: "shelf-out", oven: "box-1", shelf: "bottom" }],
    ["the sprayer has gone home", { kind: "sprayers-changed", sprayers: 0 }],
  ])("plans on when %s", async (_what, event) => {
    const ovens = shopDay("full-day").ovens;
    const oven = ovens[0]!;
    const shelf = oven.space.kind === "shelves" ? oven.space.shelves.at(-1)!.id : "";
    const said = event.kind === "shelf-out" ? { ...event, oven: oven.id, shelf } : event;
    shop.setNow(first.plan!.loads[1]!.doneAt);
    const { status, body } = await shop.ask("POST", "/replans", { body: { happened: [said], ...quick } });
    expect(body.detail).toBeUndefined();
    expect(status).toBe(202);
    const done = await shop.finished(body.id);
    expect(done.problem).toBeNull();
    expect(await faultsOf(body.id)).toEqual([]);
    if (event.kind === "shelf-out")
      expect(done.plan!.loads.flatMap(({ pans }) => pans).every((pan) => pan.shelf !== shelf)).toBe(true);
    else expect(done.plan!.booth).toEqual([]);
  });

  it("holds a load that is late and moves the others only as far as they must", async () => {
    const load = first.plan!.loads[2]!;
    shop.setNow(new Date(Date.parse(load.doorOpensAt) - 5 * 60_000).toISOString());
    const { body } = await shop.ask("POST", "/replans", {
      body: { happened: [{ kind: "load-late", load: load.id, minutes: 20 }], ...quick },
    });
    expect(body.notes[0]).toMatch(/20 min later/);
    const done = await shop.finished(body.id);
    expect(await faultsOf(body.id)).toEqual([]);
    for (const { pan, was, becomes, minutes, change } of done.difference!.pans) {
      if (change !== "later" && change !== "earlier" && change !== "same") continue;
      expect(minutes, pan).toBe((Date.parse(becomes!.doorOpensAt) - Date.parse(was!.doorOpensAt)) / 60_000);
      expect(first.plan!.loads.find(({ id }) => id === was!.load)!.doorOpensAt).toBe(was!.doorOpensAt);
    }
  });

  it("re-times the plan in force at once: the same pans go together in the same order", async () => {
    const late = first.plan!.loads[1]!;
    shop.setNow(midOf(1));
    const happened = [{ kind: "load-late", load: late.id, minutes: 7 }];
    // So few steps leave no time to search.
    const { body } = await shop.ask("POST", "/replans", { body: { happened, steps: 1, seconds: 60 } });
    const done = await shop.finished(body.id);
    const company = (loads: readonly PlanLoad[]): string[] =>
      loads
        .filter(({ kind }) => kind === "bake")
        .map(({ pans }) => pans.map(({ id, coat }) => `${id}/${coat}`).join(" "));
    const sorted = (loads: readonly PlanLoad[]): string[] =>
      company(loads.map((load) => ({ ...load, pans: load.pans.toSorted((a, b) => a.id.localeCompare(b.id)) })));
    const before = first.plan!.loads.filter(
      ({ doorOpensAt }) => Date.parse(doorOpensAt) > Date.parse(late.doorOpensAt),
    );
    const after = done.plan!.loads.filter(({ state }) => state === "planned");
    const kept = sorted(after).filter((load) => sorted(before).includes(load));
    expect(kept.length).toBeGreaterThanOrEqual(before.filter(({ kind }) => kind === "bake").length - 1);
  });

  it("streams every better plan with what it changes", async () => {
    shop.setNow(midOf(1));
    const said = { kind: "load-late", load: first.plan!.loads[2]!.id, minutes: 30 };
    const { body } = await shop.ask("POST", "/replans", { body: { happened: [said], steps: 400, seconds: 60 } });
    const stream = (await shop.ask("GET", `/plans/${body.id}/events`)).text;
    const told = stream.split("\n\n").flatMap((one) => /^event: (\w+)\ndata: (.*)$/s.exec(one)?.slice(1, 3) ?? []);
    expect(told.filter((_, i) => i % 2 === 0).at(-1)).toBe("ended");
    const loads = await loadsOf(shop);
    const day = await dayOf(shop, body.id);
    const facts = { before: first.plan!, beforeDay: await dayOf(shop, first.id), loads, day };
    const now = Math.ceil(Date.parse(midOf(1)) / 60_000) * 60_000;
    for (let i = 0; i < told.length; i += 2) {
      const data = JSON.parse(told[i + 1]!) as SearchAnswer;
      auditReplan({ ...facts, now, done: { ...data, problem: null, onHold: [], lostPins: [] } });
    }
  });

  it("accepts a re-plan and goes on from it", async () => {
    shop.setNow(midOf(1));
    const { body } = await shop.ask("POST", "/replans", { body: quick });
    await shop.finished(body.id);
    const accepted = await shop.ask("POST", `/plans/${body.id}/accept`, { body: { who: "Ana" } });
    expect(accepted.body.detail).toBeUndefined();
    expect((await shop.ask("GET", "/plans/in-force")).body.id).toBe(body.id);
    shop.setNow(new Date(Date.parse(midOf(1)) + 3 * 3_600_000).toISOString());
    const again = await shop.ask("POST", "/replans", { body: quick });
    expect(again.body.detail).toBeUndefined();
    await shop.finished(again.body.id);
    expect(await faultsOf(again.body.id)).toEqual([]);
  });

  it("quotes a rush job without taking it, and accepting does what was quoted", async () => {
    const pan = {
      ...shopDay("full-day").pans[0]!,
      id: "RUSH",
      ticket: "R-1",
      quantity: 1,
      readyAt: "2026-09-15T08:00",
      promisedAt: "2026-09-15T16:00",
      priority: "rush",
    };
    shop.setNow(midOf(0));
    const before = (await shop.ask("GET", "/pans")).text;
    const { status, body } = await shop.ask("POST", "/quotes", { body: { pans: [pan], ...quick } });
    expect(body.detail).toBeUndefined();
    expect(status).toBe(202);
    await shop.finished(body.id);
    expect((await shop.ask("GET", "/pans")).text).toBe(before);
    const quote = (await shop.ask("GET", `/quotes/${body.id}`)).body;
    expect(quote.quote.words.length).toBeGreaterThan(1);
    expect(Date.parse(quote.quote.promiseAt)).toBeGreaterThanOrEqual(Date.parse(quote.quote.earliestReadyAt));
    expect(await faultsOf(body.id)).toEqual([]);
    expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
    const ticket = (await shop.ask("GET", "/tickets")).body.tickets.find(
      (one: { ticket: string }) => one.ticket === "R-1",
    );
    expect(ticket.readyAt).toBe(quote.quote.earliestReadyAt);
    expect(Date.parse(ticket.promisedAt)).toBe(Date.parse(quote.quote.promiseAt));
    expect((await shop.ask("GET", "/plans/in-force")).body.plan).toEqual(quote.plan);
  });
});
