/** How urgent a load is, worked out by hand. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { groupsOf } from "../../../../solver/sequence/dispatch-keys.ts";
import { Urgency } from "../../../../solver/sequence/urgency.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const coats = [fixedCoat(), fixedCoat({ sprayMinutes: 5, flashMinutes: 10 })];
const request = smallRequest({
  finishMinutes: 20,
  coatings: [
    { id: "one", name: "one", coats: [fixedCoat()] },
    { id: "two", name: "two", coats },
  ],
  lines: [
    areaLine("promised", { promisedMinute: 200, latePerHour: 6 }),
    areaLine("free"),
    areaLine("two", { coating: 1, promisedMinute: 200, latePerHour: 6 }),
  ],
});
const day = dayModel(request);
const groups = groupsOf(day);
const urgency = new Urgency(day, groups);
const groupOf = (line: number, step: number): number =>
  groups.findIndex((group) => group.step === step && day.pans[day.bakes[group.bakes[0]!]!.pan]!.line === line);

it("is what lateness costs an hour, and a tenth of what being left over costs, each discounted by the time there is", () => {
  // A bake is some 70 minutes from the door to the hand, 20 more to the hand-over: in time from a door at 110.
  const leftOver = (100 + ((1440 - 600) * 6) / 60) / 10;
  expect(urgency.of(groupOf(0, 0), 110, 120)).toBeCloseTo(6 + leftOver * Math.exp(-400 / 120), 9);
  expect(urgency.of(groupOf(0, 0), 50, 120)).toBeCloseTo(6 * Math.exp(-0.5) + leftOver * Math.exp(-460 / 120), 9);
  expect(urgency.of(groupOf(0, 0), 510, 120)).toBeCloseTo(6 + leftOver, 9);
  expect(urgency.of(groupOf(0, 0), 580, 120)).toBeCloseTo(6 + leftOver, 9);
});

it("without a promise is what being left over costs", () => {
  expect(urgency.of(groupOf(1, 0), 110, 120)).toBeCloseTo(10 * Math.exp(-400 / 120), 9);
});

it("grows with the coats that follow, and with the patience that what is far away is felt with", () => {
  const [first, second] = [groupOf(2, 0), groupOf(2, 1)];
  // Spraying, flash-off and bake of the second coat follow: 85 minutes more.
  expect(urgency.of(first, 20, 120)).toBeCloseTo(urgency.of(second, 105, 120), 9);
  expect(urgency.of(first, 20, 60)).toBeLessThan(urgency.of(first, 20, 120));
});
