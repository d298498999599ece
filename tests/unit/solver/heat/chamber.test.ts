import { describe, expect, test } from "vitest";
import {
  chamberAfterDoor,
  chamberAfterIdle,
  chamberAfterVent,
  minutesToFall,
} from "../../../../solver/heat/chamber.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import { airOven } from "../../../help/held-air.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

describe("a chamber with its burner off", () => {
  test("shut, it falls by wall loss alone: 120 kJ/K over 8 W/K is a time constant of 250 min", () => {
    expect(chamberAfterIdle(demoCycle, 20, 220, 250)).toBeCloseTo(20 + 200 / Math.E, 9);
  });

  test("with the fan on, wall and exhaust together take 98 W/K: a time constant of 20.41 min", () => {
    expect(chamberAfterVent(demoCycle, 20, 220, 120_000 / 98 / 60)).toBeCloseTo(20 + 200 / Math.E, 9);
  });

  test("with the door open it falls with the door's own time constant", () => {
    expect(chamberAfterDoor(demoCycle, 20, 220, 9)).toBeCloseTo(20 + 200 / Math.E, 9);
    expect(chamberAfterDoor(demoCycle, 20, 220, 0)).toBe(220);
  });

  test("is down by as many minutes as it takes to fall there, and never below the room", () => {
    const fall = { fromC: 220, toC: 20 + 200 / Math.E };
    expect(minutesToFall(demoCycle, 20, { ...fall, lossWPerK: 8 })).toBeCloseTo(250, 9);
    expect(minutesToFall(demoCycle, 20, { ...fall, lossWPerK: 98 })).toBeCloseTo(120_000 / 98 / 60, 9);
    expect(minutesToFall(demoCycle, 20, { fromC: 90, toC: 90, lossWPerK: 0 })).toBe(0);
    expect(minutesToFall(demoCycle, 20, { ...fall, lossWPerK: 0 })).toBe(Infinity);
    expect(minutesToFall(demoCycle, 20, { fromC: 90, toC: 20, lossWPerK: 8 })).toBe(Infinity);
  });

  test("one that lost nothing stays", () => {
    expect(chamberAfterIdle({ ...demoCycle, wallLossWPerK: 0 }, 20, 300, 600)).toBe(300);
  });
});

describe("an empty firing", () => {
  test("heats by the exponential of full fire", () => {
    // 30 kW over 38 W/K would end at 789.47 K above the room; 400 K take C/(U+G)·ln(789.47/389.47) = 52.632·0.70653 min.
    const firing = emptyFiring(demoCycle, 20, 20, 420, 20)!;
    expect(firing.setPointAtMinutes).toBeCloseTo(4 + 37.186, 2);
    expect(firing.minutes).toBe(62);
    expect(firing.chamberAtDoneC).toBe(420);
    const held = 62 - firing.setPointAtMinutes!;
    const kWh = (30 * (firing.setPointAtMinutes! - 4) + 0.038 * 400 * held) / 60 / 0.75;
    expect(firing.gasKWh).toBeCloseTo(kWh, 9);
  });

  test("takes no heat while the chamber is above the set-point, and its hold counts from the purge's end", () => {
    const firing = emptyFiring(demoCycle, 20, 400, 250, 10)!;
    expect(firing.setPointAtMinutes).toBeNull();
    expect(firing.minutes).toBe(14);
    expect(firing.gasKWh).toBe(0);
    expect(firing.chamberAtDoneC).toBeCloseTo(
      chamberAfterVent({ ...demoCycle, coastExhaustWPerK: 30 }, 20, 400, 14),
      9,
    );
  });

  test("fires again once such a chamber has fallen to the set-point", () => {
    const firing = emptyFiring({ ...demoCycle, purgeMinutes: 0 }, 20, 260, 250, 30)!;
    expect(firing.minutes).toBe(30);
    expect(firing.chamberAtDoneC).toBe(250);
    // It falls from 260 to 250 °C in 52.632·ln(240/230) = 2.240 min, then takes 8.74 kW until minute 30.
    expect(firing.gasKWh).toBeCloseTo((0.038 * 230 * (30 - 2.24)) / 60 / 0.75, 3);
  });

  test("heats at the burner's own pace where next to nothing is lost: 30 kW take 26.667 min for 400 K of 120 kJ/K", () => {
    for (const exhaustWPerK of [0, 1e-300, 1e-15, 1e-6]) {
      const firing = emptyFiring({ ...demoCycle, wallLossWPerK: 0, exhaustWPerK }, 20, 20, 420, 0)!;
      expect(firing.setPointAtMinutes).toBeCloseTo(4 + 26.6667, 3);
    }
  });

  test("is refused where the burner cannot reach the set-point, or cannot hold it", () => {
    const weak = { ...demoCycle, burnerKW: 15 };
    expect(emptyFiring(weak, 20, 20, 420, 0)).toBeUndefined();
    expect(emptyFiring(weak, 20, 430, 420, 60)).toBeUndefined();
  });

  test("needs no wall loss to have an answer", () => {
    const lossless = { ...demoCycle, wallLossWPerK: 0, exhaustWPerK: 0 };
    // 120 kJ/K · 300 K at 30 kW: 20 min.
    expect(emptyFiring(lossless, 20, 20, 320, 0)).toMatchObject({ setPointAtMinutes: 24, minutes: 24 });
    expect(emptyFiring(lossless, 20, 350, 320, 15)).toMatchObject({ minutes: 19, gasKWh: 0, chamberAtDoneC: 350 });
  });

  test("holding against a slab's loss costs what the textbook says (Çengel, Heat Transfer, example 1-5)", () => {
    // 6 × 8 m, 0.25 m thick, k 0.8 W/mK, 15 °C against 4 °C for 10 h: 1689.6 W, 16.896 kWh.
    const room = { ...airOven(1), wallLossWPerK: (0.8 * 48) / 0.25 };
    expect(emptyFiring(room, 4, 15, 15, 600)!.gasKWh).toBeCloseTo(16.896, 6);
  });

  test("the meter reads heat over efficiency: 25 kWh at 40 % are 62.5 kWh of gas", () => {
    // Definition of efficiency as heat in the product over heat supplied (common textbook definition).
    const oven = { ...airOven(1), efficiency: 0.4, wallLossWPerK: 100 };
    expect(emptyFiring(oven, 20, 270, 270, 60)!.gasKWh).toBeCloseTo(62.5, 9);
  });
});
