/** Requests nobody should send: sound ones made odd in a few places, and ones that never were sound. */
import fc from "fast-check";
import { brokenText, mutated, poison } from "./odd-values.ts";
import { shopDay } from "./service.ts";

export interface OddRequest {
  readonly method: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Buffer;
}

const day = shopDay("small-morning");
const pan = day.pans[0];
const id = pan?.id ?? "";
const oven = day.ovens[0]?.id ?? "";
const search = { seconds: 0.05, steps: 1 };
const job = { ...pan, id: "Q", ticket: "Q" };
const happened = [
  { kind: "pan-ready", pan: id, prepMinutes: 5 },
  { kind: "pan-failed", pan: id, cause: "pinholes", stripMinutes: 30 },
  { kind: "pan-held", pan: id, note: "x" },
  { kind: "pan-withdrawn", pan: id },
  { kind: "ticket-handed-over", ticket: pan?.ticket ?? id },
  { kind: "load-opened", load: "L1", at: day.planFrom },
  { kind: "load-out", load: "L1" },
  { kind: "load-late", load: "L2", minutes: 5 },
  { kind: "load-interrupted", load: "L1", cause: "power cut" },
  { kind: "load-pinned", load: "L2" },
  { kind: "oven-out", oven, cause: "burner", until: day.staffed[0]?.to },
  { kind: "oven-back", oven },
  { kind: "bottle-changed", unitsLeft: 4 },
  { kind: "gas-left", unitsLeft: 4, maxDrawKW: 20 },
  { kind: "sprayers-changed", sprayers: 2 },
];

/** What belongs to each path, more or less. */
const sound: readonly (readonly [path: string, body: unknown])[] = [
  ["/day", day],
  ["/pans", { pan: job, who: "x" }],
  [`/pans/${id}`, { pan, who: "x" }],
  ["/coatings", { coating: { ...day.coatings[0], id: "c" }, who: "x" }],
  ["/ovens", { oven: { ...day.ovens[0], id: "o" }, who: "x" }],
  [`/ovens/${oven}`, { oven: day.ovens[0] }],
  ["/prices", { value: { gasPerKWh: 0.1 } }],
  ["/staffed", { value: day.staffed }],
  ["/settings/gas", { value: day.gas }],
  ["/settings/materials", { value: day.materials }],
  ["/settings/planFrom", { value: day.planFrom }],
  ["/readings", { oven, chamberC: 200, note: "x" }],
  ["/explain", { one: { pan: id }, other: { pan: id } }],
  ["/quotes", { pans: [job], ...search }],
  ["/plans", search],
  ["/plans/in-force/accept", { who: "x", note: "y" }],
  ["/day/close", { who: "x" }],
  [`/tickets/${pan?.ticket ?? id}`, { promisedAt: day.staffed[0]?.to, priority: "rush" }],
  ["/session", { token: "x" }],
  ["/events/1/undo", { who: "x" }],
  ["/what-ifs", { changes: [{ kind: "wait", minutes: 15 }], ...search }],
  ["/replans", { happened: happened.slice(0, 2), who: "x", ...search }],
  ...happened.map((one) => ["/events", one] as const),
];
const read = [
  "/pans.csv",
  "/loads",
  "/days",
  "/days/1",
  "/plans/in-force",
  "/plans/in-force/difference",
  "/plans/in-force/calendar.ics",
  "/plans/in-force/pans.csv",
  "/plans/in-force/request",
  "/plans/x/events",
  "/what-ifs/x",
  "/quotes/x",
  "/openapi.json",
  "/health",
];
const strange = [
  "/pans/%",
  "/pans/%ff%fe",
  "/pans/%2e%2e%2f%2e%2e",
  "//",
  "/./day",
  "/DAY",
  "/pans?who=%00",
  "/events?after=9e99",
  "/events?after=-1&after[]=2",
  "/readings?oven[]=1&__proto__[x]=1",
  "/%2e%2e/%2e%2e/etc/passwd",
  "/assets/../../package.json",
  `/${"a/".repeat(900)}`,
];
const path = (known: string): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 12, arbitrary: fc.constant(known) },
    { weight: 2, arbitrary: fc.constantFrom(...read) },
    { weight: 1, arbitrary: fc.constantFrom(...strange) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(fc.constantFrom("/pans/", "/plans/", "/days/", "/coatings/", "/tickets/", "/events/", "/"), poison)
        .map(([room, end]) => room + encodeURIComponent(end.replace(/[\uD800-\uDFFF]/g, "x")).slice(0, 3000)),
    },
  );

const body = (known: unknown): fc.Arbitrary<Buffer> =>
  fc.oneof(
    { weight: 12, arbitrary: mutated(known).map((value) => Buffer.from(JSON.stringify(value) ?? "")) },
    { weight: 1, arbitrary: fc.object({ maxDepth: 4 }).map((value) => Buffer.from(JSON.stringify(value))) },
    { weight: 1, arbitrary: brokenText.map((text) => Buffer.from(text)) },
    { weight: 1, arbitrary: mutated(known).map((value) => Buffer.from(JSON.stringify(value) ?? "", "utf16le")) },
    { weight: 1, arbitrary: fc.uint8Array({ maxLength: 60 }).map((bytes) => Buffer.from(bytes)) },
  );

const header = fc.record({
  type: fc.oneof(
    { weight: 12, arbitrary: fc.constant("application/json") },
    {
      weight: 3,
      arbitrary: fc.constantFrom(
        "application/json; charset=utf-16",
        "application/merge-patch+json",
        "text/csv",
        "text/plain",
        "multipart/form-data; boundary=x",
        "",
      ),
    },
  ),
  match: fc.constantFrom("", '"1"', '"2"', "*", 'W/"1"', "x".repeat(400)),
  key: fc.oneof(
    { weight: 8, arbitrary: fc.constant("") },
    { weight: 1, arbitrary: fc.constantFrom("k", "' or 1=1", "k".repeat(201), "ö") },
  ),
  encoding: fc.oneof(
    { weight: 15, arbitrary: fc.constant("") },
    { weight: 1, arbitrary: fc.constantFrom("gzip", "br") },
  ),
  accept: fc.constantFrom("", "application/json", "text/html", "*/*;q=0"),
});

const method = fc.oneof(
  { weight: 6, arbitrary: fc.constant("POST") },
  { weight: 3, arbitrary: fc.constantFrom("GET", "PUT", "PATCH") },
  { weight: 1, arbitrary: fc.constantFrom("DELETE", "HEAD", "OPTIONS", "TRACE") },
);

export const oddRequest: fc.Arbitrary<OddRequest> = fc
  .constantFrom(...sound)
  .chain(([known, of]) => fc.record({ method, path: path(known), header, body: body(of) }))
  .map((drawn) => {
    const { type, match, key, encoding, accept } = drawn.header;
    const some = {
      "Content-Type": type,
      "If-Match": match,
      "Idempotency-Key": key,
      "Content-Encoding": encoding,
      accept,
    };
    const headers = Object.fromEntries(Object.entries(some).filter(([, value]) => value !== "" && isHeader(value)));
    return { method: drawn.method, path: drawn.path, headers, body: drawn.body };
  });

/** What node lets out at all. */
function isHeader(value: string): boolean {
  return /^[\t\x20-\x7e\x80-\xff]*$/.test(value);
}
