import { request } from "node:http";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
  await shop.ask("PUT", "/day", {
    raw: JSON.stringify(shopDay("small-morning")),
    headers: { "Content-Type": "application/json" },
  });
}, 60_000);
afterAll(() => shop.stop(), 60_000);

/** By node:http, because fetch refuses to send what an attacker would. */
function send(
  method: string,
  path: string,
  headers: Record<string, string>,
  body: Buffer | string,
): Promise<{ status: number; ms: number; text: string }> {
  const url = new URL(shop.address);
  const began = performance.now();
  return new Promise((resolve, reject) => {
    const asked = request({ host: url.hostname, port: url.port, method, path, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("end", () =>
        resolve({
          status: response.statusCode ?? 0,
          ms: performance.now() - began,
          text: Buffer.concat(parts).toString(),
        }),
      );
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

const poison = fc.constantFrom(
  "'; drop table pan; --",
  "=cmd|' /C calc'!A0",
  "../../etc/passwd",
  "%00",
  "\u0000",
  "\uD800",
  "𝕊".repeat(300),
  "__proto__",
  "constructor",
  "a".repeat(5000),
  "<script>alert(1)</script>",
  "2026-02-30T25:61",
  "9e999",
  "-0",
);
const odd = fc.oneof(
  poison,
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.integer(),
  fc.double(),
  fc.boolean(),
  fc.constant(null),
  fc.constant([]),
  fc.constant({}),
);

/** A sound body with a few of its values, somewhere, made odd. */
function mutated(sound: unknown): fc.Arbitrary<unknown> {
  const paths: string[][] = [];
  const walk = (value: unknown, path: string[]): void => {
    paths.push(path);
    if (typeof value === "object" && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  walk(sound, []);
  return fc
    .array(fc.tuple(fc.constantFrom(...paths), odd, fc.boolean()), { minLength: 1, maxLength: 3 })
    .map((changes) => {
      const copy = { root: structuredClone(sound) as unknown };
      for (const [path, value, drop] of changes) {
        let holder: unknown = copy;
        const way = ["root", ...path];
        for (const key of way.slice(0, -1))
          holder = typeof holder === "object" && holder !== null ? (holder as Record<string, unknown>)[key] : undefined;
        if (typeof holder !== "object" || holder === null) continue;
        if (drop) delete (holder as Record<string, unknown>)[way.at(-1)!];
        else (holder as Record<string, unknown>)[way.at(-1)!] = value;
      }
      return copy.root;
    });
}

const pan = shopDay("small-morning").pans[0]!;
const bodies = fc.oneof(
  mutated({ pan, who: "x" }),
  mutated({ kind: "pan-failed", pan: pan.id, cause: "pinholes" }),
  mutated({ kind: "load-late", load: "L1", minutes: 5 }),
  mutated({ kind: "bottle-changed", unitsLeft: 4 }),
  mutated({ pans: [{ ...pan, id: "Q" }], seconds: 0.01, steps: 1 }),
  mutated({ one: pan.id, other: pan.id }),
  mutated({ value: { gasPerKWh: 0.1 } }),
  odd,
  fc.object({ maxDepth: 4 }),
);
const raw = fc.oneof(
  bodies.map((body) => JSON.stringify(body) ?? ""),
  fc.constantFrom(
    "[".repeat(50_000),
    `${'{"a":'.repeat(5000)}1${"}".repeat(5000)}`,
    `"${"x".repeat(1_000_000)}"`,
    '{"a":1,"a":2}',
    "{",
    "\uFEFF{}",
    "",
  ),
  fc.uint8Array({ maxLength: 60 }).map((bytes) => Buffer.from(bytes)),
);
const paths = [
  "/pans",
  "/pans/x",
  "/coatings",
  "/ovens",
  "/prices",
  "/staffed",
  "/settings/gas",
  "/settings/materials",
  "/readings",
  "/events",
  "/events/1/undo",
  "/quotes",
  "/explain",
  "/tickets/x",
  "/pans.csv",
  "/day",
  "/day/close",
  "/session",
  "/plans/x",
  "/plans/x/accept",
  "/plans/x/events",
  "/days/1",
  "/openapi.json",
  "/health",
];
const path = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(...paths) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom("/pans/", "/plans/", "/days/", "/coatings/", "/"), poison)
      .map(([room, end]) => room + encodeURIComponent(/[\uD800-\uDFFF]/.test(end) ? "x" : end).slice(0, 3000)),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      "/pans/%",
      "/pans/%ff%fe",
      "//",
      "/pans?who=%00",
      "/events?after=9e99",
      "/readings?oven[]=1",
      "/%2e%2e/%2e%2e/etc/passwd",
    ),
  },
);
const type = fc.constantFrom(
  "application/json",
  "application/json; charset=utf-16",
  "text/csv",
  "text/plain",
  "multipart/form-data; boundary=x",
  "",
);
const asked = fc.record({
  method: fc.constantFrom("GET", "POST", "PUT", "PATCH", "DELETE", "HEAD", "OPTIONS"),
  path,
  type,
  raw,
  match: fc.constantFrom("", '"1"', "*", "x"),
});

const runs = Number(process.env["OVENFUL_FUZZ"] ?? 600);

describe("whatever is sent", () => {
  it(`never fails, never hangs and leaves the day sound (${runs} requests)`, { timeout: 600_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(asked, async ({ method, path: target, type: media, raw: body, match }) => {
        const headers: Record<string, string> = {
          ...(media === "" ? {} : { "Content-Type": media }),
          ...(match === "" ? {} : { "If-Match": match }),
          "Content-Length": String(Buffer.byteLength(body)),
        };
        const { status, ms, text } = await send(method, target, headers, body);
        expect(status, text.slice(0, 300)).toBeLessThan(500);
        expect(ms).toBeLessThan(3000);
        expect(text).not.toMatch(/node_modules|\.ts:\d+|at async/);
      }),
      { numRuns: runs, seed: 20260310, endOnFailure: true },
    );
    const { status, body } = await shop.ask("GET", "/day");
    expect(status).toBe(200);
    expect(body.formatVersion).toBe(1);
    expect((await shop.ask("GET", "/events?after=0")).status).toBe(200);
  });
});
