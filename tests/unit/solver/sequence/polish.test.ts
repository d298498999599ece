import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { createLp } from "../../../../solver/lp/lp.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { firstSequences } from "../../../../solver/sequence/first-sequences.ts";
import { polish } from "../../../../solver/sequence/polish.ts";
import { rearranged } from "../../../../solver/sequence/rearranged.ts";
import type { PlannedLoad, Sequence } from "../../../../solver/sequence/sequence.ts";
import { plainSequence } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import { plannedCost, requestOf } from "../../../help/exact-bound.ts";
import { gatherBenchDays, generatedDay } from "../../../help/days.ts";

interface Shop {
  readonly rough: Evaluator;
  readonly exact: Evaluator;
  readonly start: Sequence;
}

function shopOf(pans: number, seed: number): Shop {
  const wish = { pans, ovens: 1, door: seed % 2 === 1 ? "hot" : "cold", pace: "calm", seed, sprayers: 1 } as const;
  const book = new RecipeBook(dayModel(requestOf(generatedDay(wish))), 0);
  const rough = new Timetable(book, SEARCH_BUCKET_K);
  const start = firstSequences(rough, createLp()).next().value!;
  return { rough: new Evaluator(rough), exact: new Evaluator(new Timetable(book, EXACT_BUCKET_K)), start };
}

function polished(exact: Evaluator, start: Sequence): { sequence: Sequence; costs: number[] } {
  const first = { sequence: start, cost: exact.cost(start) };
  exact.accept(start);
  const costs = [first.cost];
  let { sequence } = first;
  for (const better of polish(exact, first, () => false)) {
    costs.push(better.cost);
    sequence = better.sequence;
  }
  return { sequence, costs };
}

/** Each load asks for the set-point that the timetable chooses for it. */
function withSetPointsTold({ timetable }: Evaluator, sequence: Sequence): Sequence {
  const state = timetable.startState();
  const loads = sequence.loads.map((load) => {
    const option = timetable.place(state, load, sequence)?.slot.option;
    return { ...load, setPointC: option?.setPointC ?? 0 };
  });
  return { ...sequence, loads };
}

/** Of a sequence sent elsewhere and timed there. */
function costAnew({ timetable }: Evaluator, sequence: Sequence): number {
  return new Evaluator(timetable).cost(plainSequence(sequence));
}

describe("polishing", () => {
  it.each([1, 2, 3, 4, 5, 6])("of invented day %i only ever gains, and leaves loads and order as they are", (seed) => {
    const { exact, start } = shopOf(8, seed);
    const { sequence, costs } = polished(exact, start);
    expect(costs).toEqual(costs.toSorted((a, b) => b - a));
    expect(costAnew(exact, sequence)).toBe(costs.at(-1));
    const bakesOf = ({ loads }: Sequence): unknown => loads.map(({ oven, bakes }) => ({ oven, bakes }));
    expect(bakesOf(sequence)).toEqual(bakesOf(start));
  });

  // On the last two days the rounded chamber just misses a window at a set-point told.
  it.each([1, 2, 3, 4, 39, 56])("of invented day %i leaves what a search that rounds sees for what it is", (seed) => {
    const { rough, exact, start } = shopOf(8, seed);
    const told = withSetPointsTold(exact, polished(exact, start).sequence);
    // To the step of the oven: the search's own lists have every third.
    expect(told.loads.some(({ setPointC }) => setPointC % 15 !== 0)).toBe(true);
    expect(costAnew(rough, told)).toBeLessThan(1.02 * costAnew(exact, told));
  });

  it.each<[string, (load: PlannedLoad) => PlannedLoad]>([
    ["a needless delay", (load) => ({ ...load, delayMinutes: 40 })],
    ["a pre-heat that does not pay", (load) => ({ ...load, delayMinutes: 20, preheat: 300 })],
    ["a door shut for too long", (load) => ({ ...load, coastMinutes: 8 })],
  ])("takes %s back", (_, spoil) => {
    const { exact, start } = shopOf(6, 2);
    const good = polished(exact, start);
    const spoilt = { ...good.sequence, loads: good.sequence.loads.with(0, spoil(good.sequence.loads[0]!)) };
    expect(exact.cost(spoilt)).toBeGreaterThan(good.costs.at(-1)! * 1.001);
    expect(polished(exact, spoilt).costs.at(-1)).toBeLessThan(good.costs.at(-1)! * 1.0005);
  });

  it("looks at layouts that differ in two kinds in the end: slow metal goes where quick metal makes room", () => {
    const [day] = gatherBenchDays().filter(({ name }) => name === "8-cold-overloaded");
    // 84.99 was the best in every run that moved one kind at a time.
    expect(plannedCost(requestOf(day!.day), 20_000)).toBeLessThan(84.5);
  });

  it("looks at layouts that differ in all of a few kinds: the whole load a shelf warmer", () => {
    const [found] = gatherBenchDays().filter(({ name }) => name === "8-cold-overloaded");
    const day = dayModel(requestOf(found!.day));
    const exact = new Evaluator(new Timetable(new RecipeBook(day, 0), EXACT_BUCKET_K));
    // First coats of three kinds, on the low, the middle and the low shelf: each could stand a shelf warmer.
    const bakes = [1, 4, 5].flatMap((line) =>
      day.bakes.flatMap(({ pan, step }, bake) => (day.pans[pan]!.line === line && step === 0 ? [bake] : [])),
    );
    const cool: PlannedLoad = {
      oven: 0,
      bakes,
      setPointC: 0,
      preheat: "auto",
      delayMinutes: 0,
      coastMinutes: null,
      shelfSet: [5, 4, 5],
    };
    const sequence = { haste: 1, heatCredit: 0, loads: [cool] };
    expect(exact.cost(sequence)).toBeLessThan(Infinity);
    exact.accept(sequence);
    const all = [...rearranged(exact, sequence, 0)].map(({ shelfSet }) => shelfSet!);
    expect(all.some((sets) => sets.every((set, kind) => set !== cool.shelfSet![kind]))).toBe(true);
  });

  it("turns the burner of the day's last load off sooner: nobody needs its heat", () => {
    const { exact, start } = shopOf(6, 2);
    const { sequence } = polished(exact, start);
    const state = exact.timetable.startState();
    const slots = sequence.loads.map((load) => exact.timetable.place(state, load, sequence)!.slot);
    const { option } = slots.at(-1)!;
    expect(option!.burnerOffMinutes).toBeLessThan(option!.unloadMinutes);
  });

  it("stops where its time is spent", () => {
    const { exact, start } = shopOf(8, 1);
    const cost = exact.cost(start);
    exact.accept(start);
    const before = exact.timed;
    const few = [...polish(exact, { sequence: start, cost }, () => exact.timed >= before + 5)];
    expect(exact.timed).toBe(before + 5);
    expect(few.length).toBeLessThan(6);
  });
});
