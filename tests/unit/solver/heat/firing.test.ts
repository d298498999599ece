import { describe, expect, test } from "vitest";
import { firingCurve, simulateFiring, windowsKept } from "../../../../solver/heat/firing.ts";
import type { FiringDecision } from "../../../../solver/heat/firing.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { expectSameFiring } from "../../../help/same-firing.ts";
import { demoCycle } from "../../../help/random-ovens.ts";
import { referenceFiring } from "../../../help/reference-oven.ts";

const primer = { lowC: 250, highC: 300, soakLeastMinutes: 10, soakMostMinutes: 25 };
/** 0.9 kg of aluminium, 28 cm: a time constant of 2.3 min under 28 W/m²K. */
const pan = { exchangeM2: 0.2111, coatedM2: 0.1056, heatJPerK: 810 };
/** 6 kg of cast iron: 7.2 min. */
const casserole = { exchangeM2: 0.248, coatedM2: 0.124, heatJPerK: 3000 };
/** A foil tray of 10 g: 2 s. */
const tray = { exchangeM2: 0.16, coatedM2: 0.08, heatJPerK: 9 };
const mixed: readonly Member[] = [
  { count: 6, body: pan, offsetC: 3, ...primer },
  { count: 4, body: pan, offsetC: 0, ...primer },
  { count: 2, body: casserole, offsetC: -4, ...primer },
];

describe("a firing agrees with a fourth-order integration at 1-second steps", () => {
  const bake: FiringDecision = { setPointC: 280, burnerOffMinutes: 45, unloadMinutes: 60 };
  const cases: readonly [string, Partial<ThermalCycle>, readonly Member[], number, FiringDecision][] = [
    ["from cold", {}, mixed, 20, bake],
    ["from a chamber that is still warm", {}, mixed, 190, bake],
    ["with a tray that follows the air within seconds", {}, [{ ...mixed[0]!, body: tray }, mixed[2]!], 120, bake],
    ["above the set-point, falling to it and holding", { doorLimitC: 500 }, mixed, 430, { ...bake, setPointC: 200 }],
    ["above the set-point, never down to it", { doorLimitC: 500 }, [], 430, { ...bake, burnerOffMinutes: 10 }],
    ["with a burner that never gets there", { burnerKW: 9 }, mixed, 20, bake],
    ["with a burner too weak to hold what it is loaded with", { burnerKW: 12, doorLimitC: 500 }, mixed, 420, bake],
    ["without loading time or purge", { loadMinutes: 0, purgeMinutes: 0 }, mixed, 150, bake],
    ["with a purge of a broken minute", { purgeMinutes: 3.4 }, mixed, 150, bake],
    ["with the burner off before it was ever lit", { purgeMinutes: 6 }, mixed, 150, { ...bake, burnerOffMinutes: 3 }],
    ["with the burner off while still heating", {}, mixed, 20, { ...bake, burnerOffMinutes: 17 }],
    ["opened hot", { doorLimitC: 500 }, mixed, 250, { ...bake, unloadMinutes: 45 }],
    ["coasting for hours", { coastExhaustWPerK: 0 }, mixed, 20, { ...bake, unloadMinutes: 300 }],
    ["with a chamber lighter than its load", { heatCapacityKJPerK: 6 }, mixed, 60, bake],
    ["without pans", {}, [], 20, bake],
  ];

  test.each(cases)("%s", (_, change, members, chamberC, decision) => {
    const cycle = { ...demoCycle, ...change };
    const reference = referenceFiring(cycle, 20, members, chamberC, decision);
    expectSameFiring(simulateFiring(cycle, 20, members, chamberC, decision), reference);
    const curve = firingCurve(cycle, 20, members, chamberC, decision);
    expect(curve.map((point) => point.minute)).toEqual(curve.map((_point, minute) => minute));
    expect(curve).toHaveLength(decision.unloadMinutes + 1);
    for (const { minute, chamberC: at } of curve)
      expect(Math.abs(at - reference.chamberAtMinuteC[minute]!)).toBeLessThan(0.01);
  });
});

