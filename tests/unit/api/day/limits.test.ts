/** What no workshop has is refused with its path; what a large one has is not. Sizes of shops: common practice, no source. */
import { describe, expect, it } from "vitest";
import type { DayFile } from "../../../../api/contract/day.ts";
import { readDay } from "../../../../api/day/read-day.ts";
import { shopDay } from "../../../help/service.ts";

const times = <T>(count: number, of: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => of(i));
const day = shopDay("full-day");
const oven = day.ovens[0]!;
const [pan] = day.pans;
const [coating] = day.coatings;
const space = oven.space.kind === "shelves" ? oven.space : undefined;
const shelves = (count: number) => times(count, (i) => ({ ...space!.shelves[0]!, id: `shelf ${i}` }));
const alone = (count: number) => times(count, (i) => ({ ...pan!, id: `P-${i}`, ticket: `P-${i}`, quantity: 1 }));
const hours = (count: number) =>
  times(count, (i) => {
    const date = new Date(Date.UTC(2026, 8, 15 + i)).toISOString().slice(0, 10);
    return { from: `${date}T08:00`, to: `${date}T16:00` };
  });

const tooMuch: readonly (readonly [path: string, change: Partial<Record<keyof DayFile, unknown>>])[] = [
  ["staffed", { staffed: hours(401) }],
  ["ovens", { ovens: times(51, (i) => ({ ...oven, id: `oven ${i}` })) }],
  ["ovens[0].space.shelves", { ovens: [{ ...oven, space: { ...space!, shelves: shelves(10_000) } }] }],
  ["ovens[0].lastGroups", { ovens: [{ ...oven, lastGroups: times(101, String) }] }],
  ["coatings", { coatings: times(301, (i) => ({ ...coating!, id: `coating ${i}` })) }],
  ["coatings[0].coats", { coatings: [{ ...coating!, coats: times(21, () => coating!.coats[0]!) }] }],
  [
    "coatings[0].coats[0].ovens",
    { coatings: [{ ...coating!, coats: [{ ...coating!.coats[0]!, ovens: times(51, String) }] }] },
  ],
  ["materials", { materials: Object.fromEntries(times(201, (i) => [`metal ${i}`, { specificHeatJPerKgK: 500 }])) }],
  ["pans", { pans: alone(5001) }],
  ["pans", { pans: [{ ...pan!, quantity: 5001 }] }],
  ["booth.sprayers", { booth: { ...day.booth, sprayers: 101 } }],
  ["prep.benches", { prep: { benches: 101 } }],
  ["mixing.neverTogether", { mixing: { neverTogether: times(2001, () => ["a", "b"]) } }],
  [
    "mixing.cleanBurn.after",
    { mixing: { cleanBurn: { after: times(101, String), before: ["a"], setPointC: 420, holdMinutes: 9 } } },
  ],
  ["held", { held: times(501, (i) => ({ id: `H-${i}` })) }],
  ["inForce", { inForce: times(5001, () => ({ id: "x", doorOpensAt: day.planFrom })) }],
  ["inForceLoads", { inForceLoads: times(5001, () => ({ oven: oven.id, doorOpensAt: day.planFrom, pans: [] })) }],
  ["title", { title: "x".repeat(201) }],
  ["pans[0].id", { pans: [{ ...pan!, id: "x".repeat(201) }] }],
  ["ovens[0].cycle.setPointStepC", { ovens: [{ ...oven, cycle: { ...oven.cycle, setPointStepC: 0.001 } }] }],
];

describe("a day file", () => {
  it.each(tooMuch)("is refused where its %s are more than any workshop has, with the path", (path, change) => {
    const began = performance.now();
    const read = readDay({ ...day, held: [], ...change });
    expect(performance.now() - began).toBeLessThan(5000);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    const told = read.problems.find((problem) => problem.path === path);
    expect(told?.allowed, JSON.stringify(read.problems.slice(0, 3))).toMatch(/^at (most|least) \d/);
  });

  it("may hold a thousand pans, twelve ovens and forty shelves in each", () => {
    const ovens = times(12, (i) => ({
      ...oven,
      id: i === 0 ? oven.id : `oven ${i}`,
      space: { ...space!, shelves: shelves(40) },
    }));
    const read = readDay({
      ...day,
      staffed: [...day.staffed, ...hours(24).slice(3)],
      ovens,
      pans: alone(1000),
      held: [],
      nextOpen: null,
    });
    expect(read.ok ? [] : read.problems).toEqual([]);
  });
});
