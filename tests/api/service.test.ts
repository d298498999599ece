import { validate } from "./open-api-validator.ts";
import ICAL from "ical.js";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

// A machine shared with others may be ten times as slow.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
});
afterAll(() => shop.stop());

const json = { "Content-Type": "application/json" };
const put = (name: string) => shop.ask("PUT", "/day", { raw: JSON.stringify(shopDay(name)), headers: json });

describe("the contract", () => {
  it("is an OpenAPI 3.1 document by a validator of others", async () => {
    expect(await validate((await shop.ask("GET", "/openapi.json")).body)).toEqual({ valid: true, version: "3.1" });
  });

  it("tells how two people edit one thing, and how a post is sent twice", async () => {
    const { paths } = (await shop.ask("GET", "/openapi.json")).body;
    expect(paths["/pans/{id}"].get.responses["200"].headers.ETag).toBeDefined();
    expect(Object.keys(paths["/pans/{id}"].put.responses)).toEqual(expect.arrayContaining(["200", "412", "428"]));
    const keyed = (of: { parameters?: { name: string }[] }): boolean =>
      (of.parameters ?? []).some(({ name }) => name === "Idempotency-Key");
    for (const path of ["/pans", "/events", "/plans", "/replans", "/quotes", "/readings", "/plans/{id}/accept"])
      expect(keyed(paths[path].post), path).toBe(true);
    for (const [path, operations] of Object.entries<Record<string, { responses: Record<string, unknown> }>>(paths))
      for (const [method, { responses }] of Object.entries(operations))
        if (path !== "/openapi.json") expect(responses["default"], `${method} ${path}`).toBeDefined();
  });

  it.each(["small-morning", "full-day", "rush-and-failure", "two-ovens-two-days", "fixed-cycle"])(
    "gives %s back as it was put in",
    async (name) => {
      expect((await put(name)).status).toBe(200);
      expect((await shop.ask("GET", "/day")).body).toEqual(shopDay(name));
    },
  );

  it("refuses a bad day whole, with every problem's path, as problem details", async () => {
    await put("small-morning");
    const day = shopDay("small-morning");
    const pans = day.pans.map((pan, i) => (i < 2 ? { ...pan, massKg: -1 } : pan));
    const { status, headers, body } = await shop.ask("PUT", "/day", {
      raw: JSON.stringify({ ...day, pans }),
      headers: json,
    });
    expect(status).toBe(422);
    expect(headers.get("content-type")).toContain("application/problem+json");
    expect(body.problems.map(({ path }: { path: string }) => path)).toEqual(["pans[0].massKg", "pans[1].massKg"]);
    expect((await shop.ask("GET", "/day")).body).toEqual(day);
  });
});

describe("somebody who asks for the first time", { timeout: 120_000 }, () => {
  it("is told what a field that is missing holds, of whatever is sent", async () => {
    await put("small-morning");
    const told = async (path: string, body: object) =>
      ((await shop.ask("POST", path, { body })).body.problems as { path: string; allowed: string }[]).map(
        ({ path: at, allowed }) => [at, allowed] as const,
      );
    const pan = await told("/pans", { pan: { id: "T-1" } });
    expect(pan).toContainEqual(["pan.coating", "text in quotes (id of the coat system)"]);
    expect(pan).toContainEqual(["pan.massKg", "a number (one piece)"]);
    expect(await told("/readings", { chamberC: 200 })).toContainEqual([
      "oven",
      expect.stringContaining("text in quotes"),
    ]);
    for (const [, allowed] of [...pan, ...(await told("/quotes", {}))]) expect(allowed).not.toContain("another value");
  });

  it("is told the way to a plan in force, and that it is in force already", async () => {
    await put("small-morning");
    const none = await shop.ask("GET", "/plans/in-force");
    expect(none).toMatchObject({ status: 404, body: { detail: expect.stringContaining("POST /plans") } });
    const { body } = await shop.ask("POST", "/plans", { body: { steps: 5, seconds: 10 } });
    await shop.finished(body.id);
    expect((await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} })).status).toBe(200);
    const again = await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} });
    expect(again).toMatchObject({ status: 409, body: { detail: `${body.id} is in force already.` } });
  });
});