describe("what a firing reports", () => {
  const decision = { setPointC: 280, burnerOffMinutes: 45, unloadMinutes: 55 };
  const firing = simulateFiring(demoCycle, 20, mixed, 20, decision);

  test("the set-point's instant, where the chamber had to heat to it", () => {
    expect(firing.reachedSetPoint).toBe(true);
    expect(firing.setPointAtMinutes).toBeGreaterThan(demoCycle.purgeMinutes);
    expect(firing.setPointAtMinutes).toBeLessThan(decision.burnerOffMinutes);
  });

  test("no instant where the chamber starts above it, though it counts as reached", () => {
    const hot = simulateFiring({ ...demoCycle, doorLimitC: 500 }, 20, mixed, 500, { ...decision, setPointC: 200 });
    expect(hot).toMatchObject({ setPointAtMinutes: null, reachedSetPoint: true });
  });

  test("no instant where the burner goes off before it gets there", () => {
    const early = simulateFiring(demoCycle, 20, mixed, 20, { ...decision, burnerOffMinutes: 15 });
    expect(early).toMatchObject({ setPointAtMinutes: null, reachedSetPoint: false });
  });

  test("alike pans counted together or one by one are the same firing", () => {
    const apart = mixed.flatMap((member) => Array.from({ length: member.count }, () => ({ ...member, count: 1 })));
    const single = simulateFiring(demoCycle, 20, apart, 20, decision);
    expect(single.gasKWh).toBeCloseTo(firing.gasKWh, 9);
    expect(single.members[0]!.soakMinutes).toBeCloseTo(firing.members[0]!.soakMinutes, 6);
    expect(single.members[10]!.peakC).toBeCloseTo(firing.members[2]!.peakC, 6);
  });

  test("coldest and hottest metal run between the members", () => {
    const last = firingCurve(demoCycle, 20, mixed, 20, decision).at(-1)!;
    const metals = firing.members.map((member) => member.metalAtUnloadC);
    expect(last.slowestC).toBeCloseTo(Math.min(...metals), 9);
    expect(last.fastestC).toBeCloseTo(Math.max(...metals), 9);
    expect(last.chamberC).toBe(firing.chamberAtUnloadC);
  });

  test("a pan on a warm shelf may peak above the set-point", () => {
    const warm = [{ ...mixed[0]!, offsetC: 12 }];
    expect(
      simulateFiring(demoCycle, 20, warm, 20, { ...decision, burnerOffMinutes: 60, unloadMinutes: 60 }).members[0]!
        .peakC,
    ).toBeGreaterThan(291);
  });

  test("minutes that are not whole are refused", () => {
    expect(() => simulateFiring(demoCycle, 20, mixed, 20, { ...decision, burnerOffMinutes: 30.5 })).toThrow(RangeError);
  });
});

describe("windows kept at a shifted burner-off", () => {
  // One light pan at 280 °C is in its window (255 °C) for what it is held; the bounds are told by simulateFiring itself.
  const members: readonly Member[] = [{ count: 1, body: pan, offsetC: 0, ...primer }];
  const decision = { setPointC: 280, burnerOffMinutes: 33, unloadMinutes: 40 };
  const at = (shift: number) => {
    const shifted = { ...decision, burnerOffMinutes: 33 + shift, unloadMinutes: 40 + shift };
    return simulateFiring(demoCycle, 20, members, 20, shifted).members[0]!;
  };

  test("too early is too little soak, too late is too much, between both keep", () => {
    const kept = Array.from({ length: 41 }, (_, index) => index - 20).map((shift) => {
      const { soakMinutes, aboveLowMinutes } = at(shift);
      const expected = soakMinutes >= 10 && aboveLowMinutes <= 25;
      expect(windowsKept(demoCycle, 20, members, 20, decision, shift)).toBe(expected);
      return expected;
    });
    expect(kept[0]).toBe(false);
    expect(kept).toContain(true);
    expect(kept.at(-1)).toBe(false);
  });

  test("metal above highC less the guard breaks it at any soak", () => {
    const low = [{ ...members[0]!, highC: 280 }];
    expect(windowsKept(demoCycle, 20, low, 20, decision, 0)).toBe(false);
  });
});
