import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Outcome } from "../../../../api/check/firing.ts";
import { followFiring } from "../../../../api/check/firing.ts";
import type { Metal } from "../../../../api/check/oven.ts";
import { tolerance } from "../../../../api/check/fault.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { anyCycle, anyMembers, demoCycle } from "../../../help/random-ovens.ts";
import { referenceFiring } from "../../../help/reference-oven.ts";

/** One metal for every pan that the member stands for. */
function metalsOf(cycle: ThermalCycle, members: readonly Member[]): Metal[] {
  return members.flatMap((member) =>
    Array.from({ length: member.count }, () => ({
      filmWPerK: cycle.filmWPerM2K * member.body.exchangeM2,
      heatJPerK: member.body.heatJPerK,
      offsetC: member.offsetC,
      guardedLowC: member.lowC + cycle.guardC,
      lowC: member.lowC,
    })),
  );
}

const anyTimes = fc.record({
  setPointC: fc.integer({ min: 20, max: 86 }).map((steps) => steps * 5),
  burn: fc.integer({ min: 8, max: 60 }),
  coast: fc.integer({ min: 0, max: 30 }),
  startC: fc.integer({ min: 20, max: 350 }),
});

describe("a firing followed by the checker", () => {
  test("agrees with a plain integration in steps of 1 s, on 60 random ovens and loads", () => {
    fc.assert(
      fc.property(anyCycle, anyMembers, anyTimes, (cycle, members, { setPointC, burn, coast, startC }) => {
        const decision = { setPointC, burnerOffMinutes: burn, unloadMinutes: burn + coast };
        const said = referenceFiring(cycle, 20, members, startC, decision);
        const found = followFiring(
          { cycle, ambientC: 20, stepSeconds: 5 },
          metalsOf(cycle, members),
          {
            loadMinutes: cycle.loadMinutes,
            burnerOnMinute: cycle.purgeMinutes,
            burnerOffMinute: burn,
            unloadMinute: burn + coast,
            unloadMinutes: cycle.unloadMinutes,
            setPointC,
          },
          startC,
        );
        const near = (one: number, other: number, within: number): void =>
          expect(Math.abs(one - other)).toBeLessThan(within);
        near(found.gasKWh, said.gasKWh, 0.001 + said.gasKWh * tolerance.gasShare * 0.2);
        near(found.nominal.unloadChamberC, said.chamberAtUnloadC, 0.1);
        near(found.chamberDoneC, said.chamberAtDoneC, 0.1);
        let at = 0;
        for (const [index, member] of members.entries()) {
          const bake = said.members[index];
          for (let copy = 0; bake !== undefined && copy < member.count; copy++, at++) {
            near(found.nominal.guardedSoakMinutes[at] ?? 0, bake.soakMinutes, 0.1);
            near(found.nominal.soakMinutes[at] ?? 0, bake.aboveLowMinutes, 0.1);
            near(found.nominal.peakC[at] ?? 0, bake.peakC, 0.1);
            near(found.nominal.unloadMetalC[at] ?? 0, bake.metalAtUnloadC, 0.1);
          }
        }
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  test("goes with the burner off earlier or later as a firing decided so", () => {
    const member: Member = {
      count: 2,
      body: { exchangeM2: 0.21, coatedM2: 0.105, heatJPerK: 810 },
      offsetC: 0,
      lowC: 250,
      highC: 300,
      soakLeastMinutes: 10,
      soakMostMinutes: 25,
    };
    const follow = (burn: number): { nominal: Outcome; shifted: (minutes: number) => Outcome } =>
      followFiring(
        { cycle: demoCycle, ambientC: 20, stepSeconds: 5 },
        metalsOf(demoCycle, [member]),
        {
          loadMinutes: 4,
          burnerOnMinute: 4,
          burnerOffMinute: burn,
          unloadMinute: burn + 8,
          unloadMinutes: 4,
          setPointC: 280,
        },
        100,
      );
    for (const shift of [-3, -1, 0, 1, 2, 9]) {
      const shifted = follow(30).shifted(shift);
      const decided = follow(30 + shift).nominal;
      expect(shifted.guardedSoakMinutes[0]).toBeCloseTo(decided.guardedSoakMinutes[0] ?? 0, 6);
      expect(shifted.soakMinutes[1]).toBeCloseTo(decided.soakMinutes[1] ?? 0, 6);
      expect(shifted.peakC[0]).toBeCloseTo(decided.peakC[0] ?? 0, 6);
    }
  });
});
