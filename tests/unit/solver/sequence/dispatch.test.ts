/** Sequences built in the order of time, and the search over what ranks first. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Dispatcher } from "../../../../solver/sequence/dispatch.ts";
import type { Keys } from "../../../../solver/sequence/dispatch-keys.ts";
import { ALONE, changed, firstKeys, groupsOf } from "../../../../solver/sequence/dispatch-keys.ts";
import { dispatchSearch } from "../../../../solver/sequence/dispatch-search.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

const NONE: Sequence = { haste: 1, heatCredit: 0, loads: [] };

function dispatcherOf(request: PlanRequest): Dispatcher {
  return new Dispatcher(new Timetable(closeBook(dayModel(request), 0), SEARCH_BUCKET_K));
}

/** Keys that rank groups as they stand, wait for nothing, and let all join. */
function plainKeys({ groups }: Dispatcher, over: Partial<Record<keyof Keys, readonly number[]>> = {}): Keys {
  const each = (list: readonly number[] | undefined): Int32Array =>
    list === undefined ? new Int32Array(groups.length) : Int32Array.from(list);
  return {
    haste: 1,
    heatCredit: 0,
    rank: Int32Array.from(over.rank ?? groups.keys()),
    joinMinutes: each(over.joinMinutes),
    openMinutes: each(over.openMinutes),
    closely: Uint8Array.from(each(over.closely)),
  };
}

function loadsOf(dispatcher: Dispatcher, keys: Keys): (readonly number[])[] {
  return dispatcher.build(keys)!.sequence.loads.map(({ bakes }) => bakes);
}

describe("a sequence built in the order of time", () => {
  // Loads of two pans at most, 40 minutes each; B is ready a quarter of an hour after A and C.
  const late = { readyMinute: 15 };
  const dispatcher = dispatcherOf(smallRequest({ lines: [areaLine("A"), areaLine("B", late), areaLine("C")] }));

  it("fills a load with what is ready, by rank", () => {
    expect(loadsOf(dispatcher, plainKeys(dispatcher))).toEqual([[0, 2], [1]]);
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { rank: [1, 2, 0] }))).toEqual([[2, 0], [1]]);
  });

  it("lets a load wait for a group that may join it that much later, and no longer", () => {
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { joinMinutes: [0, 15, 0] }))).toEqual([[0, 1], [2]]);
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { joinMinutes: [0, 14, 0] }))).toEqual([[0, 2], [1]]);
  });

  it("lets the oven idle for a group of first rank that may open that much later, and no longer", () => {
    const rank = [1, 0, 2];
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { rank, openMinutes: [0, 15, 0] }))).toEqual([[1, 0], [2]]);
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { rank, openMinutes: [0, 14, 0] }))).toEqual([[0, 2], [1]]);
  });

  it("keeps a group that stands alone from the loads of others, and others from its own", () => {
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { joinMinutes: [ALONE, 0, 0] }))).toEqual([[0], [1, 2]]);
    expect(loadsOf(dispatcher, plainKeys(dispatcher, { joinMinutes: [0, 0, ALONE] }))).toEqual([[0], [1], [2]]);
  });

  it("leaves over what no oven bakes or no staffed time takes, and fires the rest", () => {
    const big = areaLine("big", { shape: { kind: "area", dm2: 30 } });
    const short = dispatcherOf(
      smallRequest({ staffed: [{ from: 0, to: 50 }], lines: [big, areaLine("A", { quantity: 3 })] }),
    );
    const built = short.build(plainKeys(short))!;
    expect(built.sequence.loads.map(({ bakes }) => bakes)).toEqual([[1, 2]]);
    // 12 kW for 30 minutes at 0.1, a crew of 6 an hour for 40 minutes, two pans left over.
    expect(built.cost).toBeCloseTo(0.6 + 4 + 200, 9);
  });

  it("ends early once its cost is sure to exceed the cutoff", () => {
    const { cost } = dispatcher.build(plainKeys(dispatcher))!;
    expect(dispatcher.build(plainKeys(dispatcher), cost)?.cost).toBe(cost);
    expect(dispatcher.build(plainKeys(dispatcher), cost / 2)).toBeUndefined();
  });
});

