/** The oven physics over invented ovens and loads, against a reference integration and against trying every minute. */
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { firingCurve, simulateFiring, windowsKept } from "../../solver/heat/firing.ts";
import type { FiringDecision } from "../../solver/heat/firing.ts";
import type { Member } from "../../solver/heat/members.ts";
import { firingOptions, firingUnloadedFrom } from "../../solver/heat/options.ts";
import type { ThermalCycle } from "../../solver/shop.ts";
import { alikeMembers, anyCycle, anyMember, anyMembers } from "../help/random-ovens.ts";
import { referenceFiring } from "../help/reference-oven.ts";
import { expectSameFiring } from "../help/same-firing.ts";

vi.setConfig({ testTimeout: 60_000 });

const ambientC = 20;
const chamberAtOpen = fc.double({ min: 20, max: 430, noNaN: true });
const decision: fc.Arbitrary<FiringDecision> = fc
  .record({
    setPointC: fc.integer({ min: 15, max: 43 }).map((tens) => tens * 10),
    burnerOffMinutes: fc.integer({ min: 0, max: 90 }),
    coastMinutes: fc.integer({ min: 0, max: 40 }),
  })
  .map(({ setPointC, burnerOffMinutes, coastMinutes }) => ({
    setPointC,
    burnerOffMinutes,
    unloadMinutes: burnerOffMinutes + coastMinutes,
  }));

/** Loads whose pans are alike enough that about half of them have a sound firing. */
const likelyLoad = fc.tuple(anyCycle, alikeMembers).map(([drawn, members]): [ThermalCycle, Member[]] => {
  const cycle = { ...drawn, guardC: Math.min(4, drawn.guardC), setPointStepC: 10 };
  const heatPerM2 = members[0]!.body.heatJPerK / members[0]!.body.exchangeM2;
  return [
    cycle,
    members.map((member) => ({
      ...member,
      offsetC: member.offsetC / 2,
      body: { ...member.body, heatJPerK: heatPerM2 * member.body.exchangeM2 * (1 + 0.05 * member.count) },
    })),
  ];
});

describe("any firing", () => {
  test("agrees with a fourth-order integration at 1-second steps, and balances its energy", () => {
    fc.assert(
      fc.property(anyCycle, anyMembers, chamberAtOpen, decision, (cycle, members, chamberC, decided) => {
        const reference = referenceFiring(cycle, ambientC, members, chamberC, decided);
        const firing = simulateFiring(cycle, ambientC, members, chamberC, decided);
        expectSameFiring(firing, reference);
        const { chamber, metal, lost } = reference.energy;
        const burnerJ = firing.gasKWh * 3.6e6 * cycle.efficiency;
        expect(Math.abs(burnerJ - chamber - metal - lost)).toBeLessThan(2000 + 0.0005 * Math.abs(lost));
      }),
      { numRuns: 60, seed: 20260310 },
    );
  });

  test("burner heat is what chamber and metal hold and what wall and fan took, by its own curve", () => {
    fc.assert(
      fc.property(anyCycle, anyMember, chamberAtOpen, decision, (drawn, member, chamberC, decided) => {
        // A slow chamber, so that a trapezoid over whole minutes is close enough to what it lost.
        const cycle = { ...drawn, heatCapacityKJPerK: 300 + drawn.heatCapacityKJPerK };
        const firing = simulateFiring(cycle, ambientC, [member], chamberC, decided);
        const curve = firingCurve(cycle, ambientC, [member], chamberC, decided);
        const [first, last] = [curve[0]!, curve.at(-1)!];
        const storedJ =
          cycle.heatCapacityKJPerK * 1000 * (last.chamberC - first.chamberC) +
          member.count * member.body.heatJPerK * (last.slowestC - first.slowestC);
        const lostJ = curve.slice(1).reduce((sum, point, index) => {
          const fan = index < decided.burnerOffMinutes ? cycle.exhaustWPerK : cycle.coastExhaustWPerK;
          const meanC = 0.5 * (point.chamberC + curve[index]!.chamberC);
          return sum + 60 * (cycle.wallLossWPerK + fan) * (meanC - ambientC);
        }, 0);
        const burnerJ = firing.gasKWh * 3.6e6 * cycle.efficiency;
        expect(Math.abs(burnerJ - storedJ - lostJ)).toBeLessThan(0.01 * (Math.abs(lostJ) + burnerJ) + 60_000);
      }),
      { numRuns: 150, seed: 20260311 },
    );
  });

  test("from a hotter chamber brings no metal into its window later and takes no more gas", () => {
    fc.assert(
      fc.property(
        anyCycle,
        anyMembers,
        chamberAtOpen,
        fc.double({ min: 0, max: 80, noNaN: true }),
        decision,
        (cycle, members, chamberC, hotter, decided) => {
          const cool = simulateFiring(cycle, ambientC, members, chamberC, decided);
          const hot = simulateFiring(cycle, ambientC, members, chamberC + hotter, decided);
          expect(hot.gasKWh).toBeLessThanOrEqual(cool.gasKWh + 1e-6);
          hot.members.forEach((bake, index) => {
            const before = cool.members[index]!;
            expect(bake.inWindowMinutes ?? Infinity).toBeLessThanOrEqual((before.inWindowMinutes ?? Infinity) + 0.003);
            expect(bake.peakC).toBeGreaterThanOrEqual(before.peakC - 0.05);
            expect(bake.soakMinutes).toBeGreaterThanOrEqual(before.soakMinutes - 0.003);
          });
        },
      ),
      { numRuns: 300, seed: 20260312 },
    );
  });
});