describe("two people at the same entry", () => {
  it("makes the second one read again before writing", async () => {
    await put("small-morning");
    const pan = shopDay("small-morning").pans[0]!;
    const path = `/pans/${pan.id}`;
    const tag = (await shop.ask("GET", path)).headers.get("etag")!;
    const body = { pan: { ...pan, heightCm: 6 } };
    expect((await shop.ask("PUT", path, { body })).status).toBe(428);
    expect((await shop.ask("PUT", path, { body, headers: { "If-Match": tag } })).status).toBe(200);
    expect((await shop.ask("PUT", path, { body, headers: { "If-Match": tag } })).status).toBe(412);
  });

  it("carries a post with the same key out once, and refuses the key for another", async () => {
    await put("small-morning");
    const pan = { ...shopDay("small-morning").pans[0]!, id: "NEW-1", ticket: "NEW" };
    const headers = { "Idempotency-Key": "tap-1" };
    const once = await shop.ask("POST", "/pans", { body: { pan }, headers });
    const twice = await shop.ask("POST", "/pans", { body: { pan }, headers });
    expect([once.status, twice.status]).toEqual([201, 201]);
    expect(twice.body).toEqual(once.body);
    expect((await shop.ask("POST", "/pans", { body: { pan: { ...pan, id: "NEW-2" } }, headers })).status).toBe(422);
    expect((await shop.ask("POST", "/pans", { body: { pan } })).status).toBe(409);
  });

  it("undoes an event by a further one, and not where somebody built on it", async () => {
    await put("small-morning");
    const pan = shopDay("small-morning").pans[0]!;
    const before = (await shop.ask("GET", "/day")).body;
    const { body } = await shop.ask("POST", "/events", {
      body: { kind: "pan-failed", pan: pan.id, cause: "pinholes", stripMinutes: 30 },
    });
    expect((await shop.ask("GET", "/day")).body).not.toEqual(before);
    expect((await shop.ask("POST", `/events/${body.event}/undo`, { body: {} })).status).toBe(201);
    expect((await shop.ask("GET", "/day")).body).toEqual(before);
    expect((await shop.ask("POST", `/events/${body.event}/undo`, { body: {} })).status).toBe(409);
    const first = await shop.ask("POST", "/events", { body: { kind: "pan-withdrawn", pan: pan.id } });
    await shop.ask("POST", "/events", {
      body: {
        kind: "ticket-handed-over",
        ticket: shopDay("small-morning").pans[1]!.ticket ?? shopDay("small-morning").pans[1]!.id,
      },
    });
    expect((await shop.ask("POST", `/events/${first.body.event}/undo`, { body: {} })).status).toBe(201);
  });
});

describe("tables", () => {
  it("takes back the table it gives, and decimal commas, semicolons and a byte order mark", async () => {
    await put("small-morning");
    const day = shopDay("small-morning");
    const table = (await shop.ask("GET", "/pans.csv")).text;
    await shop.ask("PUT", "/day", { raw: JSON.stringify({ ...day, pans: [] }), headers: json });
    const csv = { "Content-Type": "text/csv" };
    expect((await shop.ask("POST", "/pans.csv", { raw: table, headers: csv })).body.added).toBe(day.pans.length);
    expect((await shop.ask("GET", "/pans.csv")).text).toBe(table);
    const coating = day.coatings[0]!.id;
    const material = Object.keys(day.materials)[0]!;
    const european = `\uFEFFid;coating;readyAt;shape;diameterCm;heightCm;massKg;material\r\nEU-1;${coating};${day.planFrom};disc;24,5;5,5;0,65;${material}\r\n`;
    expect((await shop.ask("POST", "/pans.csv", { raw: european, headers: csv })).body.detail).toBeUndefined();
    expect((await shop.ask("GET", "/pans/EU-1")).body.pan).toMatchObject({ shape: { diameterCm: 24.5 }, massKg: 0.65 });
  });

  it("tells every bad row by its number and adds none", async () => {
    await put("small-morning");
    const before = (await shop.ask("GET", "/pans.csv")).text;
    const lines = before.trim().split("\r\n");
    const bad = [
      lines[0],
      lines[1]!.replace(/^[^,]+/, "X-1"),
      lines[2]!.replace(/^[^,]+/, "X-2").replace(/,disc,/, ",triangle,"),
      "X-3,,,,,,,,",
    ].join("\r\n");
    const { status, body } = await shop.ask("POST", "/pans.csv", { raw: bad, headers: { "Content-Type": "text/csv" } });
    expect(status).toBe(422);
    expect(new Set(body.problems.map(({ path }: { path: string }) => /row \d+/.exec(path)?.[0]))).toEqual(
      new Set(["row 3", "row 4"]),
    );
    expect((await shop.ask("GET", "/pans.csv")).text).toBe(before);
  });

  it("makes text of what a spreadsheet would take for a formula", async () => {
    const day = shopDay("small-morning");
    const pans = [{ ...day.pans[0]!, id: "=1+1", ticket: "@SUM(A1)" }];
    await shop.ask("PUT", "/day", { raw: JSON.stringify({ ...day, pans }), headers: json });
    const table = (await shop.ask("GET", "/pans.csv")).text;
    expect(table).toContain("'=1+1,'@SUM(A1)");
    await shop.ask("PUT", "/day", { raw: JSON.stringify({ ...day, pans: [] }), headers: json });
    await shop.ask("POST", "/pans.csv", { raw: table, headers: { "Content-Type": "text/csv" } });
    expect((await shop.ask("GET", "/day")).body.pans[0]).toMatchObject({ id: "=1+1", ticket: "@SUM(A1)" });
  });
});

