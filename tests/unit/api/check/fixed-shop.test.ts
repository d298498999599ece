import { describe, expect, test } from "vitest";
import { checkPlan } from "../../../../api/check/check-plan.ts";
import type { Rule } from "../../../../api/check/fault.ts";
import { fixedPlan } from "./fixed-shop.ts";
import type { Break } from "./spoil.ts";
import { plus, spoiled, to, withCopy } from "./spoil.ts";

const sound = fixedPlan();

const breaks: readonly (readonly [rule: Rule, path: string, title: string, change: Break])[] = [
  ["2 space", "loads[0].pans", "more area than the oven has", { day: { "ovens[0].space.dm2": to(7.9) } }],
  ["2 space", "loads[0].massKg", "more mass than the oven takes", { day: { "ovens[0].maxLoadKg": to(1.9) } }],
  ["4 oven", "loads[1].unloadAt", "a cycle a minute short", { plan: { "loads[1].unloadAt": plus(-1) } }],
  [
    "4 oven",
    "loads[0].unloadAt",
    "the cycle of the shorter pan",
    { day: { "coatings[0].coats[0].bake.cycleMinutes": to(31) } },
  ],
  [
    "4 oven",
    "loads[1].doorOpensAt",
    "the hour that comes twice taken for the first",
    { plan: { "loads[1].doorOpensAt": plus(-11) } },
  ],
  ["4 oven", "loads[1]", "a preheat in a fixed cycle", { plan: { "loads[1].kind": to("preheat") } }],
  ["5 window", "loads[1].pans[0]", "a coat without a cycle time", { day: { "coatings[1].coats[0].bake": to({}) } }],
  ["5 firing", "loads[1].ventMinutes", "a vent in a fixed cycle", { plan: { "loads[1].ventMinutes": to(1) } }],
  [
    "8 flash",
    "loads[0].doorOpensAt",
    "a flash of two minutes more",
    { day: { "coatings[0].coats[0].flashMinutes": to(12) } },
  ],
  [
    "names",
    "loads[0].pans[0].shelf",
    "a shelf where there are none",
    { plan: { "loads[0].pans[0].shelf": to("top") } },
  ],
  ["said", "loads[0].setPointC", "a set-point", { plan: { "loads[0].setPointC": to(200) } }],
  ["said", "loads[0].chamberStartC", "a chamber temperature", { plan: { "loads[0].chamberStartC": to(20) } }],
  ["said", "loads[0].slackMinutes", "slack", { plan: { "loads[0].slackMinutes": to(3) } }],
  [
    "said",
    "loads[0].curve",
    "a curve",
    { plan: { "loads[0].curve": to([{ minute: 0, chamberC: 20, slowestC: 20, fastestC: 20 }]) } },
  ],
  ["said", "loads[0].pans[0].peakC", "a peak", { plan: { "loads[0].pans[0].peakC": to(200) } }],
  ["said", "loads[0].pans[0].cooledAt", "time to cool", { plan: { "loads[0].pans[0].cooledAt": plus(5) } }],
  ["said", "loads[0].gasKWh", "gas of another cycle", { plan: { "loads[0].gasKWh": to(6.1) } }],
  ["cost", "cost.crew", "the night taken for an hour shorter", { plan: { "cost.crew": to(10), "cost.total": to(12) } }],
  ["savings", "gas.comparedWith[0].kWh", "another habit", { plan: { "gas.comparedWith[0].kWh": to(20) } }],
  [
    "savings",
    "gas.comparedWith[1].firings",
    "one firing more in ticket order",
    { plan: { "gas.comparedWith[1].firings": to(3) } },
  ],
  ["savings", "gas.comparedWith[1].kWh", "more gas in ticket order", { plan: { "gas.comparedWith[1].kWh": to(21) } }],
  ["1 coats", "loads[1].pans[1].coat", "a pan twice in two loads", { plan: { "loads[1].pans": withCopy(0) } }],
];

describe("a hand-worked plan in an oven with a fixed cycle", () => {
  test("has no fault, though the clocks go back in the middle of it", () => {
    expect(checkPlan(sound.day, sound.plan)).toEqual([]);
  });

  test.each(breaks)("breaks rule %s at %s: %s", (rule, path, _title, change) => {
    const { day, plan } = spoiled(sound, change);
    expect(checkPlan(day, plan)).toEqual(expect.arrayContaining([expect.objectContaining({ rule, path })]));
  });

  test("may fire a clean burn as long as it is held", () => {
    const cleanBurn = { after: ["soot"], before: ["any"], setPointC: 400, holdMinutes: 20 };
    const burn = {
      kind: "clean burn",
      id: "C-1",
      pans: [],
      massKg: 0,
      solventMl: 0,
      gasKWh: 4,
      doorOpensAt: "2025-10-26T00:25:00+01:00",
      doorClosesAt: "2025-10-26T00:25:00+01:00",
      unloadAt: "2025-10-26T00:45:00+01:00",
      doneAt: "2025-10-26T00:45:00+01:00",
    };
    const soiled = { mixing: to({ cleanBurn }), "ovens[0].lastGroups": to(["soot"]) };
    const rules = (change: Break): string[] => {
      const { day, plan } = spoiled(sound, change);
      return checkPlan(day, plan).map(({ rule }) => rule);
    };
    expect(rules({ day: soiled })).toEqual(["3 mixing", "3 mixing"]);
    const sooner = { ...soiled, planFrom: to("2025-10-26T00:25"), "staffed[0].from": to("2025-10-26T00:25") };
    const fired = rules({ day: sooner, plan: { loads: withCopy(0, burn) } });
    expect(fired).not.toContain("3 mixing");
    expect(fired).not.toContain("4 oven");
  });
});