describe("the search of firings", () => {
  test("finds only sound ones, by the reference integration at both ends", () => {
    let found = 0;
    fc.assert(
      fc.property(likelyLoad, fc.double({ min: 20, max: 330, noNaN: true }), ([cycle, members], chamberC) => {
        for (const option of firingOptions(cycle, ambientC, members, chamberC).slice(0, 2)) {
          found++;
          const shifted = (minutes: number) =>
            referenceFiring(cycle, ambientC, members, chamberC, {
              setPointC: option.setPointC,
              burnerOffMinutes: Math.max(0, option.burnerOffMinutes + minutes),
              unloadMinutes: Math.max(0, option.unloadMinutes + minutes),
            });
          const nominal = shifted(0);
          expect(nominal.chamberAtUnloadC).toBeLessThan(cycle.doorLimitC + 0.01);
          expect(nominal.startsAbove || nominal.setPointAtMinutes !== null).toBe(true);
          expect(Math.abs(nominal.chamberAtDoneC - option.chamberAtDoneC)).toBeLessThan(0.05);
          expect(Math.abs(nominal.gasKWh - option.gasKWh)).toBeLessThan(1e-4 + 0.0005 * nominal.gasKWh);
          const early = shifted(-cycle.earlyMinutes);
          const late = shifted(option.slackMinutes);
          members.forEach((member, index) => {
            expect(early.members[index]!.soakMinutes).toBeGreaterThan(member.soakLeastMinutes - 0.02);
            expect(late.members[index]!.aboveLowMinutes).toBeLessThan(member.soakMostMinutes + 0.02);
            expect(late.members[index]!.peakC).toBeLessThan(member.highC - cycle.guardC + 0.05);
          });
        }
      }),
      { numRuns: 60, seed: 20260313 },
    );
    expect(found).toBeGreaterThan(30);
  });

  test("misses none: trying every burner-off finds nothing quicker", () => {
    let compared = 0;
    const opens = fc.double({ min: 20, max: 330, noNaN: true });
    fc.assert(
      fc.property(likelyLoad, opens, fc.integer({ min: 0, max: 80 }), ([cycle, members], chamberC, notBefore) => {
        const setPointC = Math.min(430, Math.ceil((members[0]!.lowC + 12) / 10) * 10);
        const found = firingUnloadedFrom(cycle, ambientC, members, chamberC, setPointC, notBefore);
        if (found !== undefined && found.unloadMinutes > LAST_TRIED) return;
        const tried = tryEveryMinute(cycle, members, chamberC, setPointC, notBefore);
        expect(found?.unloadMinutes).toBe(tried?.unloadMinutes);
        expect(found?.burnerOffMinutes).toBe(tried?.burnerOffMinutes);
        if (found !== undefined) compared++;
      }),
      { numRuns: 40, seed: 20260314 },
    );
    expect(compared).toBeGreaterThan(8);
  });
});

const LAST_TRIED = 150;

function tryEveryMinute(
  cycle: ThermalCycle,
  members: readonly Member[],
  chamberC: number,
  setPointC: number,
  notBefore: number,
): FiringDecision | undefined {
  let best: FiringDecision | undefined;
  for (let burnerOffMinutes = Math.ceil(cycle.purgeMinutes); burnerOffMinutes <= LAST_TRIED; burnerOffMinutes++) {
    const out = (unloadMinutes: number): FiringDecision => ({ setPointC, burnerOffMinutes, unloadMinutes });
    if (!simulateFiring(cycle, ambientC, members, chamberC, out(burnerOffMinutes)).reachedSetPoint) continue;
    const least = Math.max(burnerOffMinutes, notBefore);
    const curve = firingCurve(cycle, ambientC, members, chamberC, out(LAST_TRIED + 1));
    const opens = curve.slice(least).findIndex((point) => point.chamberC <= cycle.doorLimitC);
    if (opens < 0) continue;
    const tried = out(least + opens);
    let sound = true;
    for (let shift = -cycle.earlyMinutes; shift <= cycle.slackMinutes && sound; shift++)
      sound = windowsKept(cycle, ambientC, members, chamberC, tried, shift);
    if (sound && (best === undefined || tried.unloadMinutes < best.unloadMinutes)) best = tried;
    if (best !== undefined && burnerOffMinutes >= best.unloadMinutes) break;
  }
  return best;
}
