/** What a plan has, it can be held to: its loads pinned, the next plan keeps each of them, their bench and booth work in time. */
import { describe, expect, it } from "vitest";
import { checkedPlan } from "../help/checked-plan.ts";
import { oddDay } from "../help/odd-days.ts";

describe("a plan in force", () => {
  it.each([
    { seed: 7, why: "pans of one load are sprayed as they come out, not as they are numbered" },
    { seed: 2, why: "pans of different loads are sprayed load by load" },
    { seed: 339, why: "benches serve the load that must be sprayed first, not the one whose door opens first" },
    { seed: 308, why: "what would wait too long is sprayed later" },
    { seed: 284, why: "what is sprayed later leaves its first place to others" },
    { seed: 36, why: "pans cool as they do where nothing is fired before" },
    { seed: 501, mostPans: 30, why: "a load that changing paints makes late is sprayed before the one ahead of it" },
  ])("is kept when all of it is pinned: $why", ({ seed, mostPans = 14 }) => {
    const day = oddDay(seed, mostPans);
    const before = checkedPlan(day, 200);
    expect(before.faults).toEqual([]);
    const held = before.file.loads.map(({ state, ...load }) => ({
      ...load,
      state: state === "planned" ? ("pinned" as const) : state,
    }));
    expect(held.length).toBeGreaterThan(0);
    const after = checkedPlan({ ...day, held }, 20);
    expect(after.faults).toEqual([]);
    expect(after.file.loads.filter(({ state }) => state === "pinned").map(({ doorOpensAt }) => doorOpensAt)).toEqual(
      before.file.loads.filter(({ state }) => state === "planned").map(({ doorOpensAt }) => doorOpensAt),
    );
  });

  it("may bake metal that comes down to its level without end", () => {
    const day = oddDay(745, 30);
    // Of the first plan, which no search changes.
    const [first] = checkedPlan(day, 1).file.loads.filter(({ kind }) => kind === "bake");
    // The chamber falls from 295 °C to a set-point just above the window's lower end.
    const falling = {
      ...first!,
      id: "falling",
      setPointC: 219,
      doorOpensAt: "2026-10-31T09:07:00-02:30",
      doorClosesAt: "2026-10-31T09:15:00-02:30",
      burnerOffAt: "2026-10-31T09:32:00-02:30",
      unloadAt: "2026-10-31T09:32:00-02:30",
      doneAt: "2026-10-31T09:41:00-02:30",
      pans: ["top", "middle", "low"].map((shelf, at) => ({
        ...first!.pans[0]!,
        id: "T-105-A",
        item: at + 1,
        coat: 1,
        shelf,
        xCm: 27,
        yCm: 17,
        turned: false,
      })),
    };
    const held = [first!, falling].map((load) => ({ ...load, state: "pinned" as const }));
    const { file, faults } = checkedPlan({ ...day, held }, 200);
    const soaks = file.loads.flatMap((load) => load.pans.map(({ soakMinutes }) => soakMinutes));
    expect(soaks).toContain(16.73);
    expect(faults).toEqual([]);
  });
});
