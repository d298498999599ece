/** Invented days as a fast-check arbitrary: small enough to be planned in a blink, of every kind that days.ts draws. */
import fc from "fast-check";
import type { DayFile } from "../../api/contract/day.ts";
import type { DayWish } from "./days.ts";
import { generatedDay } from "./days.ts";

export const anyWish: fc.Arbitrary<DayWish> = fc.record({
  pans: fc.integer({ min: 2, max: 12 }),
  ovens: fc.constantFrom(1, 1, 2),
  door: fc.constantFrom("hot" as const, "cold" as const),
  pace: fc.constantFrom("calm" as const, "overloaded" as const),
  seed: fc.integer({ min: 1, max: 10_000 }),
  cycle: fc.constantFrom("thermal" as const, "thermal" as const, "thermal" as const, "fixed" as const),
  held: fc.constantFrom(false, false, true),
  days: fc.integer({ min: 1, max: 3 }),
});

export const anyDay: fc.Arbitrary<DayFile> = anyWish.map(generatedDay);
