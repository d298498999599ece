import fc from "fast-check";
import { expect, test } from "vitest";
import { readDay } from "../../api/day/read-day.ts";
import { anyWish } from "../help/any-day.ts";
import { gatherBenchDays, generatedDay } from "../help/days.ts";

const fixed = { seed: 20260310 };

test("every invented day is valid input and holds as many pieces as wished", () => {
  fc.assert(
    fc.property(anyWish, (wish) => {
      const day = generatedDay(wish);
      expect(readDay(day)).toMatchObject({ ok: true });
      expect(day.pans.reduce((sum, { quantity }) => sum + (quantity ?? 1), 0)).toBe(wish.pans);
    }),
    { ...fixed, numRuns: 200 },
  );
});

test("the same wish invents the same day, another seed another one", () => {
  fc.assert(
    fc.property(anyWish, (wish) => {
      expect(generatedDay(wish)).toEqual(generatedDay(wish));
      expect(generatedDay({ ...wish, seed: wish.seed + 1 })).not.toEqual(generatedDay(wish));
    }),
    { ...fixed, numRuns: 20 },
  );
});

test("between them the invented days hold every kind of piece, coat and state", () => {
  const days = fc.sample(anyWish, { ...fixed, numRuns: 150 }).map(generatedDay);
  const pans = days.flatMap((day) => day.pans);
  expect(new Set(pans.map(({ coating }) => coating)).size).toBe(5);
  expect(new Set(pans.map(({ shape }) => shape.kind))).toEqual(new Set(["disc", "rectangle"]));
  expect(new Set(pans.map(({ material }) => material)).size).toBe(4);
  expect(new Set(days.map(({ timeZone }) => timeZone)).size).toBe(4);
  expect(pans.some(({ sprayed }) => sprayed)).toBe(true);
  expect(pans.some(({ priority }) => priority === "rush")).toBe(true);
  expect(pans.some(({ nextCoat }) => (nextCoat ?? 1) > 1)).toBe(true);
  expect(pans.some(({ promisedAt }) => promisedAt === null)).toBe(true);
  expect(days.some(({ held }) => (held ?? []).length === 2)).toBe(true);
  expect(new Set(days.map(({ booth }) => booth?.sprayers))).toEqual(new Set([0, 1, 2]));
});

test("the days of the benchmark are valid, of the sizes they say, and all different", () => {
  const days = gatherBenchDays();
  for (const { day } of days) expect(readDay(day)).toMatchObject({ ok: true });
  for (const { name, day } of days) {
    expect(day.pans.reduce((sum, { quantity }) => sum + (quantity ?? 1), 0)).toBe(Number.parseInt(name, 10));
  }
  expect(new Set(days.map(({ day }) => JSON.stringify(day))).size).toBe(28);
});
