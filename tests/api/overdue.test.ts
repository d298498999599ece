/** A pan that comes back to the bench after its promise: the promise stays the one that was given, everywhere. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { readDay } from "../../api/day/read-day.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
}, 60_000);
afterAll(() => shop.stop(), 60_000);

const quick = { steps: 30, seconds: 60 };

it(
  "is late by its first promise in the list, the plan and the difference, and can be edited",
  { timeout: 120_000 },
  async () => {
    const day = shopDay("small-morning");
    const given = "2026-06-09T09:00:00+01:00";
    const ticket = day.pans[0]!.ticket ?? day.pans[0]!.id;
    const pans = day.pans.map((pan) => ((pan.ticket ?? pan.id) === ticket ? { ...pan, promisedAt: given } : pan));
    shop.setNow("2026-06-09T06:00:00Z");
    expect((await shop.ask("PUT", "/day", { body: { ...day, pans } })).status).toBe(200);
    const { body: asked } = await shop.ask("POST", "/plans", { body: quick });
    await shop.finished(asked.id);
    expect((await shop.ask("POST", `/plans/${asked.id}/accept`, { body: {} })).status).toBe(200);
    const planned = (await shop.ask("GET", `/plans/${asked.id}/request`)).body.day;
    const { id } = planned.pans.find((pan: { ticket?: string }) => pan.ticket === ticket);

    // Out of the oven and failed, when its promise is long past.
    const load = (await shop.ask("GET", "/plans/in-force")).body.plan.loads.findLast(
      (one: { pans: { id: string }[] }) => one.pans.some((pan) => pan.id === id),
    );
    const now = Math.max(Date.parse(load.doneAt), Date.parse(given)) + 30 * 60_000;
    shop.setNow(new Date(now).toISOString());
    const failed = { kind: "pan-failed", pan: id, cause: "pinholes", stripMinutes: 20 };
    const { body: again } = await shop.ask("POST", "/replans", { body: { happened: [failed], ...quick } });
    const done = await shop.finished(again.id);
    const row = await shop.ask("GET", `/pans/${id}`);
    expect(row.body.pan).toMatchObject({ promisedAt: given, overdue: true });
    expect(Date.parse(row.body.pan.readyAt)).toBe(now);
    const told = done.plan!.tickets.find((one) => one.ticket === ticket)!;
    const late = (Date.parse(told.readyAt) - Date.parse(given)) / 60_000;
    expect(late).toBeGreaterThan(30);
    expect(Date.parse(told.promisedAt!)).toBe(Date.parse(given));
    expect(told.lateMinutes).toBeCloseTo(late, 1);
    const difference = done.difference!.tickets.find((one) => one.ticket === ticket)!;
    expect(Date.parse(difference.promisedAt!)).toBe(Date.parse(given));
    expect(difference.lateMinutes).toBeCloseTo(late, 6);

    expect((await shop.ask("POST", `/plans/${done.id}/accept`, { body: {} })).status).toBe(200);
    const listed = (await shop.ask("GET", "/tickets")).body.tickets.find((one: typeof told) => one.ticket === ticket);
    expect(Date.parse(listed.promisedAt)).toBe(Date.parse(given));
    expect(listed.lateMinutes).toBeCloseTo(late, 1);
    expect(readDay((await shop.ask("GET", "/day")).body).ok).toBe(true);

    // Whoever puts its height right says nothing of its promise.
    const read = await shop.ask("GET", `/pans/${id}`);
    const { overdue: _said, ...pan } = read.body.pan;
    const headers = { "If-Match": read.headers.get("etag")! };
    const edited = await shop.ask("PUT", `/pans/${id}`, { body: { pan: { ...pan, heightCm: 4 } }, headers });
    expect(edited.status, edited.text).toBe(200);
    expect((await shop.ask("GET", `/pans/${id}`)).body.pan).toMatchObject({ heightCm: 4, overdue: true });
    // Nobody else may promise what is past already.
    const fresh = { ...pan, id: "NEW-1", ticket: "NEW" };
    const refused = await shop.ask("POST", "/pans", { body: { pan: fresh } });
    expect(refused.body.problems).toMatchObject([{ path: "pan.promisedAt", code: "promise-before-ready" }]);
  },
);
