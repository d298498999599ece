import { describe, expect, it } from "vitest";
import { Calendar } from "../../../../solver/sequence/calendar.ts";
import { StaffedTime } from "../../../../solver/sequence/staffed-time.ts";

const staffed = new StaffedTime([
  { from: 0, to: 60 },
  { from: 100, to: 200 },
]);

describe("the hands' timetable", () => {
  it("sprays at the earliest gap, with change-over minutes to a neighbour of another paint", () => {
    const booth = new Calendar(1, 9, 6);
    expect(booth.insert(0, 10, 0, 1, staffed)).toBe(0);
    // Another paint: 10 + 6 minutes of change-over.
    expect(booth.insert(0, 10, 1, 2, staffed)).toBe(16);
    // The first paint again: after 26 and another change-over, 32.
    expect(booth.insert(0, 10, 0, 3, staffed)).toBe(32);
    // The second paint fits nowhere before 48; 48 + 10 = 58 is still staffed.
    expect(booth.insert(0, 10, 1, 4, staffed)).toBe(48);
    // 58 + 6 + 10 is beyond 60: after the break.
    expect(booth.insert(0, 10, 0, 5, staffed)).toBe(100);
  });

  it("uses a gap that is large enough for the task and both change-overs, and no smaller one", () => {
    const booth = new Calendar(1, 9, 6);
    booth.insert(0, 10, 0, 1, staffed);
    booth.insert(32, 10, 0, 2, staffed);
    // Between 10 and 32: 6 + 10 + 6 = 22 minutes, exactly.
    expect(booth.insert(0, 10, 1, 3, staffed)).toBe(16);
    booth.remove(3);
    expect(booth.insert(0, 11, 1, 4, staffed)).toBe(48);
  });

  it("gives the work to the sprayer who is free first, and says whose task it is", () => {
    const booth = new Calendar(2, 9, 0);
    booth.insert(0, 30, 0, 7, staffed);
    expect(booth.insert(0, 10, 0, 8, staffed)).toBe(0);
    expect(booth.insert(0, 10, 0, 9, staffed)).toBe(10);
    expect(booth.tasks()).toEqual([
      { server: 0, owner: 7, from: 0, to: 30 },
      { server: 1, owner: 8, from: 0, to: 10 },
      { server: 1, owner: 9, from: 10, to: 20 },
    ]);
  });

  it("finds no time for work longer than any staffed interval", () => {
    const bench = new Calendar(1, 9, 0);
    expect(bench.insert(0, 101, 0, 1, staffed)).toBe(-1);
    expect(bench.tasks()).toEqual([]);
  });
});

describe("staffed time", () => {
  it("counts only staffed minutes", () => {
    // 60 − 50 before the break and 120 − 100 after it.
    expect(staffed.minutesBetween(50, 120)).toBe(30);
  });
});
