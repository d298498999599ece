/** The shop edited over HTTP: ovens, coatings, prices, hours, rules; every field checked, nobody's change lost, all undone again. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { shopDay, testService } from "../help/service.ts";
import type { Reply, TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService({ now: "2026-06-09T05:00:00Z" });
});
afterAll(() => shop.stop());

const day = shopDay("small-morning");
beforeEach(async () => {
  expect((await shop.ask("PUT", "/day", { body: day })).status).toBe(200);
});

const oven = day.ovens[0]!;
const coating = day.coatings[0]!;

/** Path, the name its body goes by, what stands there, another sound value. */
const things = [
  [`/ovens/${oven.id}`, "oven", oven, { ...oven, maxLoadKg: 33 }],
  [`/coatings/${coating.id}`, "coating", coating, { ...coating, name: "Another name" }],
  ["/prices", "value", day.prices, { ...day.prices, gasPerKWh: 0.2 }],
  ["/staffed", "value", day.staffed, [{ from: "2026-06-09T07:00", to: "2026-06-09T19:00" }]],
  ["/settings/gas", "value", day.gas, { ...day.gas, kgCO2ePerKWh: 0.2 }],
  ["/settings/prep", "value", day.prep, { benches: 3 }],
  ["/settings/booth", "value", day.booth, { ...day.booth, changeoverMinutes: 9 }],
  ["/settings/mixing", "value", day.mixing, { rule: "same-group" }],
  ["/settings/materials", "value", day.materials, { ...day.materials, steel: { specificHeatJPerKgK: 480 } }],
  ["/settings/title", "value", day.title, "Tuesday"],
  ["/settings/currency", "value", day.currency, "CHF"],
  ["/settings/timeZone", "value", day.timeZone, "Atlantic/Madeira"],
  ["/settings/planFrom", "value", day.planFrom, "2026-06-09T07:15"],
  ["/settings/nextOpen", "value", day.nextOpen, "2026-06-10T08:30"],
  ["/settings/ambientC", "value", day.ambientC, 23],
  ["/settings/finishMinutes", "value", day.finishMinutes, 25],
] as const;

const read = async (path: string): Promise<{ tag: string; body: Reply["body"] }> => {
  const { status, headers, body } = await shop.ask("GET", path);
  expect(status).toBe(200);
  return { tag: headers.get("etag")!, body };
};

describe.each(things)("%s", (path, name, _before, after) => {
  it("is changed by who has read it last, and by nobody else", async () => {
    const { tag } = await read(path);
    const put = (headers: Record<string, string>) => shop.ask("PUT", path, { body: { [name]: after }, headers });
    const blind = await put({});
    expect(blind.status).toBe(428);
    expect(blind.headers.get("content-type")).toContain("application/problem+json");
    const first = await put({ "If-Match": tag });
    expect(first.status, first.text).toBe(200);
    const now = await read(path);
    expect(now.body[name]).toEqual(after);
    expect(first.headers.get("etag")).toBe(now.tag);
    expect((await put({ "If-Match": tag })).status).toBe(412);
    expect((await put({ "If-Match": first.headers.get("etag")! })).status).toBe(200);
  });

  it("is put back by a further event", async () => {
    const whole = (await read("/day")).body;
    const { tag } = await read(path);
    const changed = await shop.ask("PUT", path, { body: { [name]: after, who: "Ana" }, headers: { "If-Match": tag } });
    expect((await read("/day")).body).not.toEqual(whole);
    expect((await shop.ask("POST", `/events/${changed.body.event}/undo`, { body: {} })).status).toBe(201);
    expect((await read("/day")).body).toEqual(whole);
    const { events } = (await read(`/events?after=${changed.body.event - 1}`)).body;
    expect(events).toMatchObject([{ who: "Ana" }, { kind: "undone", undoes: changed.body.event }]);
  });
});

/** Every place of a value, as keys. */
function places(value: unknown, at: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== "object" || value === null) return [at];
  return Object.entries(value).flatMap(([key, inner]) =>
    places(inner, [...at, Array.isArray(value) ? Number(key) : key]),
  );
}

function withBad(value: unknown, [key, ...rest]: readonly (string | number)[], bad: unknown): unknown {
  if (key === undefined) return bad;
  if (Array.isArray(value)) return value.map((one: unknown, i) => (i === key ? withBad(one, rest, bad) : one));
  return { ...(value as object), [key]: withBad((value as Record<string | number, unknown>)[key], rest, bad) };
}

const written = (path: readonly (string | number)[]): string =>
  path
    .map((step, i) =>
      typeof step === "number"
        ? `[${step}]`
        : /^[A-Za-z_$][\w$]*$/.test(step)
          ? i === 0
            ? step
            : `.${step}`
          : `[${JSON.stringify(step)}]`,
    )
    .join("");

