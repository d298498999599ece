/** What a plan has, it can be held to: its loads pinned, the next plan keeps each of them, their bench and booth work in time. */
import { describe, expect, it } from "vitest";
import { checkPlan } from "../../api/check/check-plan.ts";
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { toPlanFile } from "../../api/day/from-solver.ts";
import { toRequest } from "../../api/day/to-solver.ts";
import { planOf } from "../help/exact-bound.ts";
import { oddDay } from "../help/odd-days.ts";

const META = { madeAt: "2026-03-10T07:12:03+00:00", seconds: 1, seed: 1, lpEngine: "javascript-lp-solver" } as const;
function planned(file: DayFile, steps: number): { readonly plan: PlanFile; readonly faults: readonly unknown[] } {
  const read = readDay(file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const request = toRequest(read.day);
  const plan = toPlanFile(read.day, request, planOf(request, steps), META);
  return { plan, faults: checkPlan(read.day, plan) };
}

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
    const before = planned(day, 200);
    expect(before.faults).toEqual([]);
    const held = before.plan.loads.map(({ state, ...load }) => ({
      ...load,
      state: state === "planned" ? ("pinned" as const) : state,
    }));
    expect(held.length).toBeGreaterThan(0);
    const after = planned({ ...day, held }, 20);
    expect(after.faults).toEqual([]);
    expect(after.plan.loads.filter(({ state }) => state === "pinned").map(({ doorOpensAt }) => doorOpensAt)).toEqual(
      before.plan.loads.filter(({ state }) => state === "planned").map(({ doorOpensAt }) => doorOpensAt),
    );
  });

  it("may bake metal that comes down to its level without end", () => {
    const day = oddDay(745, 30);
    const [first] = planned(day, 200).plan.loads.filter(({ kind }) => kind === "bake");
    const { plan, faults } = planned({ ...day, held: [{ ...first!, state: "pinned" }] }, 200);
    const windows = plan.loads.flatMap((load) => load.pans.map(({ soakMinutes }) => soakMinutes));
    expect(windows).toContain(16.73);
    expect(faults).toEqual([]);
  });
});
