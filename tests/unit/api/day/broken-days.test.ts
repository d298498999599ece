/** Every broken file of fixtures/broken is refused, or warned about, at the right place with the right hint. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readDay } from "../../../../api/day/read-day.ts";
import { goodDay, patchedDay } from "./patched-day.ts";

const cases = z
  .array(
    z.strictObject({
      name: z.string(),
      set: z.record(z.string(), z.unknown()).default({}),
      remove: z.array(z.string()).default([]),
      path: z.string(),
      code: z.string(),
      hint: z.string().optional(),
      warning: z.literal(true).optional(),
    }),
  )
  .parse(JSON.parse(readFileSync(new URL("../../../../fixtures/broken/cases.json", import.meta.url), "utf8")));

describe("a broken day file", () => {
  it("starts from a good one that raises no word", () => {
    expect(readDay(goodDay())).toMatchObject({ ok: true, warnings: [] });
  });

  it("comes in more than forty ways", () => {
    expect(cases.length).toBeGreaterThan(40);
    expect(new Set(cases.map(({ name }) => name)).size).toBe(cases.length);
  });

  it.each(cases)("tells $name", ({ set, remove, path, code, hint, warning }) => {
    const read = readDay(patchedDay({ set, remove }));
    expect(read.ok).toBe(warning === true);
    const told = read.ok ? read.warnings : read.problems;
    const found = told.find((problem) => problem.path === path && problem.code === code);
    expect(found, JSON.stringify(told, null, 1)).toBeDefined();
    expect(found?.message).not.toMatch(/undefined|[^"]NaN|\[object/);
    expect(found?.allowed).not.toBe("");
    if (hint !== undefined) expect(found?.hint).toContain(hint);
  });

  it.each(cases.filter(({ warning }) => warning !== true))(
    "tells nothing that is not wrong beside $name",
    ({ set, remove, path, name }) => {
      const read = readDay(patchedDay({ set, remove }));
      const others = read.ok ? [] : read.problems.filter((problem) => problem.path !== path);
      expect(others.map((problem) => `${problem.path} ${problem.code}`)).toEqual(alsoWrong[name] ?? []);
    },
  );
});

/** What the same slip makes wrong elsewhere too. */
const alsoWrong: Readonly<Record<string, readonly string[]>> = {
  "a field without its unit": ["pans[0].massKg missing"],
  "the same coat system twice": ["pans[3].coating unknown-id"],
  "more solvent on one pan than the plate allows": ["pans[1] pan-too-much-solvent", "pans[3] pan-too-much-solvent"],
  "a coat without cycle minutes where every oven has a fixed cycle": [
    "coatings[0].coats[1].bake.cycleMinutes coat-without-oven",
    "coatings[1].coats[0].bake.cycleMinutes coat-without-oven",
  ],
};
