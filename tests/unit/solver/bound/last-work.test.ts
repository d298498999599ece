/** When work at an oven can have ended before a door, against every minute at which it could have begun. */
import { describe, expect, it } from "vitest";
import { endsWithDoorFrom, latestEnd } from "../../../../solver/bound/last-work.ts";
import { chance } from "../../../help/day-chance.ts";

const dice = chance(11);
const draws = Array.from({ length: 300 }, () => {
  const lunch = dice.whole(20, 100);
  const back = lunch + dice.whole(5, 60);
  return {
    staffed: [
      { from: 0, to: lunch },
      { from: back, to: back + dice.whole(10, 100) },
    ],
    minutes: dice.whole(1, 40),
  };
});

function tried(staffed: readonly { from: number; to: number }[], door: number, minutes: number): number {
  let end = -Infinity;
  for (let from = 0; from + minutes <= door; from++)
    if (staffed.some((one) => one.from <= from && from + minutes <= one.to)) end = from + minutes;
  return end;
}

describe("work before a door", () => {
  it("has ended at the latest when every beginning has been tried", () => {
    for (const { staffed, minutes } of draws)
      for (let door = 0; door <= staffed[1]!.to; door += 3)
        expect(latestEnd(staffed, door, minutes)).toBe(tried(staffed, door, minutes));
  });

  it("may end with the door from the minute told on, and not before", () => {
    let later = 0;
    for (const { staffed, minutes } of draws)
      for (const { from, to } of staffed)
        for (let door = from; door <= to; door++) {
          const told = endsWithDoorFrom(staffed, door, minutes);
          if (told <= to) expect(latestEnd(staffed, told, minutes)).toBe(told);
          else expect(latestEnd(staffed, to, minutes)).toBeLessThan(to);
          if (door < told) expect(latestEnd(staffed, door, minutes)).toBeLessThan(door);
          if (door < told && told < Infinity) later++;
        }
    expect(later).toBeGreaterThan(100);
  });
});
