/** A preheat as the proof pays it: no legal one takes less gas, and it is the legal one itself but for a hair. */
import { describe, expect, it } from "vitest";
import { atFirst, cooledBy, hottestAt, preheatsAttended, preheatTo } from "../../../../solver/bound/oven-start.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import { chamberAfterIdle, chamberAfterVent } from "../../../../solver/heat/chamber.ts";
import { ShopState } from "../../../../solver/sequence/shop-state.ts";
import { StaffedTime } from "../../../../solver/sequence/staffed-time.ts";
import { chance } from "../../../help/day-chance.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const AMBIENT_C = 20;
const OPEN = 240;

describe("a preheat that ends as the door opens", () => {
  const dice = chance(4);
  const draws = Array.from({ length: 200 }, () => {
    const hotC = dice.whole(AMBIENT_C, 300);
    const targetC = hotC + dice.whole(10, 100);
    return { hotC, targetC, free: OPEN - dice.whole(30, 200) };
  });

  it.each([false, true])(
    "costs no less gas begun at any minute on a chamber that was no hotter (stays hot: %s)",
    (keepsHot) => {
      let near = 0;
      for (const { hotC, targetC, free } of draws) {
        const shut = { free, hotC, coolC: hotC, keepsHot, shutMinutes: 0, gasKWh: 0 };
        const paid = preheatTo(demoCycle, AMBIENT_C, shut, OPEN, { targetC, isWhole: true })!;
        expect(paid.open).toBe(OPEN);
        for (let from = free; from < OPEN; from++) {
          const startC = keepsHot ? hotC : chamberAfterIdle(demoCycle, AMBIENT_C, hotC, from - free);
          const legal = emptyFiring(demoCycle, AMBIENT_C, startC, targetC, 0)!;
          if (from + legal.minutes !== OPEN) continue;
          expect(paid.gasKWh).toBeLessThanOrEqual(legal.gasKWh);
          if (paid.gasKWh > 0.94 * legal.gasKWh) near++;
        }
      }
      expect(near).toBeGreaterThan(draws.length / 2);
    },
  );

  it("costs no less gas where the oven has stood shut so long before in any case, whatever minute that began", () => {
    let dearer = 0;
    for (const { hotC, targetC, free } of draws) {
      const shutMinutes = OPEN - free;
      const shut = { free: 0, hotC, coolC: hotC, keepsHot: true, shutMinutes, gasKWh: 0 };
      const asked = { targetC, isWhole: true };
      const paid = preheatTo(demoCycle, AMBIENT_C, shut, OPEN, asked)!.gasKWh;
      const kept = preheatTo(demoCycle, AMBIENT_C, { ...shut, shutMinutes: 0 }, OPEN, asked)!.gasKWh;
      if (paid > 1.01 * kept) dearer++;
      for (let from = free; from < OPEN; from++) {
        const startC = chamberAfterIdle(demoCycle, AMBIENT_C, hotC, from - free);
        const legal = emptyFiring(demoCycle, AMBIENT_C, startC, targetC, 0)!;
        if (from + legal.minutes === OPEN) expect(paid).toBeLessThanOrEqual(legal.gasKWh);
      }
    }
    expect(dearer).toBeGreaterThan(draws.length / 2);
  });

  it("costs no more than one that ended sooner on any set-point, from which the chamber is down to the same by then", () => {
    const step = demoCycle.setPointStepC;
    let sooner = 0;
    for (const { hotC, targetC, free } of draws.slice(0, 60)) {
      const shut = { free, hotC, coolC: hotC, keepsHot: false, shutMinutes: 0, gasKWh: 0 };
      const paid = preheatTo(demoCycle, AMBIENT_C, shut, OPEN, { targetC, isWhole: true })!.gasKWh;
      for (let setPointC = targetC; setPointC <= targetC + 80; setPointC += step)
        for (let from = free; from < OPEN; from++) {
          const startC = chamberAfterIdle(demoCycle, AMBIENT_C, hotC, from - free);
          const legal = emptyFiring(demoCycle, AMBIENT_C, startC, setPointC, 0);
          if (legal === undefined || from + legal.minutes > OPEN) continue;
          const done = from + legal.minutes;
          const metC = chamberAfterIdle(demoCycle, AMBIENT_C, legal.chamberAtDoneC, OPEN - done);
          if (metC <= targetC - step || metC > targetC) continue;
          expect(paid, `${hotC} -> ${setPointC} from ${from}`).toBeLessThanOrEqual(legal.gasKWh);
          if (done < OPEN) sooner++;
        }
    }
    expect(sooner).toBeGreaterThan(500);
  });

  it("costs less by its fire alone, which need not end on a whole minute", () => {
    for (const { hotC, targetC, free } of draws) {
      const shut = { free, hotC, coolC: hotC, keepsHot: true, shutMinutes: 0, gasKWh: 0 };
      const [fire, whole] = [false, true].map(
        (isWhole) => preheatTo(demoCycle, AMBIENT_C, shut, OPEN, { targetC, isWhole })!.gasKWh,
      );
      expect(fire).toBeLessThan(whole!);
    }
  });
});

