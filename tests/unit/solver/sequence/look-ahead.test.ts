/** Sequences whose loads are chosen by where they lead. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import type { Built } from "../../../../solver/sequence/dispatch.ts";
import { Dispatcher } from "../../../../solver/sequence/dispatch.ts";
import { dispatchSearch } from "../../../../solver/sequence/dispatch-search.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import type { Foresight } from "../../../../solver/sequence/look-ahead.ts";
import { foresightOf, LookAhead } from "../../../../solver/sequence/look-ahead.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { planFiring, stepBudget } from "../../../../solver/index.ts";
import { ownLine } from "../../../../solver/sequence/improvement.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { planOf, requestOf } from "../../../help/exact-bound.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

function timetableOf(request: PlanRequest): Timetable {
  return new Timetable(closeBook(dayModel(request), 0), SEARCH_BUCKET_K);
}

interface Foreseen {
  readonly all: readonly Built[];
  readonly best: Built;
  readonly followed: number;
}

function foreseen(timetable: Timetable, mostFollowed = Infinity, foresight = foresightOf(false, false)): Foreseen {
  const lookAhead = new LookAhead(timetable, foresight);
  const all: Built[] = [];
  for (const found of lookAhead.search()) {
    if (found !== undefined) all.push(found);
    if (lookAhead.followed >= mostFollowed) break;
  }
  return { all, best: all.at(-1)!, followed: lookAhead.followed };
}

describe("by hand", () => {
  it("leaves over what no oven bakes and fires the rest together", () => {
    const big = areaLine("big", { shape: { kind: "area", dm2: 30 }, promisedMinute: 0, latePerHour: 60 });
    const lines = [big, areaLine("A"), areaLine("B"), areaLine("C")];
    const { all, best } = foreseen(timetableOf(smallRequest({ lines })));
    expect(best.sequence.loads.flatMap(({ bakes }) => bakes).toSorted((a, b) => a - b)).toEqual([1, 2, 3]);
    expect(best.sequence.loads).toHaveLength(2);
    // The first load that may come next is followed to the end already, past the most urgent, which has no place.
    expect(all[0]!.sequence.loads.flatMap(({ bakes }) => bakes)).toHaveLength(3);
  });

  it("keeps the oven waiting where company is worth more than the minutes", () => {
    // A firing is 6 kWh of dear gas, so that one for both is worth a quarter of an hour.
    const prices = { gasPerKWh: 1, crewPerHour: 6, movePerPan: 0 };
    const lines = [areaLine("A"), areaLine("B", { readyMinute: 15 })];
    const { best } = foreseen(timetableOf(smallRequest({ prices, lines })));
    expect(best.sequence.loads).toHaveLength(1);
    // 12 kW for 30 minutes; the crew until minute 55.
    expect(best.cost).toBeCloseTo(6 + 5.5, 9);
  });

  it("fires first what costs most to let wait, in a day that takes all and in one that does not", () => {
    // Each pan fills the oven for 40 minutes and costs 1 a minute late; `chain` takes two firings.
    const coatings = [
      { id: "one", name: "one", coats: [fixedCoat()] },
      { id: "two", name: "two", coats: [fixedCoat(), fixedCoat({ name: "second" })] },
    ];
    const full = { shape: { kind: "area", dm2: 20 } } as const;
    const lines = [
      areaLine("now", { ...full, promisedMinute: 0, latePerHour: 60, leftOverCost: 0 }),
      areaLine("chain", { ...full, coating: 1, promisedMinute: 100, latePerHour: 60, leftOverCost: 0 }),
    ];
    const { best } = foreseen(timetableOf(smallRequest({ staffed: [{ from: 0, to: 120 }], coatings, lines })));
    // With `now` first it is 40 minutes late and `chain`, done at 120, 20; with `now` last it alone is, 120.
    expect(best.sequence.loads[0]!.bakes).toEqual([0]);
    expect(best.cost).toBeCloseTo(3 * 0.6 + 12 + 40 + 20, 9);
    const short = foreseen(timetableOf(smallRequest({ staffed: [{ from: 0, to: 80 }], coatings, lines })));
    // Two firings only: `now` is 40 minutes late and `chain` until the next morning 1 340; the other way `now` would be 1 440.
    expect(short.best.cost).toBeCloseTo(2 * 0.6 + 8 + 40 + 1340, 9);
  });
});

describe.each([
  { pans: 24, ovens: 1, door: "hot", pace: "overloaded", seed: 2, isLarge: false },
  { pans: 24, ovens: 2, door: "cold", pace: "calm", seed: 5, isLarge: false },
  { pans: 24, ovens: 2, door: "cold", pace: "overloaded", seed: 6, isLarge: true },
] as const)("on a day of $pans pans in $ovens ovens, $door and $pace", ({ isLarge, ...made }) => {
  const request = requestOf(generatedDay({ ...made, sprayers: 1 }));
  const timetable = timetableOf(request);
  const foresight = foresightOf(isLarge, false);
  const { all, best, followed } = foreseen(timetable, Infinity, foresight);

  it("is ever cheaper, costs what the timetable makes of its loads, and bakes nothing twice", () => {
    const costs = all.map(({ cost }) => cost);
    expect(costs.length).toBeGreaterThan(1);
    expect(costs).toEqual(costs.toSorted((a, b) => b - a));
    for (const { sequence, cost } of all) expect(new Evaluator(timetable).cost(sequence)).toBeCloseTo(cost, 6);
    const bakes = best.sequence.loads.flatMap((load) => load.bakes);
    expect(new Set(bakes).size).toBe(bakes.length);
  });

  it("is the same each time, and yields after each sequence that it follows", () => {
    const again = new LookAhead(timetableOf(request), foresight);
    let yielded = 0;
    let last: Built | undefined;
    for (const one of again.search()) {
      yielded++;
      last = one ?? last;
    }
    expect(yielded).toBe(followed);
    expect(again.followed).toBe(followed);
    expect(last!.cost).toBe(best.cost);
    expect(last!.sequence.loads.map((load) => load.bakes)).toEqual(best.sequence.loads.map((load) => load.bakes));
  });

  it("costs less than the careful hand's", () => {
    const hand = { ...PLAIN_TASTE, loads: carefulHand(timetable) };
    expect(best.cost).toBeLessThan(new Evaluator(timetable).cost(hand));
  });
});

describe("by ever fewer patiences", () => {
  const day = generatedDay({ pans: 32, ovens: 1, door: "cold", pace: "overloaded", seed: 8, sprayers: 1 });
  const request = requestOf(day);
  // Anew each time: what a book has been asked before may change what it tells of a load.
  const foreseenBy = (foresight: Foresight, mostFollowed?: number): Foreseen =>
    foreseen(timetableOf(request), mostFollowed, foresight);
  const PATIENCES = [180, 5, 60, 600];
  const FOLLOWED = { kept: 0, patiences: 4 };
  /** What each patience alone comes to in these rounds. */
  const alone = (rounds: Foresight["rounds"]): Map<number, Foreseen> =>
    new Map(PATIENCES.map((patience) => [patience, foreseenBy({ patiences: [patience], rounds })]));

  it("follows the day once by each before any is built by", () => {
    const { all, followed } = foreseenBy({ patiences: PATIENCES, rounds: [FOLLOWED] });
    expect(followed).toBe(4);
    const costs = [...alone([FOLLOWED]).values()].map(({ best }) => best.cost);
    expect(new Set(costs).size).toBe(4);
    expect(all.at(-1)!.cost).toBe(Math.min(...costs));
  });

  it("builds by those that ended cheapest in the round before", () => {
    const two = [FOLLOWED, { kept: 1, patiences: 2 }];
    const ends = [...alone([FOLLOWED])].sort(([, a], [, b]) => a.best.cost - b.best.cost).map(([patience]) => patience);
    expect(ends.slice(0, 2)).not.toEqual(PATIENCES.slice(0, 2));
    const { best } = foreseenBy({ patiences: PATIENCES, rounds: two });
    const built = alone([{ kept: 1, patiences: 1 }]);
    const costs = ends.map((patience) => built.get(patience)!.best.cost);
    expect(best.cost).toBeCloseTo(Math.min(costs[0]!, costs[1]!), 9);
  });

  it("builds by all in the order given where none is left out", () => {
    const patiences = [5, 600];
    const [followed, built] = [alone([FOLLOWED]), alone([{ kept: 1, patiences: 1 }])];
    const [dear, cheap] = patiences.map((patience) => followed.get(patience)!.best.cost);
    expect(dear).toBeGreaterThan(cheap!);
    const rounds = [FOLLOWED, { kept: 1, patiences: 2 }];
    const { best } = foreseenBy({ patiences, rounds }, 2 + built.get(5)!.followed);
    expect(best.cost).toBe(Math.min(cheap!, built.get(5)!.best.cost));
    expect(built.get(600)!.best.cost).toBeLessThan(best.cost);
  });
});

