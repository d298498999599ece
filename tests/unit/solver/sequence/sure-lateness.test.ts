/** What a state is sure to cost yet: worked out by hand, and against many ways to go on from it. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Dispatcher } from "../../../../solver/sequence/dispatch.ts";
import { changed, firstKeys } from "../../../../solver/sequence/dispatch-keys.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { ShopState } from "../../../../solver/sequence/shop-state.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

function timetableOf(request: PlanRequest): Timetable {
  return new Timetable(new RecipeBook(dayModel(request), 0), SEARCH_BUCKET_K);
}

/** What it costs to leave everything else over from here. */
function leftCost(timetable: Timetable, state: ShopState): number {
  const end = timetable.startState();
  end.copyFrom(state);
  timetable.finish(end);
  return timetable.cost(end);
}

describe("what a state is sure to cost yet", () => {
  // Two coats, 5 + 30 + 5 minutes each; 10 minutes of inspection, 8 of finishing. Ticket A is promised at minute 60.
  const coats = [
    fixedCoat({ name: "primer", inspectMinutes: 10 }),
    fixedCoat({ name: "top coat", inspectMinutes: 10, sprayMinutes: 4, flashMinutes: 6 }),
  ];
  const coatings = [{ id: "two-coat", name: "two coats", coats }];
  const lines = [areaLine("A", { promisedMinute: 60, latePerHour: 6 }), areaLine("B", { readyMinute: 30 })];
  const timetable = timetableOf(smallRequest({ coatings, lines, finishMinutes: 8 }));

  it("is lateness that the coats to come make sure of, where the day has hardly begun", () => {
    // 40 + 10, then 10 to the door, 40 + 10 and 8: in the hand at 118, 58 minutes late.
    expect(timetable.costAtLeast(timetable.startState())).toBeCloseTo((58 * 6) / 60, 6);
  });

  it("counts from when an oven comes free, beside the money spent", () => {
    const state = timetable.startState();
    // B's primer holds the oven from 30 to 70.
    timetable.place(state, newLoad(0, [2]), PLAIN_TASTE);
    const spent = timetable.costSoFar(state);
    expect(timetable.costAtLeast(state)).toBeCloseTo(spent + ((70 + 118 - 60) * 6) / 60, 6);
  });

  it("counts no lateness twice", () => {
    const state = timetable.startState();
    for (const bake of [0, 1]) timetable.place(state, newLoad(0, [bake]), PLAIN_TASTE);
    expect(state.lateCost).toBeCloseTo((58 * 6) / 60, 6);
    expect(timetable.costAtLeast(state)).toBeCloseTo(timetable.costSoFar(state), 6);
  });

  const wishes = [1, 2, 4, 6, 7, 8, 9, 12].map((seed) => ({
    pans: 6 + seed,
    ovens: 1 + (seed % 2),
    door: seed % 3 === 0 ? ("cold" as const) : ("hot" as const),
    pace: "overloaded" as const,
    seed,
    held: seed % 4 === 0,
    cycle: seed === 7 ? ("fixed" as const) : ("thermal" as const),
  }));

  it.each(wishes)("is never above what going on costs: $pans pans, seed $seed", (wish) => {
    const timetable = timetableOf(requestOf(generatedDay(wish)));
    const dispatcher = new Dispatcher(timetable);
    const random = seededRandom(wish.seed);
    const hand = { ...PLAIN_TASTE, loads: carefulHand(timetable) };
    let keys = firstKeys(timetable.day, dispatcher.groups, hand)[0]!;
    let told = 0;
    for (let round = 0; round < 12; round++) {
      keys = changed(keys, dispatcher.groups, dispatcher.looksCloser, random);
      const { sequence } = dispatcher.build(keys)!;
      const state = timetable.startState();
      const floors = [timetable.costAtLeast(state)];
      const outcomes = [leftCost(timetable, state)];
      for (const load of sequence.loads) {
        timetable.place(state, load, sequence);
        floors.push(timetable.costAtLeast(state));
        outcomes.push(leftCost(timetable, state));
        const other = timetable.startState();
        other.copyFrom(state);
        carefulHand(timetable, other);
        outcomes.push(leftCost(timetable, other));
        expect(outcomes.at(-1)!).toBeGreaterThanOrEqual(floors.at(-1)!);
        if (floors.at(-1)! > timetable.costSoFar(state) + 1e-6) told++;
      }
      const end = outcomes.at(-2)!;
      for (const floor of floors) expect(floor).toBeLessThanOrEqual(end + 1e-9);
    }
    expect(told).toBeGreaterThan(0);
  });
});
