import { describe, expect, test } from "vitest";
import { checkPlan } from "../../../../api/check/check-plan.ts";
import { breaks } from "./breaks.ts";
import { mixedPlan, twoOvenPlan } from "./mixed-shop.ts";
import type { Break } from "./spoil.ts";
import { plus, spoiled, to } from "./spoil.ts";

const sound = mixedPlan();

function faultsOf(change: Break): readonly { readonly rule: string; readonly path: string }[] {
  const { day, plan } = spoiled(sound, change);
  return checkPlan(day, plan).map(({ rule, path }) => ({ rule, path }));
}

describe("a plan of two days with all kinds of firing", () => {
  test.each([1, 5, 10])("has no fault when followed in steps of %d s", (stepSeconds) => {
    expect(checkPlan(sound.day, sound.plan, { stepSeconds })).toEqual([]);
  });

  test("is checked in less than half a second", () => {
    const begun = performance.now();
    checkPlan(sound.day, sound.plan);
    expect(performance.now() - begun).toBeLessThan(500);
  });

  test("leaves the day and the plan as they were", () => {
    const before = structuredClone(sound);
    checkPlan(sound.day, sound.plan);
    expect(sound).toEqual(before);
  });

  test("needs no tasks at benches and sprayers that are not limited", () => {
    const free = { "prep.benches": to(0), "booth.sprayers": to(0) };
    expect(faultsOf({ day: free, plan: { prep: to([]), booth: to([]) } })).toEqual([]);
  });

  test("fires through the lunch break in an oven that may be left alone", () => {
    const staffed = [
      { from: "2026-03-27T07:00", to: "2026-03-27T10:30" },
      { from: "2026-03-27T11:20", to: "2026-03-27T17:00" },
      { from: "2026-03-30T08:00", to: "2026-03-30T12:00" },
    ];
    const crew = { "cost.crew": plus(-5), "cost.total": plus(-5) };
    const alone = faultsOf({ day: { staffed: to(staffed), "ovens[0].attended": to(false) }, plan: crew });
    expect(alone.filter(({ rule }) => rule !== "proof")).toEqual([]);
    const attended = faultsOf({ day: { staffed: to(staffed) }, plan: crew });
    expect(attended.filter(({ rule }) => rule !== "proof")).toEqual([
      { rule: "6 staffed", path: "loads[2].doorOpensAt" },
    ]);
  });

  test("may be off by what two integrations differ, and no further", () => {
    const within = {
      "loads[1].pans[0].soakMinutes": plus(0.24),
      "loads[1].pans[0].peakC": plus(0.45),
      "loads[2].chamberStartC": plus(-0.45),
      "loads[2].pans[0].xCm": plus(-0.009),
    };
    expect(faultsOf({ plan: { ...within, "cost.crew": plus(0.009) } })).toEqual([]);
  });
});

describe("a plan for two ovens", () => {
  const both = twoOvenPlan();

  test("has no fault: each oven has its own heat, its own soil and its own turn", () => {
    expect(both.plan.loads.find(({ oven }) => oven === "gas-2")?.chamberStartC).toBeLessThan(40);
    expect(checkPlan(both.day, both.plan)).toEqual([]);
  });

  test("finds the silicone back in the first oven without a clean burn, and in a heat that is not its own", () => {
    const { day, plan } = spoiled(both, { plan: { "loads[3].oven": to("gas-1") } });
    const faults = checkPlan(day, plan);
    expect(faults).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ rule: "3 mixing", path: "loads[5]" }),
        expect.objectContaining({ rule: "said", path: "loads[3].chamberStartC" }),
      ]),
    );
  });
});

describe("a plan broken in one place", () => {
  test.each(breaks)("breaks rule %s: %s", (rule, _title, change) => {
    const { day, plan } = spoiled(sound, change);
    const faults = checkPlan(day, plan, { savings: rule === "savings" });
    expect(faults.map((fault) => fault.rule)).toContain(rule);
    for (const fault of faults) expect(fault.message).toMatch(/\.$/);
  });
});

test("a plan broken in many places names every one of them", () => {
  const faults = faultsOf({
    plan: {
      "cost.crew": plus(1),
      "loads[2].pans[1].xCm": to(45.9),
      "loads[2].massKg": plus(1),
      "booth[0].sprayer": to(2),
      "tickets[1].readyAt": plus(-5),
      dayTitle: to("Another"),
    },
  });
  expect(faults).toEqual(
    expect.arrayContaining([
      { rule: "cost", path: "cost.crew" },
      { rule: "2 space", path: "loads[2].pans[1]" },
      { rule: "said", path: "loads[2].massKg" },
      { rule: "7 booth", path: "booth[0].sprayer" },
      { rule: "9 tickets", path: "tickets[1].readyAt" },
      { rule: "names", path: "dayTitle" },
    ]),
  );
});
