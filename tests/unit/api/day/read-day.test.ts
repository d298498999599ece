import { describe, expect, it } from "vitest";
import type { Check } from "../../../../api/day/checks/check.ts";
import { allChecks } from "../../../../api/day/checks/all.ts";
import { readDay } from "../../../../api/day/read-day.ts";
import { goodDay, patchedDay } from "./patched-day.ts";

const goodText = JSON.stringify(goodDay());

function problems(input: unknown) {
  const read = readDay(input);
  return read.ok ? [] : read.problems;
}

describe("reading a day file", () => {
  it("takes text, bytes and parsed JSON alike, with and without a byte order mark", () => {
    const read = readDay(goodDay());
    expect(read.ok).toBe(true);
    expect(readDay(goodText)).toEqual(read);
    expect(readDay(`\uFEFF${goodText}`)).toEqual(read);
    expect(readDay(new TextEncoder().encode(`\uFEFF${goodText}`))).toEqual(read);
  });

  it.each([
    ["", 1, 1],
    ["{", 1, 2],
    ['{"formatVersion": 1,\n "title": Tuesday}', 2, 11],
    ['{\r\n  "pans": [\r\n    {},\r\n  ]\r\n}', 4, 3],
    ['{"massKg": 0,9}', 1, 14],
    ['{"massKg": NaN}', 1, 12],
    ["{'massKg': 1}", 1, 2],
    ['{"title": "Tues\nday"}', 1, 11],
    ['{"a": 1} {"b": 2}', 1, 10],
    ['{"a": 01}', 1, 8],
    ['{"a": [1, 2}', 1, 12],
  ])("points into text that is not JSON: %j", (text, line, column) => {
    const [problem, ...others] = problems(text);
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ path: "", code: "not-json" });
    expect(problem?.message).toContain(`line ${line}, column ${column}`);
  });

  it("hints at the decimal comma and at the comma too many in text that is not JSON", () => {
    expect(problems('{"massKg": 0,9}')[0]?.hint).toMatch(/comma/);
    expect(problems('{"a": 1,}')[0]?.hint).toMatch(/comma too many/);
  });

  it("finds a field that stands twice, which a JSON parser would drop without a word", () => {
    const text = goodText.replace('"massKg":0.9', '"massKg":0.9,"massKg":1.9');
    expect(problems(text)).toMatchObject([{ path: "pans[0].massKg", code: "duplicate-field" }]);
  });

  it("tells once what the schema and the checks of the trade both find", () => {
    const text = goodText.replace(/"readyAt":"[^"]*"/, '"readyAt":"soon"');
    expect(problems(text).filter(({ path }) => path === "pans[0].readyAt")).toHaveLength(1);
  });

  it("refuses bytes that are not UTF-8", () => {
    expect(problems(new Uint8Array([0x7b, 0xff, 0x7d]))).toMatchObject([{ code: "not-utf8" }]);
  });

  it.each([["[]"], ["null"], ['"day"'], ["42"]])("refuses %s, which is no object", (text) => {
    expect(problems(text)).toMatchObject([{ path: "", code: "not-an-object" }]);
  });

  it("refuses an absent day", () => {
    expect(problems(undefined)).toMatchObject([{ code: "not-an-object", seen: null }]);
  });

  it("refuses a file nested a million deep at once", () => {
    expect(problems(`{"pans":${"[".repeat(1e6)}`)).toMatchObject([{ code: "too-deep" }]);
    let deep: unknown = 1;
    for (let i = 0; i < 100_000; i++) deep = [deep];
    expect(problems({ pans: deep })).toMatchObject([{ code: "too-deep" }]);
  });

  it("refuses a value that holds itself", () => {
    const day: Record<string, unknown> = goodDay();
    day["pans"] = [day];
    expect(problems(day)).toMatchObject([{ code: "too-deep" }]);
  });

  it("refuses a file of more than sixteen million characters", () => {
    expect(problems(" ".repeat(16_000_001))).toMatchObject([{ code: "too-large" }]);
  });

  it("answers within seconds for a list of nearly five thousand broken pans, and tells no more than a thousand", () => {
    const pan = { ...(goodDay()["pans"] as object[])[0], massKg: "0,9" };
    const told = problems({ ...goodDay(), pans: Array.from({ length: 4_900 }, () => pan) });
    expect(told.length).toBe(1000);
    const more = problems({ ...goodDay(), pans: Array.from({ length: 20_000 }, () => pan) });
    expect(more).toMatchObject([{ code: "too-large" }]);
  }, 10_000);

  it("tells schema and trade problems of different pans in the same breath, each at its place in the file", () => {
    const told = problems(
      patchedDay({
        set: {
          "pans[0].massKg": "0,9",
          "pans[1].heightCm": 60,
          "pans[2].promisedAt": null,
          "pans[3].colour": "red",
          "pans[3].shape.widthCm": 600,
        },
      }),
    );
    expect(told.map(({ path, code }) => `${path} ${code}`).toSorted()).toEqual([
      "pans[0].massKg decimal-comma",
      "pans[1].heightCm pan-too-tall",
      "pans[2].promisedAt rush-without-promise",
      "pans[3].colour unknown-field",
      "pans[3].shape.widthCm pan-too-large",
    ]);
  });

  it("does not blame pans for an oven that could not be read", () => {
    const told = problems(patchedDay({ set: { "ovens[0].cycle.burnerKW": "forty", "pans[0].shape.diameterCm": 280 } }));
    expect(told.map(({ path }) => path)).toEqual(["ovens[0].cycle.burnerKW"]);
  });

  it("leaves what it reads as it was", () => {
    const day = patchedDay({ set: { "pans[0].colour": "red" } });
    const before = structuredClone(day);
    readDay(day);
    expect(day).toEqual(before);
  });

  it("takes staffed intervals in any order", () => {
    const day = goodDay();
    day["staffed"] = (day["staffed"] as unknown[]).toReversed();
    expect(readDay(day)).toMatchObject({ ok: true, warnings: [] });
  });

  it("runs a check of the caller's beside its own", () => {
    const never: Check = {
      needs: ["pans"],
      find: (_, report) => report.problem(["pans", 0], "pan-fits-nowhere", "K-201-A", { coat: "primer" }),
    };
    expect(readDay(goodDay(), [...allChecks, never])).toMatchObject({ ok: false, problems: [{ path: "pans[0]" }] });
  });
});
