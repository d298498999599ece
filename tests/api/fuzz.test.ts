import { describe, expect, it } from "vitest";
import { shopDay, testService } from "../help/service.ts";
import { fuzzRun } from "../help/fuzz-run.ts";

const requests = 500;

describe("whatever is sent", () => {
  it(
    `never fails, never hangs and leaves nothing half-saved (${requests} requests)`,
    { timeout: 240_000 },
    async () => {
      const { faults, slowestMs, byStatus } = await fuzzRun(requests, 20260310);
      expect(faults).toEqual([]);
      // A second on an idle machine; the tests share theirs.
      expect(slowestMs).toBeLessThan(5000);
      // Not everything is refused at the door: some of it gets in, some is turned down by the rules of the trade.
      expect(Object.keys(byStatus)).toEqual(expect.arrayContaining(["200", "201", "202", "400", "404", "409", "422"]));
    },
  );
});

describe("a body with more entries than any workshop has", () => {
  const many = <T>(count: number, of: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => of(i));
  const day = shopDay("small-morning");
  const fields = Object.fromEntries(many(60_000, (i) => [`k${i}`, 1]));
  const bodies: readonly (readonly [string, string, string, unknown])[] = [
    ["fields that no pan has", "POST", "/pans", fields],
    ["fields that no day has", "PUT", "/day", fields],
    ["pans that are none", "PUT", "/day", { ...day, pans: many(200_000, () => 1) }],
    [
      "pans of unknown coatings",
      "PUT",
      "/day",
      { ...day, pans: many(9_000, (i) => ({ ...day.pans[0], id: `p${i}`, coating: `c${i}` })) },
    ],
    ["a pan a thousand million times", "PUT", "/day", { ...day, pans: [{ ...day.pans[0], quantity: 1e9 }] }],
    ["hours", "PUT", "/day", { ...day, staffed: many(50_000, () => day.staffed[0]) }],
    [
      "groups",
      "PUT",
      "/day",
      { ...day, mixing: { rule: "any", neverTogether: many(50_000, (i) => [`a${i}`, `b${i}`]) } },
    ],
    ["events", "POST", "/replans", { happened: many(30_000, () => ({ kind: "nope" })) }],
  ];

  it("is refused with little work", { timeout: 240_000 }, async () => {
    const shop = await testService();
    try {
      await shop.ask("PUT", "/day", { body: day });
      for (const [what, method, path, body] of bodies) {
        const raw = JSON.stringify(body);
        const before = process.cpuUsage();
        const { status } = await shop.ask(method, path, { raw, headers: { "Content-Type": "application/json" } });
        const { user, system } = process.cpuUsage(before);
        expect(status, what).toBe(422);
        // Processor time of service and client: whoever else is served waits no longer than that.
        expect((user + system) / 1e6, what).toBeLessThan(2);
      }
      expect((await shop.ask("GET", "/day")).body).toEqual(day);
    } finally {
      await shop.stop();
    }
  });
});
