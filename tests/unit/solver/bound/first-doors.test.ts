/** No check value outside the project: every way to spend whole minutes between a clean burn and a door is gone through. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { firstDoors } from "../../../../solver/bound/first-doors.ts";
import { chamberAfterIdle, chamberAfterVent } from "../../../../solver/heat/chamber.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { anyCycle, demoCycle } from "../../../help/random-ovens.ts";

const ROOM_C = 20;
const BURNT_C = 420;

/** Per whole minute after the burn: chambers that the fan, pre-heats and idle minutes in any order may leave, °C. */
function chambersAfter(cycle: ThermalCycle, minutes: number): readonly ReadonlySet<number>[] {
  const found = Array.from({ length: minutes + 1 }, () => new Set<number>());
  const note = (minute: number, chamberC: number): void => {
    found[minute]?.add(Math.round(chamberC * 1e4) / 1e4);
  };
  note(0, BURNT_C);
  const setPoints = [60, cycle.doorLimitC - 10, cycle.doorLimitC, cycle.doorLimitC + 40, cycle.setPointMaxC];
  for (let minute = 0; minute < minutes; minute++)
    for (const chamberC of found[minute]!) {
      note(minute + 1, chamberAfterIdle(cycle, ROOM_C, chamberC, 1));
      note(minute + 1, chamberAfterVent(cycle, ROOM_C, chamberC, 1));
      for (const setPointC of setPoints) {
        const run = emptyFiring(cycle, ROOM_C, chamberC, setPointC, 0);
        if (run !== undefined) note(minute + Math.max(1, run.minutes), run.chamberAtDoneC);
      }
    }
  return found;
}

function hottestDoorC(cycle: ThermalCycle, chambersC: ReadonlySet<number>): number {
  return Math.max(-Infinity, ...[...chambersC].filter((chamberC) => chamberC <= cycle.doorLimitC));
}

describe("the first doors after a clean burn", () => {
  it("open on no hotter a chamber than said, and on that one", () => {
    let told = 0;
    fc.assert(
      fc.property(anyCycle, fc.integer({ min: 0, max: 50 }), (cycle, burntAt) => {
        const first = firstDoors(cycle, ROOM_C, BURNT_C, burntAt);
        if (first === undefined || first.before - burntAt > 17) return;
        told++;
        const chambers = chambersAfter(cycle, first.before - burntAt - 1).map((one) => hottestDoorC(cycle, one));
        expect(chambers.slice(0, first.from - burntAt)).toEqual(Array(first.from - burntAt).fill(-Infinity));
        expect(Math.max(...chambers)).toBeCloseTo(first.hotC, 3);
      }),
      { numRuns: 400, seed: 11 },
    );
    expect(told).toBeGreaterThan(30);
  });

  it("may be followed by one on a chamber at its limit, after a pre-heat or minutes without the fan", () => {
    const first = firstDoors(demoCycle, ROOM_C, BURNT_C, 10.4)!;
    expect(first).toMatchObject({ from: 28, before: 30 });
    expect(first.hotC).toBeCloseTo(chamberAfterVent(demoCycle, ROOM_C, BURNT_C, 17), 9);
  });

  it("do not take a chamber a hair above the limit for one that may open", () => {
    const cycle: ThermalCycle = {
      ...demoCycle,
      heatCapacityKJPerK: 130,
      wallLossWPerK: 13,
      exhaustWPerK: 26,
      coastExhaustWPerK: 110,
      purgeMinutes: 3,
      doorLimitC: 200,
    };
    const roomC = 21;
    // 14 minutes of the fan and one without it leave it a fifth of a kelvin too hot.
    const cooledC = chamberAfterIdle(cycle, roomC, chamberAfterVent(cycle, roomC, BURNT_C, 14), 1);
    expect(cooledC).toBeGreaterThan(cycle.doorLimitC);
    expect(cooledC).toBeLessThan(cycle.doorLimitC + 0.5);
    expect(firstDoors(cycle, roomC, BURNT_C, 97)).toMatchObject({ from: 112, before: 113 });
  });

  it("are not told where the purge cools faster than the fan, where the fan does nothing, and where the door opens hot", () => {
    expect(firstDoors({ ...demoCycle, exhaustWPerK: 91 }, ROOM_C, BURNT_C, 0)).toBeUndefined();
    const without = { ...demoCycle, exhaustWPerK: 0, coastExhaustWPerK: 0, wallLossWPerK: 0 };
    expect(firstDoors(without, ROOM_C, BURNT_C, 0)).toBeUndefined();
    expect(firstDoors({ ...demoCycle, doorLimitC: 420 }, ROOM_C, BURNT_C, 0)).toBeUndefined();
  });
});
