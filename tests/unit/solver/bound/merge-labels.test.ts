/** Two labels taken for one, by hand. */
import { describe, expect, it } from "vitest";
import { COARSE } from "../../../../solver/bound/grain.ts";
import type { HandsAtWork } from "../../../../solver/bound/busy.ts";
import type { Label } from "../../../../solver/bound/label.ts";
import { LoadSets } from "../../../../solver/bound/load-sets.ts";
import { loneTables } from "../../../../solver/bound/lone-tables.ts";
import { bestOfBoth, distance } from "../../../../solver/bound/merge-labels.ts";
import { rootOf } from "../../../../solver/bound/proof-root.ts";
import { proofTask } from "../../../../solver/bound/proof-task.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const day = dayModel(requestOf(generatedDay({ pans: 3, ovens: 1, door: "hot", pace: "calm", seed: 12 })));
const start = new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K).startState();
const sets = new LoadSets(day, COARSE);
const task = proofTask({ sets, ...loneTables(sets, start.ovenChamberC) }, start, [0, 1, 2]);
const root = rootOf(task, Uint8Array.of(1, 1, 1), {
  ticketBase: Float64Array.from(start.ticketReady),
  leastFinish: () => -Infinity,
});
const hands: HandsAtWork = { hands: 1, changeoverMinutes: 0, freeChangeovers: 0, clock: task.clock, breaks: false };
const shop = { task, booth: hands, bench: hands };
/** One spray task each as busy.ts has them: head, minutes, paint, flash, tail. */
const early = [10, 5, 0, 2, 0];
const late = [20, 5, 0, 2, 0];

const label = (own: Partial<Label>): Label => ({
  root,
  before: undefined,
  set: undefined,
  members: [],
  floor: 0,
  gasCost: 3,
  lastOpen: -Infinity,
  notBefore: -Infinity,
  lastDone: 100,
  steps: Uint8Array.of(1, 0, 0),
  release: Float64Array.of(110, 5, 6),
  rest: Float64Array.of(9, 0, 0),
  free: Float64Array.of(100),
  hotC: Float64Array.of(200),
  coolC: Float64Array.of(180),
  soiled: Uint8Array.of(0),
  sprays: [],
  preps: [],
  owed: [],
  owedPreps: [],
  dead: false,
  followed: false,
  rough: undefined,
  ...own,
});

describe("two labels taken for one", () => {
  it("are as far apart as what differs most, a thousandth of the day's cost, a minute, 4 K or 12 K", () => {
    const one = label({});
    const far = (own: Partial<Label>): number => distance(one, label(own), 1000, 10);
    expect(far({})).toBe(0);
    expect(far({ gasCost: 5 })).toBe(2);
    expect(far({ lastDone: 103 })).toBe(3);
    expect(far({ release: Float64Array.of(110, 5, 2) })).toBe(4);
    expect(far({ free: Float64Array.of(95) })).toBe(5);
    expect(far({ hotC: Float64Array.of(224) })).toBe(6);
    expect(far({ coolC: Float64Array.of(96) })).toBe(7);
    expect(far({ gasCost: 5, lastDone: 103 })).toBe(3);
    expect(far({ lastDone: 110 })).toBe(Infinity);
  });

  it("have the best of both in everything", () => {
    const one = label({ gasCost: 3, lastDone: 104, hotC: Float64Array.of(200), sprays: early });
    const other = label({
      gasCost: 4,
      release: Float64Array.of(112, 4, 7),
      rest: Float64Array.of(0, 0, 0),
      free: Float64Array.of(98),
      hotC: Float64Array.of(210),
      coolC: Float64Array.of(190),
      sprays: late,
    });
    const both = bestOfBoth(shop, one, other)!;
    expect(both).toMatchObject({ gasCost: 3, lastDone: 100, lastOpen: -Infinity });
    expect([...both.release]).toEqual([110, 4, 6]);
    expect([...both.rest]).toEqual([0, 0, 0]);
    expect([both.free[0], both.hotC[0], both.coolC[0]]).toEqual([98, 210, 180]);
    // The same work from an earlier head on keeps the booth no longer.
    expect(both.sprays).toBe(early);
    expect(bestOfBoth(shop, other, one)).toMatchObject({ gasCost: 3, sprays: early });
  });

  it("are not taken for one where neither's booth is lighter, or where only one chamber stays hot", () => {
    const longer = [10, 6, 0, 2, 0];
    expect(bestOfBoth(shop, label({ sprays: longer }), label({ sprays: late }))).toBeUndefined();
    const unused = label({ free: Float64Array.of(start.ovenFree[0]!) });
    expect(bestOfBoth(shop, label({}), unused)).toBeUndefined();
  });
});