it("sees that castings baked last keep their other coats out of the day, which ranks do not see after as many tries", () => {
  const made = { pans: 40, ovens: 1, door: "cold", pace: "overloaded", seed: 203, sprayers: 1 } as const;
  const timetable = timetableOf(requestOf(generatedDay(made)));
  const { best, followed } = foreseen(timetable, 800);
  const dispatcher = new Dispatcher(timetable);
  const known = { ...PLAIN_TASTE, loads: carefulHand(timetable) };
  let byRank = Infinity;
  for (const one of dispatchSearch(dispatcher, known, seededRandom(1), () => dispatcher.built >= followed))
    if (one !== undefined) byRank = new Evaluator(timetable).cost(one);
  expect(best.cost).toBeLessThan(0.7 * byRank);
});

describe("of two searches beside each other", () => {
  const made = { pans: 24, ovens: 1, door: "hot", pace: "overloaded", seed: 2, sprayers: 1 } as const;
  const request = requestOf(generatedDay(made));

  it("the second goes another way, the same each time", () => {
    const found = (isSecond: boolean): Sequence => {
      let sequence: Sequence | undefined;
      const planning = planFiring(request, { seed: 1, gapPercent: 0, progress: stepBudget(1500), isSecond });
      for (const step of planning) sequence = step?.sequence() ?? sequence;
      return sequence!;
    };
    const second = found(true);
    expect(found(true)).toEqual(second);
    expect(found(false)).not.toEqual(second);
  });

  it("each goes on from its own best, unless that of the other is far cheaper", () => {
    const at = (cost: number) => ({ cost, sequence: { haste: 1, heatCredit: 0, loads: [] } });
    const [own, near, far] = [at(100), at(84), at(83)];
    expect(ownLine(own, near)).toBe(own);
    expect(ownLine(own, far)).toBe(far);
  });
});

it("begins a large day where promises clash, and ends cheaper than when it began by rank", () => {
  const request = requestOf(generatedDay({ pans: 48, ovens: 1, door: "cold", pace: "overloaded", seed: 707 }));
  // Begun by rank as many steps ended on 94.8, 95.0 and 109.7.
  const costs = [1, 2, 3].map((seed) => planOf(request, 3000, seed).cost.total);
  expect(costs.reduce((sum, cost) => sum + cost, 0) / costs.length).toBeLessThan(90);
});