describe("a plan", () => {
  it("comes as events, as a calendar that a reader of others accepts, and as a table", async () => {
    await put("small-morning");
    const asked = await shop.ask("POST", "/plans", { body: { steps: 60, seconds: 10 } });
    expect(asked.status).toBe(202);
    expect(asked.headers.get("location")).toBe(`/plans/${asked.body.id}`);
    const stream = (await shop.ask("GET", `/plans/${asked.body.id}/events`)).text;
    expect(stream.match(/^event: (\w+)$/gm)?.at(-1)).toBe("event: ended");
    const done = await shop.finished(asked.body.id);
    const calendar = new ICAL.Component(ICAL.parse((await shop.ask("GET", `/plans/${done.id}/calendar.ics`)).text));
    const entries = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
    expect(entries).toHaveLength(done.plan!.loads.length + done.plan!.tickets.length);
    const first = done.plan!.loads[0]!;
    expect(entries[0]!.startDate.toJSDate().getTime()).toBe(Date.parse(first.doorOpensAt));
    expect(entries[0]!.endDate.toJSDate().getTime()).toBe(Date.parse(first.doneAt));
    const rows = (await shop.ask("GET", `/plans/${done.id}/pans.csv`)).text.trim().split("\r\n");
    expect(rows).toHaveLength(1 + done.plan!.loads.flatMap(({ pans }) => pans).length);
  });

  it("stops when told and keeps the best", async () => {
    await put("full-day");
    const asked = await shop.ask("POST", "/plans", { body: { seconds: 60, gapPercent: 0 } });
    const stopped = await shop.ask("DELETE", `/plans/${asked.body.id}`);
    expect(stopped.body).toMatchObject({ state: "stopped" });
    expect(stopped.body.plan.search.status).toBe("stopped");
  });

  it("is kept with a closed day, with what it was planned from", async () => {
    await put("small-morning");
    shop.setNow("2026-06-09T06:00:00Z");
    const asked = await shop.ask("POST", "/plans", { body: { steps: 60, seconds: 10 } });
    const done = await shop.finished(asked.body.id);
    await shop.ask("POST", `/plans/${done.id}/accept`, { body: {} });
    shop.setNow("2026-06-09T17:00:00Z");
    const closed = await shop.ask("POST", "/day/close", { body: { who: "Ana" } });
    expect(closed.body.detail).toBeUndefined();
    const kept = (await shop.ask("GET", `/days/${closed.body.id}`)).body;
    expect(kept.planFile).toEqual(done.plan);
    expect(kept.summary.loads).toBe(done.plan!.loads.length);
    expect((await shop.ask("GET", "/day")).body.pans).toHaveLength(done.plan!.leftOver.length);
    expect((await shop.ask("GET", `/plans/${done.id}/request`)).body.options.seed).toBe(1);
  });
});
