import { describe, expect, it } from "vitest";
import { interruptionOf, outcomeNotes } from "../../../../api/events/interrupted.ts";
import { checkedPlan } from "../../../help/checked-plan.ts";
import { hurriedDay } from "../../../help/odd-days.ts";

/** A top coat from 380 °C on that need not soak. */
const day = hurriedDay(31);
const load = checkedPlan(day, 400).file.loads.find(({ kind }) => kind === "bake")!;
const MINUTE = 60_000;

describe("a firing cut short, of a coat that need not soak", () => {
  it("has it baked again where its metal never got there, and inspected where it did", () => {
    const lit = Date.parse(load.burnerOnAt!);
    const early = interruptionOf(day, load, lit + 5 * MINUTE)!.told.pans;
    expect(early.map(({ advice }) => advice)).toEqual(load.pans.map(() => "bake again"));
    for (const { peakC } of early) expect(peakC).toBeLessThan(380);
    const whole = interruptionOf(day, load, Date.parse(load.unloadAt))!.told.pans;
    expect(whole.map(({ advice }) => advice)).toEqual(load.pans.map(() => "inspect"));
  });

  it("is told of where it was unloaded before its metal got there", () => {
    const burnerOffAt = new Date(Date.parse(load.burnerOnAt!) + 5 * MINUTE).toISOString();
    expect(outcomeNotes(day, { ...load, burnerOffAt, unloadAt: burnerOffAt })).toHaveLength(load.pans.length);
    expect(outcomeNotes(day, load)).toEqual([]);
  });
});