describe("groups that rank together", () => {
  it("are alike bakes of a ticket on one step, told apart by when they come ready", () => {
    const coats = [fixedCoat({ sprayMinutes: 4, flashMinutes: 10 }), fixedCoat()];
    const lines = [
      areaLine("A1", { ticket: "A", quantity: 2, prepMinutes: 7 }),
      areaLine("A2", { ticket: "A", prepMinutes: 7 }),
      areaLine("A3", { ticket: "A", prepMinutes: 7, readyMinute: 30 }),
      areaLine("A4", { ticket: "A", sprayed: true }),
    ];
    const day = dayModel(smallRequest({ coatings: [{ id: "two", name: "two", coats }], lines }));
    const told = groupsOf(day).map(({ step, bakes, leadMinutes }) => [step, bakes.length, leadMinutes]);
    expect(told).toEqual([
      [0, 3, 21],
      [1, 4, 0],
      [0, 1, 21],
      [1, 1, 0],
      [0, 1, 0],
    ]);
  });

  it("start by promise, by promise and price, and in the order of a known sequence", () => {
    const lines = [
      areaLine("none"),
      areaLine("late", { promisedMinute: 300, latePerHour: 90 }),
      areaLine("soon", { promisedMinute: 40, latePerHour: 1 }),
    ];
    const dispatcher = dispatcherOf(smallRequest({ lines }));
    const { day } = dispatcher.timetable;
    const known = { ...NONE, loads: carefulHand(dispatcher.timetable) };
    const ranks = firstKeys(day, dispatcher.groups, known).map(({ rank }) => [...rank]);
    expect(ranks.slice(0, 2)).toEqual([
      [2, 1, 0],
      [2, 0, 1],
    ]);
    const first = known.loads[0]!.bakes;
    for (const [at, { bakes }] of dispatcher.groups.entries())
      if (!first.includes(bakes[0]!)) expect(ranks[2]![at]).toBe(2);
  });

  it("keep ranks from 0, each once, through any changes", () => {
    const dispatcher = dispatcherOf(
      requestOf(generatedDay({ pans: 12, ovens: 1, door: "hot", pace: "calm", seed: 3, sprayers: 1 })),
    );
    const random = seededRandom(7);
    let [keys] = firstKeys(dispatcher.timetable.day, dispatcher.groups, NONE);
    for (let round = 0; round < 500; round++) {
      keys = changed(keys!, dispatcher.groups, dispatcher.looksCloser, random);
      expect([...keys.rank].toSorted((a, b) => a - b)).toEqual([...dispatcher.groups.keys()]);
    }
  });
});

describe("loads that need a closer look", () => {
  const request = requestOf(generatedDay({ pans: 40, ovens: 1, door: "hot", pace: "calm", seed: 1, sprayers: 1 }));
  const dispatcher = dispatcherOf(request);
  const { groups } = dispatcher;
  const joining = plainKeys(dispatcher, { joinMinutes: groups.map(() => 80) });

  it("are made where the opening group asks for one, so that fewer loads do", () => {
    const plain = dispatcher.build(joining)!.sequence.loads;
    const close = dispatcher.build({ ...joining, closely: new Uint8Array(groups.length).fill(1) })!.sequence.loads;
    const { book } = dispatcher.timetable;
    const needed = (loads: typeof plain): number =>
      loads.filter(({ oven, bakes }) => {
        const kinds = bakes.map((bake) => dispatcher.timetable.day.bakes[bake]!.kind).toSorted((a, b) => a - b);
        return book.plain.recipe(oven, kinds) === undefined;
      }).length;
    expect(needed(plain)).toBe(0);
    expect(needed(close)).toBeGreaterThan(0);
    expect(close.length).toBeLessThan(plain.length);
  });

  it("are asked for by changes of the keys only where there is a closer look to take", () => {
    const random = seededRandom(5);
    const flips = (looksCloser: boolean): number => {
      let keys = joining;
      for (let round = 0; round < 300; round++) keys = changed(keys, groups, looksCloser, random);
      return keys.closely.reduce((sum, one) => sum + one, 0);
    };
    expect(dispatcher.looksCloser).toBe(true);
    expect(new Dispatcher(dispatcher.timetable, false).looksCloser).toBe(false);
    expect(flips(true)).toBeGreaterThan(3);
    expect(flips(false)).toBe(0);
  });
});

describe.each([
  { pans: 24, ovens: 1, door: "hot", pace: "overloaded", seed: 2 },
  { pans: 24, ovens: 2, door: "cold", pace: "calm", seed: 5 },
] as const)("on a day of $pans pans in $ovens ovens, $door and $pace", (made) => {
  const request = requestOf(generatedDay({ ...made, sprayers: 1 }));

  it("costs what the timetable makes of its loads, and the same whatever was built before", () => {
    const walking = dispatcherOf(request);
    const evaluator = new Evaluator(walking.timetable);
    const fresh = new Dispatcher(walking.timetable);
    const random = seededRandom(1);
    let keys = firstKeys(walking.timetable.day, walking.groups, NONE)[0]!;
    walking.accept(walking.build(keys)!);
    for (let round = 0; round < 60; round++) {
      const next = changed(keys, walking.groups, walking.looksCloser, random);
      const built = walking.build(next)!;
      const alone = fresh.build(next)!;
      expect(built.sequence).toEqual(alone.sequence);
      expect(built.cost).toBe(alone.cost);
      expect(evaluator.cost(built.sequence)).toBeCloseTo(built.cost, 6);
      if (round % 2 === 1) continue;
      walking.accept(built);
      keys = next;
    }
  });

  it("is bettered by the search, the same for the same seed and steps, within them", () => {
    const found = (builds: number): { costs: number[]; sequence: Sequence; built: number } => {
      const dispatcher = dispatcherOf(request);
      const evaluator = new Evaluator(dispatcher.timetable);
      const known: Sequence = { ...PLAIN_TASTE, loads: carefulHand(dispatcher.timetable) };
      const spent = (): boolean => dispatcher.built >= builds;
      const costs: number[] = [];
      let sequence: Sequence = known;
      for (const better of dispatchSearch(dispatcher, known, seededRandom(4), spent))
        if (better !== undefined) costs.push(evaluator.cost((sequence = better)));
      return { costs, sequence, built: dispatcher.built };
    };
    const once = found(600);
    expect(once.built).toBeLessThanOrEqual(601);
    expect(once.costs).toEqual(once.costs.toSorted((a, b) => b - a));
    expect(once.costs.at(-1)!).toBeLessThan(once.costs[0]!);
    expect(found(600)).toEqual(once);
    expect(found(0)).toMatchObject({ costs: [], built: 0 });
  });
});