describe("a preheat that somebody must attend", () => {
  const dice = chance(7);

  it("costs no less gas in any legal way, in the door's interval or before the break", () => {
    const step = demoCycle.setPointStepC;
    const seen = { before: 0, later: 0, dearer: 0 };
    for (let draw = 0; draw < 40; draw++) {
      const hotC = dice.whole(AMBIENT_C, 200);
      const targetC = (Math.floor(hotC / step) + dice.whole(2, 8)) * step;
      const back = dice.whole(150, 200);
      const staffed = new StaffedTime([
        { from: 0, to: back - dice.whole(10, 40) },
        { from: back, to: 600 },
      ]);
      const door = back + dice.whole(0, 3);
      const shut = { free: dice.whole(40, 100), hotC, coolC: hotC, keepsHot: true, shutMinutes: 0, gasKWh: 0 };
      const target = { targetC, isWhole: true };
      const last = preheatTo(demoCycle, AMBIENT_C, shut, door, target)!;
      const told = preheatsAttended(demoCycle, AMBIENT_C, shut, last, target, staffed);
      const [before, after] = staffed.intervals;
      for (let from = shut.free; from < door + 40; from++)
        for (let setPointC = targetC; setPointC <= targetC + 60; setPointC += step) {
          const legal = emptyFiring(demoCycle, AMBIENT_C, hotC, setPointC, 0);
          if (legal === undefined) continue;
          const done = from + legal.minutes;
          if (done > before!.to && from < after!.from) continue;
          for (let opens = Math.max(door, done); opens <= Math.max(door, done) + 2; opens++) {
            const metC = chamberAfterIdle(demoCycle, AMBIENT_C, legal.chamberAtDoneC, opens - done);
            if (metC <= targetC - step) continue;
            const isCovered = told.some(({ open, gasKWh }) => open <= opens && gasKWh <= legal.gasKWh);
            expect(isCovered, `${hotC} -> ${setPointC} °C from ${from}, door at ${opens}`).toBe(true);
            if (done <= before!.to) seen.before++;
            else seen.later++;
          }
        }
      if (told.every(({ open, gasKWh }) => open > door || gasKWh > last.gasKWh)) seen.dearer++;
    }
    expect(seen.before).toBeGreaterThan(100);
    expect(seen.later).toBeGreaterThan(100);
    expect(seen.dearer).toBeGreaterThan(20);
  });
});

describe("the chamber that a door opens on", () => {
  const shut = { free: 100, hotC: 300, coolC: 300, gasKWh: 0 };
  const cycle = { ...demoCycle, doorLimitC: 450 };

  it("has cooled since the oven was shut, or for as long as that is sure where its load may be fired later", () => {
    const at = (keepsHot: boolean, shutMinutes: number): number =>
      hottestAt(cycle, AMBIENT_C, { ...shut, keepsHot, shutMinutes }, 160);
    // 8 W/K on 120 kJ/K: 280 K above the room fall by exp(−8·60·60/120 000) in an hour, by exp(−8·60·25/120 000) in 25 minutes.
    expect(at(false, 25)).toBeCloseTo(AMBIENT_C + 280 * Math.exp(-0.24), 9);
    expect(at(true, 25)).toBeCloseTo(AMBIENT_C + 280 * Math.exp(-0.1), 9);
    expect(at(true, 0)).toBe(300);
  });
});

describe("the oven that the first load meets", () => {
  const day = dayModel(requestOf(generatedDay({ seed: 37, pans: 4, ovens: 1, door: "cold", pace: "calm" })));
  const { ambientC, ovens } = day.request;
  const { cycle } = ovens[0]!;
  if (cycle.kind !== "thermal") throw new Error("a thermal oven only");
  const start = new ShopState(day);
  // Its last fact was over 55 minutes before the plan begins.
  start.ovenFree[0] = -55;
  start.ovenChamberC[0] = 180;

  it.each([0, 90])("has stood shut, or was vented, since its facts were over; out of use for %i minutes", (out) => {
    const outOfUse = { ...day, request: { ...day.request, ovens: [{ ...ovens[0]!, outUntilMinute: out }] } };
    const { free, hotC, coolC } = atFirst({ start, day: outOfUse }, 0);
    expect(free).toBe(out);
    expect(hotC).toBeCloseTo(chamberAfterIdle(cycle, ambientC, 180, 55 + out), 9);
    expect(coolC).toBeCloseTo(chamberAfterVent(cycle, ambientC, 180, 55 + out), 9);
  });
});

it("a chamber is cooled no later than by the purge of a pre-heat to less, where that cools faster than the fan", () => {
  const cycle = { ...demoCycle, exhaustWPerK: 200 };
  const shut = { free: 30, hotC: 400, coolC: 400, keepsHot: true, shutMinutes: 0, gasKWh: 0 };
  const purge = emptyFiring(cycle, AMBIENT_C, shut.hotC, 60, 0)!;
  expect(purge).toMatchObject({ minutes: cycle.purgeMinutes, gasKWh: 0 });
  expect(purge.chamberAtDoneC).toBeLessThan(chamberAfterVent(cycle, AMBIENT_C, shut.hotC, purge.minutes) - 30);
  expect(cooledBy(cycle, AMBIENT_C, shut, purge.chamberAtDoneC)).toBe(shut.free + purge.minutes);
});