describe("every field", () => {
  it.each(things)("of %s is refused by its path where it is nonsense", async (path, name, before) => {
    const whole = (await read("/day")).body;
    const { tag } = await read(path);
    for (const place of places(before)) {
      if (place[0] === "id") continue;
      const body = { [name]: withBad(before, place, { what: "nonsense" }) };
      const { status, body: failure } = await shop.ask("PUT", path, { body, headers: { "If-Match": tag } });
      expect(status, written([name, ...place])).toBe(422);
      const told = failure.problems.map((problem: { path: string }) => problem.path);
      expect(
        told.some((one: string) => one.startsWith(written([name, ...place]))),
        `${written([name, ...place])}: ${told}`,
      ).toBe(true);
    }
    expect((await read("/day")).body).toEqual(whole);
  });

  it.each([
    [`/ovens/${oven.id}`, "oven", { ...oven, maxLoadKg: -1 }, "oven.maxLoadKg"],
    [`/ovens/${oven.id}`, "oven", { ...oven, outUntil: "2026-02-30T10:00" }, "oven.outUntil"],
    [`/ovens/${oven.id}`, "oven", { ...oven, cycle: { ...oven.cycle, efficency: 0.7 } }, "oven.cycle.efficency"],
    [
      `/coatings/${coating.id}`,
      "coating",
      { ...coating, coats: coating.coats.map((coat, i) => (i === 0 ? { ...coat, ovens: ["no-such-oven"] } : coat)) },
      "coating.coats[0].ovens[0]",
    ],
    [
      `/coatings/${coating.id}`,
      "coating",
      {
        ...coating,
        coats: coating.coats.map((coat, i) =>
          i === 0 ? { ...coat, bake: { ...coat.bake, metalLowC: 300, metalHighC: 250 } } : coat,
        ),
      },
      "coating.coats[0].bake.metalHighC",
    ],
    ["/staffed", "value", [{ from: "2026-06-09T17:00", to: "2026-06-09T07:00" }], "value[0].to"],
  ])("of %s is held against the trade: %#", async (path, name, bad, where) => {
    const { tag } = await read(path);
    const { status, body } = await shop.ask("PUT", path, { body: { [name]: bad }, headers: { "If-Match": tag } });
    expect(status).toBe(422);
    expect(body.problems.map((problem: { path: string }) => problem.path)).toContain(where);
  });

  it.each([
    [`/ovens/${oven.id}`, "oven", { ...oven, cycle: { ...oven.cycle, setPointMaxC: 806 } }, "oven.cycle.setPointMaxC"],
    [
      "/settings/mixing",
      "value",
      { rule: "any", neverTogether: [["no-such-group", "fluoropolymer"]] },
      "value.neverTogether[0][0]",
    ],
  ])("of %s that is only unlikely is taken and told", async (path, name, odd, where) => {
    const { tag } = await read(path);
    const { status, body } = await shop.ask("PUT", path, { body: { [name]: odd }, headers: { "If-Match": tag } });
    expect(status).toBe(200);
    expect(body.warnings.map((problem: { path: string }) => problem.path)).toEqual([where]);
    expect((await read(path)).body[name]).toEqual(odd);
  });

  it("names what else of the day a change would break by its path in the day", async () => {
    const { tag } = await read("/settings/materials");
    const { status, body } = await shop.ask("PUT", "/settings/materials", {
      body: { value: { unobtainium: { specificHeatJPerKgK: 700 } } },
      headers: { "If-Match": tag },
    });
    expect(status).toBe(422);
    expect(body.problems.map((problem: { path: string }) => problem.path)).toContain("pans[0].material");
  });
});

describe("an oven", () => {
  it("is added, shut until it is back, and taken away by who has read it last", async () => {
    const added = await shop.ask("POST", "/ovens", { body: { oven: { ...oven, id: "second" } } });
    expect(added.status).toBe(201);
    const { tag } = await read("/ovens/second");
    expect(added.headers.get("etag")).toBe(tag);
    const shut = { ...oven, id: "second", outUntil: "2026-06-09T11:00" };
    expect(
      (await shop.ask("PUT", "/ovens/second", { body: { oven: shut }, headers: { "If-Match": tag } })).status,
    ).toBe(200);
    expect((await shop.ask("DELETE", "/ovens/second")).status).toBe(428);
    expect((await shop.ask("DELETE", "/ovens/second", { headers: { "If-Match": tag } })).status).toBe(412);
    const now = (await read("/ovens/second")).tag;
    expect((await shop.ask("DELETE", "/ovens/second", { headers: { "If-Match": now } })).status).toBe(204);
    expect((await shop.ask("GET", "/ovens/second")).status).toBe(404);
  });

  it("that is out of use until an hour is planned for from then on, and says until when", async () => {
    const until = "2026-06-09T10:00:00+01:00";
    const said = await shop.ask("POST", "/events", { body: { kind: "oven-out", oven: oven.id, cause: "fan", until } });
    expect(said.status).toBe(201);
    const { body } = await read(`/ovens/${oven.id}`);
    expect(body).toMatchObject({ state: "out of use", note: "fan", until, shelvesOut: [] });
    const asked = await shop.ask("POST", "/plans", { body: { steps: 40, seconds: 30 } });
    const { plan } = await shop.finished(asked.body.id);
    expect(plan!.loads.length).toBeGreaterThan(0);
    for (const load of plan!.loads) expect(Date.parse(load.doorOpensAt)).toBeGreaterThanOrEqual(Date.parse(until));
  });

  it("says which of its shelves are out", async () => {
    const shelf = oven.space.kind === "shelves" ? oven.space.shelves[0]!.id : "";
    await shop.ask("POST", "/events", { body: { kind: "shelf-out", oven: oven.id, shelf, cause: "bent" } });
    expect((await read(`/ovens/${oven.id}`)).body.shelvesOut).toEqual([shelf]);
  });
});

describe("the whole day", () => {
  it("is not replaced over a change that whoever sends it has not seen", async () => {
    const { tag } = await read("/day");
    const prices = await read("/prices");
    const value = { ...day.prices, gasPerKWh: 0.3 };
    await shop.ask("PUT", "/prices", { body: { value }, headers: { "If-Match": prices.tag } });
    expect((await shop.ask("PUT", "/day", { body: day, headers: { "If-Match": tag } })).status).toBe(412);
    expect((await read("/day")).body.prices).toEqual(value);
    const again = (await read("/day")).tag;
    expect((await shop.ask("PUT", "/day", { body: day, headers: { "If-Match": again } })).status).toBe(200);
  });
});
