/** Whatever stands in a leaf of the day file, reading it ends in a day or in problems, never in a crash or a hang. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { goodDay } from "./patched-day.ts";

type Step = string | number;

function leaves(value: unknown, path: readonly Step[] = []): (readonly Step[])[] {
  if (typeof value !== "object" || value === null) return [path];
  const entries: [Step, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([key, inner]) => leaves(inner, [...path, key]))].filter((one) => one.length > 0);
}

function replaced(value: unknown, path: readonly Step[], wrong: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return wrong;
  if (Array.isArray(value))
    return value.map((inner: unknown, i) => (i === step ? replaced(inner, rest, wrong) : inner));
  const fields = value as Record<string, unknown>;
  return { ...fields, [step]: replaced(fields[step], rest, wrong) };
}

const wrongValue = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    undefined,
    true,
    "",
    " ",
    "0,9",
    "NaN",
    "1e999",
    -1,
    0,
    1e9,
    1e308,
    0.5,
    NaN,
    Infinity,
  ),
  fc.constantFrom<unknown>(
    [],
    {},
    [null],
    { kind: "area", dm2: 1 },
    { kind: "thermal" },
    "constructor",
    "__proto__",
    "toString",
  ),
  fc.constantFrom(
    "2026-03-29T01:30",
    "2026-10-25T01:30",
    "2026-10-03T07:30",
    "0000-01-01T00:00Z",
    "9999-12-31T23:59:59.999-23:59",
  ),
  fc.double(),
  fc.integer(),
  fc.string(),
  fc.jsonValue(),
);

const paths = leaves(goodDay());

describe("a good day with wrong values", { timeout: 60_000 }, () => {
  it("in one place never throws, and what it accepts the solver can be asked", () => {
    fc.assert(
      fc.property(fc.constantFrom(...paths), wrongValue, (path, wrong) =>
        expectAnswer(replaced(goodDay(), path, wrong)),
      ),
      { seed: 20260310, numRuns: 1500 },
    );
  });

  it("in several places never throws", () => {
    const change = fc.tuple(fc.constantFrom(...paths), wrongValue);
    fc.assert(
      fc.property(fc.array(change, { minLength: 2, maxLength: 8 }), (changes) => {
        let day: unknown = goodDay();
        for (const [path, wrong] of changes) if (reaches(day, path)) day = replaced(day, path, wrong);
        expectAnswer(day);
      }),
      { seed: 20260311, numRuns: 600 },
    );
  });

  it("as text cut or stained anywhere never throws", () => {
    const text = JSON.stringify(goodDay());
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(20), fc.string({ maxLength: 3 }), (at, length, stain) => {
        expectAnswer(text.slice(0, at) + stain + text.slice(at + length));
      }),
      { seed: 20260312, numRuns: 1500 },
    );
  });
});

function reaches(day: unknown, path: readonly Step[]): boolean {
  let value = day;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return false;
    value = (value as Record<Step, unknown>)[step];
  }
  return true;
}

function expectAnswer(input: unknown): void {
  const read = readDay(input);
  if (read.ok) {
    expect(toRequest(read.day).lines.length).toBe(read.day.pans.length);
    return;
  }
  expect(read.problems.length).toBeGreaterThan(0);
  for (const { path, code, message, allowed } of read.problems) {
    expect(typeof path).toBe("string");
    expect(code).not.toBe("");
    expect(message.length).toBeGreaterThan(10);
    expect(allowed).not.toBe("");
  }
}
