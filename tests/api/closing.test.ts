/** Close of day over HTTP: fired, failed by cause, gas measured and foreseen, saved; and plans made again years later. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { readDay } from "../../api/day/read-day.ts";
import { planDay } from "../../api/planning/plan-day.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
});
afterAll(() => shop.stop());

const quick = { steps: 60, seconds: 60 };

async function plannedDay(day: DayFile, before: string): Promise<SearchAnswer> {
  shop.setNow(before);
  expect((await shop.ask("PUT", "/day", { body: day })).status).toBe(200);
  const { body } = await shop.ask("POST", "/plans", { body: quick });
  const done = await shop.finished(body.id);
  expect(done.problem).toBeNull();
  expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
  return done;
}

/** `small-morning` on a later date. */
const onDate = (date: string): DayFile => {
  const next = new Date(Date.parse(`${date}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
  const moved = (text: string): string => (text === "2026-06-09" ? date : next);
  return JSON.parse(JSON.stringify(shopDay("small-morning")).replaceAll(/2026-06-(09|10)/g, moved)) as DayFile;
};

describe("closing a day", () => {
  let planned: SearchAnswer;
  beforeAll(async () => {
    planned = await plannedDay(onDate("2026-06-09"), "2026-06-09T05:00:00Z");
    const { loads } = planned.plan!;
    const reading = (at: string, meterUnits: number) =>
      shop.ask("POST", "/readings", { body: { at, oven: "box", meterUnits } });
    await reading("2026-06-09T06:30:00+01:00", 1000);
    shop.setNow(loads[0]!.doneAt);
    const [failed, other] = loads[0]!.pans;
    const fail = (pan: string, cause: string) =>
      shop.ask("POST", "/events", { body: { kind: "pan-failed", pan, cause } });
    expect((await fail(failed!.id, "pinholes")).status).toBe(201);
    const mistaken = await fail(other!.id, "fisheyes");
    expect((await shop.ask("POST", `/events/${mistaken.body.event}/undo`, { body: {} })).status).toBe(201);
    shop.setNow("2026-06-09T18:00:00Z");
    await reading("2026-06-09T18:30:00+01:00", 1000 + (1.05 * planned.plan!.gas.kWh) / 11);
  });

  it("is shown before it is done", async () => {
    const { body } = await shop.ask("GET", "/day/close");
    const { plan } = planned;
    expect(body.summary.failures).toEqual([{ cause: "pinholes", pans: 1 }]);
    expect(body.summary.fired.map(({ load }: { load: string }) => load)).toEqual(plan!.loads.map(({ id }) => id));
    const bakes = plan!.loads.flatMap(({ pans }) => pans).length;
    expect(body.summary.bakes).toBe(bakes);
    expect(body.summary.gasKWh).toBeCloseTo(plan!.gas.kWh, 1);
    expect(body.summary.kWhPerPan).toBeCloseTo(plan!.gas.kWh / bakes, 2);
    expect((await shop.ask("GET", "/days")).body.days).toEqual([]);
  });

  it("holds gas by the meter against what was foreseen", async () => {
    const { measuredGas } = (await shop.ask("GET", "/day/close")).body.summary;
    const { grossKWhPerUnit } = shopDay("small-morning").gas!;
    expect(measuredGas).toMatchObject({ by: "meter", readings: 2 });
    expect(measuredGas.kWh).toBeCloseTo(measuredGas.units * grossKWhPerUnit, 6);
    expect(measuredGas.foreseenKWh).toBeCloseTo(planned.plan!.gas.kWh, 1);
    expect(measuredGas.differencePercent).toBeCloseTo(100 * (measuredGas.kWh / measuredGas.foreseenKWh - 1), 6);
  });

  it("says what was saved: for a plan fired as it stood, what the plan said", async () => {
    const { summary, week, month } = (await shop.ask("GET", "/day/close")).body;
    for (const told of planned.plan!.gas.comparedWith) {
      const saved = summary.saved.find(({ habit }: { habit: string }) => habit === told.habit);
      expect(saved.habitKWh).toBeCloseTo(told.kWh, 0);
      expect(saved.savedKWh).toBeCloseTo(told.savedKWh, 0);
      expect(saved.savedMoney).toBeCloseTo(told.savedCost, 1);
    }
    expect(week).toMatchObject({ days: 1, saved: summary.saved });
    expect(month).toMatchObject({ days: 1, bakes: summary.bakes });
  });

  it("keeps the day, and sums the week and the month of the days closed", async () => {
    const shown = (await shop.ask("GET", "/day/close")).body;
    const first = await shop.ask("POST", "/day/close", { body: { who: "Ana" } });
    expect(first.status).toBe(201);
    expect(first.body.summary).toEqual(shown.summary);
    const again = await shop.ask("POST", "/day/close", { body: { who: "Ana" } });
    expect(again).toMatchObject({ status: 409, body: { detail: expect.stringContaining("nothing to close") } });
    // Wednesday of the same week, then Monday of the next, still in June.
    for (const date of ["2026-06-10", "2026-06-15"]) {
      await plannedDay(onDate(date), `${date}T05:00:00Z`);
      shop.setNow(`${date}T18:00:00Z`);
      const { body } = await shop.ask("POST", "/day/close", { body: {} });
      const sums = { week: body.week.days, month: body.month.days };
      expect(sums).toEqual(date === "2026-06-10" ? { week: 2, month: 2 } : { week: 1, month: 3 });
    }
    const { days } = (await shop.ask("GET", "/days")).body;
    expect(days).toHaveLength(3);
    const kWh = days.reduce((sum: number, { summary }: (typeof days)[number]) => sum + summary.gasKWh, 0);
    await plannedDay(onDate("2026-06-16"), "2026-06-16T05:00:00Z");
    expect((await shop.ask("GET", "/day/close")).body.month.gasKWh).toBeCloseTo(kWh, 6);
  });

  it("keeps what every plan was made from: made again it is the same to the byte", async () => {
    const kept = (await shop.ask("GET", "/days/1")).body;
    expect(kept.plans).toHaveLength(1);
    const { day, options, version, planFile } = kept.plans[0];
    expect(version).toMatch(/^\d+\.\d+\.\d+/);
    expect(planFile).toEqual(kept.planFile);
    const read = readDay(day);
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    // A clock that says what the first one said: nothing else of the two runs is shared.
    const { seconds } = planFile.search;
    let asked = 0;
    const again = await planDay(read.day, {
      ...options,
      seconds: null,
      clock: { now: () => Date.parse(planFile.madeAt) },
      secondsNow: () => (asked++ === 0 ? 0 : seconds),
    });
    expect(JSON.stringify(again.plan)).toBe(JSON.stringify(planFile));
  });

  it("has no closed day that never was", async () => {
    expect((await shop.ask("GET", "/days/99")).status).toBe(404);
    expect((await shop.ask("GET", "/days/x")).status).toBe(404);
  });
});

describe("the morning after", () => {
  it("begins with tomorrow's hours, what is left, and the oven as the day left it; it is planned at once", async () => {
    const day = shopDay("full-day");
    const start = Date.parse("2026-09-15T07:30:00+01:00");
    const planned = await plannedDay(day, new Date(start).toISOString());
    const { loads } = planned.plan!;
    const half = loads[Math.floor(loads.length / 2)]!;
    // Closed with half of the day's work undone, and one load in the oven.
    shop.setNow(half.unloadAt);
    await shop.ask("POST", "/events", { body: { kind: "sprayers-changed", sprayers: 0 } });
    const { status, body: closed, text } = await shop.ask("POST", "/day/close", { body: { who: "Ana" } });
    expect(status, text).toBe(201);
    const next = (await shop.ask("GET", "/day")).body as DayFile;
    const date = planned.plan!.loads[0]!.doorOpensAt.slice(0, 10);
    const tomorrow = new Date(Date.parse(`${date}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
    expect(next.planFrom.slice(0, 16)).toBe(`${tomorrow}${day.staffed[0]!.from.slice(10, 16)}`);
    const wall = (hours: DayFile["staffed"]): string[] =>
      hours.flatMap(({ from, to }) => [from, to]).map((instant) => instant.slice(11, 16));
    expect(wall(next.staffed)).toEqual(wall(day.staffed.filter(({ from }) => from.startsWith(date))));
    expect(closed.next).toMatchObject({ planFrom: next.planFrom, staffed: next.staffed });
    // What stood in the oven last still rules what may come next; over night it went cold.
    const [oven] = next.ovens;
    expect(oven!.lastGroups!.length).toBeGreaterThan(0);
    expect(oven!.cycle.kind === "thermal" && (oven!.cycle.startC ?? 20)).toBeLessThan(60);
    // Promises that were given yesterday are kept as given, though they are late.
    for (const pan of next.pans) {
      const was = day.pans.find(({ id }) => pan.id === id || pan.id.startsWith(`${id}.`))!;
      expect(pan.promisedAt ?? null).toBe(was.promisedAt ?? null);
    }
    shop.setNow(`${tomorrow}T05:00:00Z`);
    const asked = await shop.ask("POST", "/plans", { body: quick });
    expect(asked.status, asked.text).toBe(202);
    const done = await shop.finished(asked.body.id);
    expect(done.plan!.loads.length).toBeGreaterThan(0);
    for (const { doorOpensAt } of done.plan!.loads) expect(doorOpensAt >= next.planFrom).toBe(true);
    // Somebody sprays again.
    expect(done.plan!.booth.length).toBeGreaterThan(0);
    expect(done.onHold).toEqual([]);
    expect((await shop.ask("POST", `/plans/${done.id}/accept`, { body: {} })).status).toBe(200);
  });
});
