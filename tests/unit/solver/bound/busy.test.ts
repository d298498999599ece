/** Hands at work in the proof against every way to deal whole tasks to them, tried out. */
import { describe, expect, it } from "vitest";
import type { HandsAtWork, HandTask } from "../../../../solver/bound/busy.ts";
import { busyUntil, lighter, withTask } from "../../../../solver/bound/busy.ts";
import { StaffedClock } from "../../../../solver/bound/staffed-clock.ts";
import { chance } from "../../../help/day-chance.ts";

const clock = new StaffedClock([{ from: 0, to: 1_000 }], 0);

function handsOf(hands: number): HandsAtWork {
  return { hands, changeoverMinutes: 0, freeChangeovers: 0, clock, breaks: false };
}

function task(head: number, minutes: number): HandTask {
  return { head, minutes, paint: 0, flash: 0, tail: 0 };
}

function listOf(tasks: readonly HandTask[]): readonly number[] {
  return tasks.reduce<readonly number[]>((list, one) => withTask(list, one), []);
}

/** Minute at which the last of them ends, of all orders and hands. */
function soonest(tasks: readonly HandTask[], free: readonly number[]): number {
  if (tasks.length === 0) return -Infinity;
  let best = Infinity;
  tasks.forEach(({ head, minutes }, at) => {
    const others = tasks.toSpliced(at, 1);
    free.forEach((from, hand) => {
      const end = Math.max(from, head) + minutes;
      best = Math.min(best, Math.max(end, soonest(others, free.with(hand, end))));
    });
  });
  return best;
}

describe("hands that take whole tasks", () => {
  const dice = chance(11);
  const draw = (most: number): HandTask[] =>
    Array.from({ length: dice.whole(1, most) }, () => task(dice.whole(0, 3) * 4, dice.oneOf([4, 5, 5, 5, 9])));

  it("are two through with three tasks of five minutes after ten, not seven and a half", () => {
    const three = listOf([task(20, 5), task(20, 5), task(20, 5)]);
    expect(busyUntil(three, handsOf(2), false)).toBe(30);
    expect(busyUntil(three, handsOf(3), false)).toBe(25);
    expect(busyUntil(three, handsOf(1), false)).toBe(35);
  });

  it.each([1, 2, 3])("are through no sooner than said: %i hands", (hands) => {
    let met = 0;
    for (let round = 0; round < 200; round++) {
      const tasks = draw(4);
      const said = busyUntil(listOf(tasks), handsOf(hands), false);
      const best = soonest(
        tasks,
        Array.from({ length: hands }, () => 0),
      );
      expect(said).toBeLessThanOrEqual(best + 1e-9);
      if (said === best) met++;
    }
    expect(met).toBeGreaterThan(100);
  });

  it.each([1, 2])(
    "with a lighter list are said to be through no later than others can be, whatever comes: %i hands",
    (hands) => {
      let compared = 0;
      for (let round = 0; round < 3_000; round++) {
        const [one, other, more] = [draw(2), draw(3), draw(2)];
        if (!lighter(listOf(one), listOf(other), handsOf(hands), false)) continue;
        compared++;
        const said = busyUntil(listOf([...one, ...more]), handsOf(hands), false);
        const free = Array.from({ length: hands }, () => 0);
        expect(said).toBeLessThanOrEqual(soonest([...other, ...more], free) + 1e-9);
      }
      expect(compared).toBeGreaterThan(300);
    },
  );
});
