import { describe, expect, it } from "vitest";
import type { DayModel } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { placeAll } from "../../../../solver/sequence/lp-placed.ts";
import { LoadPool } from "../../../../solver/sequence/lp-pool.ts";
import { reassign } from "../../../../solver/sequence/lp-reassign.ts";
import { retime } from "../../../../solver/sequence/lp-retime.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const timetableOf = (day: DayModel): Timetable => new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K);
const sequenceOf = (loads: readonly (readonly number[])[]): Sequence => ({
  haste: 1,
  heatCredit: 0.25,
  loads: loads.map((bakes) => newLoad(0, bakes)),
});
const bakesOf = (loads: Sequence["loads"]): number[][] => loads.map(({ bakes }) => bakes.toSorted((a, b) => a - b));

/** Two loads of two pans (each cycle 5 + 30 + 5 min). A and B are promised by minute 40, the end of the first load. */
const rush = { promisedMinute: 40, latePerHour: 60 };
const four = dayModel(
  smallRequest({ lines: [areaLine("A", rush), areaLine("B", rush), areaLine("C"), areaLine("D")] }),
);

describe("pans dealt out anew", () => {
  it("puts both rush pans into the first load in one go, where any single swap leaves one of them late", () => {
    const timetable = timetableOf(four);
    const evaluator = new Evaluator(timetable);
    const wrong = sequenceOf([
      [2, 3],
      [0, 1],
    ]);
    const dealt = reassign(timetable, createLp(), wrong, placeAll(timetable, wrong), [0, 1])!;
    expect(dealt.open).toEqual([]);
    expect(bakesOf(dealt.loads)).toEqual([
      [0, 1],
      [2, 3],
    ]);
    // Two pans 40 min late at 60 an hour each: 80 saved, gas and crew as before.
    const saved = evaluator.cost(wrong) - evaluator.cost({ ...wrong, loads: dealt.loads });
    expect(saved).toBeCloseTo(80, 9);
  });

  it("leaves pans that stand well where they are", () => {
    const timetable = timetableOf(four);
    const right = sequenceOf([
      [0, 1],
      [2, 3],
    ]);
    expect(reassign(timetable, createLp(), right, placeAll(timetable, right), [0, 1])).toBeUndefined();
  });
});

describe("doors moved", () => {
  it("takes back a wait that makes a pan late", () => {
    const timetable = timetableOf(four);
    const evaluator = new Evaluator(timetable);
    const plain = sequenceOf([
      [0, 1],
      [2, 3],
    ]);
    const waiting = { ...plain, loads: plain.loads.map((load, at) => ({ ...load, delayMinutes: at === 0 ? 30 : 0 })) };
    const timed = retime(timetable, createLp(), waiting, 60)!;
    expect(timed.loads.map(({ delayMinutes }) => delayMinutes)).toEqual([0, 0]);
    // 30 min late for two pans at 60 an hour each, and the crew 30 min longer at 6 an hour.
    expect(evaluator.cost(waiting) - evaluator.cost(timed)).toBeCloseTo(63, 9);
  });

  it("has nothing to say where no door gains by moving", () => {
    const timetable = timetableOf(four);
    expect(
      retime(
        timetable,
        createLp(),
        sequenceOf([
          [0, 1],
          [2, 3],
        ]),
        60,
      ),
    ).toBeUndefined();
  });
});

describe("choice among the loads met", () => {
  it("joins the full loads of two half-good sequences", () => {
    const timetable = timetableOf(four);
    const pool = new LoadPool(timetable);
    // Each has one full load and two half-empty ones; the full ones of both make the day in two cycles of three.
    pool.add(placeAll(timetable, sequenceOf([[0, 1], [2], [3]])));
    pool.add(placeAll(timetable, sequenceOf([[0], [1], [2, 3]])));
    expect(pool.usable).toBe(true);
    const choice = pool.choose(createLp())!;
    expect(choice.open).toEqual([]);
    expect(bakesOf(choice.loads)).toEqual([
      [0, 1],
      [2, 3],
    ]);
  });

  it("deals the coats of alike pans so that no load takes two coats of one pan", () => {
    const coats = [fixedCoat({ name: "primer" }), fixedCoat({ name: "top coat" })];
    const coatings = [{ id: "two-coat", name: "two coats", coats }];
    const day = dayModel(smallRequest({ coatings, lines: [areaLine("A", { quantity: 3 })] }));
    const timetable = timetableOf(day);
    const pool = new LoadPool(timetable);
    // Bakes in pairs of primer and top coat: 0 1, 2 3, 4 5.
    const met = sequenceOf([
      [0, 2],
      [1, 4],
      [3, 5],
    ]);
    pool.add(placeAll(timetable, met));
    const choice = pool.choose(createLp())!;
    expect(choice.open).toEqual([]);
    expect(new Evaluator(timetable).cost({ ...met, loads: choice.loads })).toBeCloseTo(
      new Evaluator(timetable).cost(met),
      9,
    );
  });

  it("offers nothing while a pan stands in no load met", () => {
    const timetable = timetableOf(four);
    const pool = new LoadPool(timetable);
    pool.add(placeAll(timetable, sequenceOf([[0, 1], [2]])));
    expect(pool.choose(createLp())).toBeUndefined();
  });
});
