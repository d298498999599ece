/** When hands are through with a set of tasks where coats may be left over; worked by hand. */
import { expect, it } from "vitest";
import type { Task } from "../../../../solver/bound/chains.ts";
import { finishOf, taskSets } from "../../../../solver/bound/hand-finish.ts";
import { StaffedClock } from "../../../../solver/bound/staffed-clock.ts";

const clock = new StaffedClock([{ from: 0, to: 1_000 }], 0);
const task = (pan: number, head: number, tail: number): Task => ({
  pan,
  minutes: 5,
  head,
  tail,
  readyTail: tail,
  kind: 0,
});
/** Pan 0 is sprayed twice, the first time with the whole second bake to follow; pan 1 once. */
const tasks = [task(0, 121, 107), task(0, 171, 57), task(1, 60, 57)];
const bakes = [task(0, 126, 65), task(0, 186, 0), task(1, 75, 0)];

it.each([
  // By chain: 121 + 5 + 107, which is more than 171 + 5 + 57.
  { left: 0, finish: 233 },
  // Without pan 0's second coat its first leaves less than 57 minutes, so that pan 1 alone is sure: 60 + 5 + 57.
  { left: 1, finish: 122 },
  { left: 2, finish: -Infinity },
])("$left coats left over: $finish", ({ left, finish }) => {
  expect(finishOf(taskSets(tasks, bakes, { minutes: 0, free: 0 }), 1, clock, left)).toBe(finish);
});
