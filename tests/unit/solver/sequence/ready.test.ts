/** What careful hand and building by rank go by: the same minutes as bench and booth make when they are free. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import { firstFreeOven, leadMinutes, readyFor } from "../../../../solver/sequence/ready.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { areaLine, fixedCoat, fixedOven, smallRequest } from "../../../help/requests.ts";

const coats = [
  fixedCoat({ sprayMinutes: 4, flashMinutes: 10 }),
  // Nothing is sprayed, so nothing flashes off.
  fixedCoat({ flashMinutes: 9 }),
];
const lines = [
  areaLine("bare", { prepMinutes: 7, readyMinute: 3 }),
  areaLine("sprayed", { sprayed: true }),
  areaLine("big", { shape: { kind: "area", dm2: 30 } }),
];
const ovens = [fixedOven(), fixedOven({ id: "large", space: { kind: "area", dm2: 40 } })];
const day = dayModel(smallRequest({ coatings: [{ id: "two", name: "two", coats }], lines, ovens }));
const timetable = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K);

describe("a bake that waits for a free bench and booth", () => {
  it.each([0, 2])("is ready for the door when the timetable opens it: bake %s", (bake) => {
    const state = timetable.startState();
    const ready = readyFor(day, state, bake);
    expect(timetable.place(state, newLoad(1, [bake]), { haste: 1, heatCredit: 0 })!.slot.doorOpens).toBe(ready);
    const next = readyFor(day, state, bake + 1);
    expect(timetable.place(state, newLoad(1, [bake + 1]), { haste: 1, heatCredit: 0 })!.slot.doorOpens).toBe(next);
  });

  it("takes bench work before its first coat only, and no booth where nothing is sprayed", () => {
    expect([0, 1, 2, 3].map((bake) => leadMinutes(day, bake))).toEqual([21, 0, 0, 0]);
  });

  it("goes into the first free oven that takes it, and into none that does not", () => {
    const state = timetable.startState();
    state.ovenFree[0] = 5;
    state.ovenFree[1] = 30;
    const kindOf = (bake: number): number => day.bakes[bake]!.kind;
    expect(firstFreeOven(timetable.book, state, kindOf(0))).toBe(0);
    expect(firstFreeOven(timetable.book, state, kindOf(4))).toBe(1);
    state.ovenFree[1] = 4;
    expect(firstFreeOven(timetable.book, state, kindOf(0))).toBe(1);
    const small = new RecipeBook(dayModel(smallRequest({ lines: [lines[2]!] })), 0);
    expect(firstFreeOven(small, state, 0)).toBeUndefined();
  });
});
