/** When ovens that are free at different times are through with their work; worked by hand. */
import { expect, it } from "vitest";
import { doneBy } from "../../../../solver/bound/families.ts";

it.each([
  { free: [5], minutes: 7, done: 12 },
  // The one alone until 10, then both: 10 of the 30 are done by then.
  { free: [0, 10], minutes: 30, done: 20 },
  // The second is out of use for longer than the first needs.
  { free: [20, 127], minutes: 37, done: 57 },
  { free: [0, 0, 30], minutes: 75, done: 35 },
  { free: [40, 60], minutes: 0, done: 40 },
])("$minutes minutes from $free on are done by $done", ({ free, minutes, done }) => {
  expect(doneBy(Float64Array.from(free), minutes)).toBe(done);
});
