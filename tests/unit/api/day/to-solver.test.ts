import { describe, expect, it } from "vitest";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import type { Patch } from "./patched-day.ts";
import { patchedDay } from "./patched-day.ts";

function request(patch: Patch = {}) {
  const read = readDay(patchedDay(patch));
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1));
  return toRequest(read.day);
}

describe("a day as the solver is asked", () => {
  it("counts minutes from planFrom and indices from 0", () => {
    const asked = request();
    expect(asked.planFromMinute).toBe(0);
    expect(asked.staffed).toEqual([
      { from: 0, to: 300 },
      { from: 360, to: 630 },
    ]);
    expect(asked.lines.map(({ readyMinute, promisedMinute }) => [readyMinute, promisedMinute])).toEqual([
      [0, 510],
      [30, 510],
      [10, 390],
      [0, null],
    ]);
    expect(asked.lines.map(({ coating }) => coating)).toEqual([0, 0, 0, 1]);
    expect(asked.held).toMatchObject([
      { id: "L2", oven: 0, doorOpens: 30, doorCloses: 34, burnerOff: 79, unload: 100, done: 104 },
    ]);
    expect(asked.held[0]?.pans).toEqual([{ line: 2, item: 1, coat: 2, shelf: 0, xCm: 20, yCm: 20, turned: false }]);
  });

  it("goes on 14 h after the last staffed minute where the day does not say when", () => {
    expect(request().nextOpenMinute).toBe(630 + 14 * 60);
    expect(request({ set: { nextOpen: "2026-03-11T07:30" } }).nextOpenMinute).toBe(24 * 60);
  });

  it("resolves what being late and being left over cost, pan by pan", () => {
    const asked = request({ set: { "pans[0].latePerHour": 0, "pans[1].leftOverCost": 99 } });
    expect(asked.lines.map(({ latePerHour, leftOverCost }) => [latePerHour, leftOverCost])).toEqual([
      [0, 30],
      [6, 99],
      [40, 30],
      [6, 30],
    ]);
  });

  it("takes an absent limit as none", () => {
    const asked = request({
      remove: ["ovens[0].maxLoadKg", "ovens[0].maxSolventMl", "ovens[0].space.shelves[0].maxKg"],
    });
    const [oven] = asked.ovens;
    expect([oven?.maxLoadKg, oven?.maxSolventMl]).toEqual([Infinity, Infinity]);
    expect(oven?.space.kind === "shelves" ? oven.space.shelves.map(({ maxKg }) => maxKg) : []).toEqual([Infinity, 30]);
    expect(asked.lines[1]?.metalLimitC).toBe(Infinity);
  });

  it("starts at the whole minute before a planFrom with seconds, and rounds ready times up", () => {
    const asked = request({ set: { planFrom: "2026-03-10T07:12:45", "pans[0].readyAt": "2026-03-10T07:30:01" } });
    expect(asked.planFromMinute).toBe(0.75);
    expect(asked.staffed[0]).toEqual({ from: 18, to: 318 });
    expect(asked.lines[0]?.readyMinute).toBe(19);
  });

  it("sorts staffed time and held loads", () => {
    const fired = {
      id: "L1",
      oven: "gas-1",
      kind: "preheat",
      state: "fired",
      setPointC: 300,
      doorOpensAt: "2026-03-10T07:00",
      doorClosesAt: "2026-03-10T07:00",
      burnerOffAt: "2026-03-10T07:20",
      unloadAt: "2026-03-10T07:20",
      doneAt: "2026-03-10T07:20",
    };
    const asked = request({ set: { "held[1]": fired } });
    expect(asked.held.map(({ id, doorOpens }) => [id, doorOpens])).toEqual([
      ["L1", -30],
      ["L2", 30],
    ]);
  });

  it("keeps where the plan in force had the pans, and forgets pans withdrawn since then", () => {
    const inForce = [
      { id: "K-201-A", item: 2, doorOpensAt: "2026-03-10T09:00" },
      { id: "K-199", item: 1, doorOpensAt: "2026-03-10T09:00" },
    ];
    expect(request({ set: { inForce } }).inForce).toEqual([{ line: 0, item: 2, doorOpens: 90 }]);
  });

  it("names ovens of a coat by index, and gives paints and cycles as the coats have them", () => {
    const asked = request({ set: { "coatings[0].coats[0].ovens": ["gas-1"], "coatings[1].coats[0].paint": "grey" } });
    expect(asked.coatings[0]?.coats.map(({ ovens, paint }) => [ovens, paint])).toEqual([
      [[0], "two-coat/primer"],
      [null, "two-coat/top coat"],
    ]);
    expect(asked.coatings[1]?.coats[0]).toMatchObject({ paint: "grey", cycleMinutes: null, maxWaitMinutes: null });
  });

  it("survives as plain data", () => {
    expect(structuredClone(request())).toEqual(request());
  });
});

/** Night shift over a clock change: 22:00 to 06:00 by the clock is 7 h in spring and 9 h in autumn (half an hour less on Lord Howe). */
describe("a night over the clock change", () => {
  it.each([
    ["Europe/Lisbon", "2026-03-28", "2026-03-29", 7 * 60],
    ["Europe/Lisbon", "2026-10-24", "2026-10-25", 9 * 60],
    ["America/St_Johns", "2026-03-07", "2026-03-08", 7 * 60],
    ["America/St_Johns", "2026-10-31", "2026-11-01", 9 * 60],
    ["Australia/Lord_Howe", "2026-10-03", "2026-10-04", 7.5 * 60],
    ["Australia/Lord_Howe", "2026-04-04", "2026-04-05", 8.5 * 60],
    ["Asia/Kathmandu", "2026-03-28", "2026-03-29", 8 * 60],
  ])("in %s from %s to %s lasts %d minutes", (timeZone, evening, morning, minutes) => {
    const pan = { readyAt: `${evening}T21:00`, promisedAt: `${morning}T07:00` };
    const asked = request({
      set: {
        timeZone,
        planFrom: `${evening}T22:00`,
        staffed: [{ from: `${evening}T22:00`, to: `${morning}T06:00` }],
        held: [],
        ...Object.fromEntries(
          [0, 1, 2, 3].flatMap((i) => Object.entries(pan).map(([key, value]) => [`pans[${i}].${key}`, value])),
        ),
      },
    });
    expect(asked.staffed).toEqual([{ from: 0, to: minutes }]);
    expect(asked.lines[0]).toMatchObject({ readyMinute: -60, promisedMinute: minutes + 60 });
    expect(asked.nextOpenMinute).toBe(minutes + 14 * 60);
  });
});
