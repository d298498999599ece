/** Which places for a group are timed whole: those that look cheapest, and how often the cheapest is among them. */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { carefulHand, PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import type { Place } from "../../../../solver/sequence/likely-places.ts";
import { LIKELY_PLACES, likelyPlaces, withPlace } from "../../../../solver/sequence/likely-places.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { PlannedLoad } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { areaLine, fixedCoat, smallRequest } from "../../../help/requests.ts";

function evaluatorOf(request: PlanRequest, loadsOf: (timetable: Timetable) => readonly PlannedLoad[]) {
  const timetable = new Timetable(new RecipeBook(dayModel(request), 0), SEARCH_BUCKET_K);
  const evaluator = new Evaluator(timetable);
  const loads = loadsOf(timetable);
  evaluator.accept({ ...PLAIN_TASTE, loads });
  return { evaluator, loads };
}

const alone = (bakes: readonly number[]): PlannedLoad[] => bakes.map((bake) => newLoad(0, [bake]));
const before = (count: number, bake: number, oven = 0): Place[] =>
  Array.from({ length: count }, (_, at) => ({ at, load: newLoad(oven, [bake]), joins: false }));
const costs = (evaluator: Evaluator, loads: readonly PlannedLoad[], places: readonly Place[]): number[] =>
  places.map((place) => evaluator.cost({ ...PLAIN_TASTE, loads: withPlace(loads, place) }));

describe("a place in a sequence", () => {
  const loads = alone([0, 1]);
  const bakes = (place: Place): (readonly number[])[] => withPlace(loads, place).map((load) => load.bakes);

  it("is in a load or before one", () => {
    expect(bakes({ at: 1, load: newLoad(0, [1, 2]), joins: true })).toEqual([[0], [1, 2]]);
    expect(bakes({ at: 1, load: newLoad(0, [2]), joins: false })).toEqual([[0], [2], [1]]);
    expect(bakes({ at: 2, load: newLoad(0, [2]), joins: false })).toEqual([[0], [1], [2]]);
  });
});

describe("the likeliest places", () => {
  const lines = Array.from({ length: 8 }, (_, at) => areaLine(`L${at}`));

  it("are all of them where they are few", () => {
    const { evaluator } = evaluatorOf(smallRequest({ lines }), () => alone([0, 1, 2, 3]));
    const places = before(LIKELY_PLACES, 7);
    expect(likelyPlaces(evaluator, places, [7], PLAIN_TASTE)).toEqual(places);
  });

  it("are early where the ticket is late, and at the end where others would be", () => {
    const late = (id: string) => areaLine(id, { promisedMinute: 10, latePerHour: 60 });
    const ends = (pressed: number): number[] => {
      const request = smallRequest({ lines: lines.map((line, at) => (at === pressed ? late(line.id) : line)) });
      const { evaluator } = evaluatorOf(request, () => alone([0, 1, 2, 3, 4, 5, 6]));
      return likelyPlaces(evaluator, before(8, 7), [7], PLAIN_TASTE).map(({ at }) => at);
    };
    expect(ends(7)[0]).toBe(0);
    expect(ends(6)[0]).toBe(7);
  });

  it.each([
    ["gas", { gasPerKWh: 0.1, crewPerHour: 0, movePerPan: 0 }],
    ["time", { gasPerKWh: 0, crewPerHour: 6, movePerPan: 0 }],
  ])("are in a load with room rather than in a firing of their own, for the sake of %s alone", (_, prices) => {
    const { evaluator } = evaluatorOf(smallRequest({ lines, prices }), () => alone([0, 1, 2, 3, 4, 5]));
    const joined: Place = { at: 3, load: newLoad(0, [3, 7]), joins: true };
    const places = [...before(7, 7), joined];
    expect(likelyPlaces(evaluator, places, [7], PLAIN_TASTE)[0]).toBe(joined);
  });

  it("leave time for the coats that follow", () => {
    const coatings = [{ id: "two", name: "two coats", coats: [fixedCoat({ name: "primer" }), fixedCoat()] }];
    const two = lines.map((line, at) => (at === 7 ? { ...line, promisedMinute: 150, latePerHour: 60 } : line));
    const { evaluator } = evaluatorOf(smallRequest({ coatings, lines: two }), () => alone([0, 2, 4, 6, 8, 10, 12]));
    // Bake 14 is its primer: out at 40, 80 or 120, and its top coat takes some 70 minutes more.
    expect(likelyPlaces(evaluator, before(8, 14).toReversed(), [14], PLAIN_TASTE)[0]!.at).toBe(1);
  });

  it("are where the plan in force had the pan, where a move costs", () => {
    const prices = { gasPerKWh: 0, crewPerHour: 0, movePerPan: 10 };
    const inForce = [{ line: 7, item: 1, doorOpens: 120 }];
    const { evaluator } = evaluatorOf(smallRequest({ lines, prices, inForce }), () => alone([0, 1, 2, 3, 4, 5, 6]));
    expect(likelyPlaces(evaluator, before(8, 7), [7], PLAIN_TASTE)[0]!.at).toBe(3);
  });

  it("are none whose load finds no time", () => {
    // Two loads of 40 minutes, and no third.
    const { evaluator } = evaluatorOf(smallRequest({ lines, staffed: [{ from: 0, to: 100 }] }), () => alone([0, 1]));
    const behind = { at: 2, load: newLoad(0, [7]), joins: false };
    const places = [...before(2, 7), behind, behind, behind, behind];
    expect(likelyPlaces(evaluator, places, [7], PLAIN_TASTE).map(({ at }) => at)).toEqual([0, 1]);
  });

  it("hold the cheapest of all in most cases, and one nearly as cheap in the others: invented days", () => {
    const excess: number[] = [];
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const pace = seed % 2 === 0 ? "calm" : "overloaded";
      const request = requestOf(generatedDay({ pans: 20, ovens: 1 + (seed % 2), door: "cold", pace, seed }));
      const { evaluator, loads } = evaluatorOf(request, carefulHand);
      const { bakes, pans } = evaluator.timetable.day;
      for (const load of loads) {
        const [bake, ...others] = load.bakes;
        const { pan, step } = bakes[bake!]!;
        // A last coat: no later one of its pan must go after it.
        if (others.length === 0 || step < pans[pan]!.due.length - 1) continue;
        const rest = loads.map((one) => (one === load ? newLoad(load.oven, others) : one));
        evaluator.accept({ ...PLAIN_TASTE, loads: rest });
        const first = 1 + rest.findLastIndex((one) => one.bakes.some((other) => bakes[other]!.pan === pan));
        const places = before(rest.length + 1, bake!, load.oven).slice(first);
        if (places.length <= LIKELY_PLACES) continue;
        const least = Math.min(...costs(evaluator, rest, places));
        const likely = likelyPlaces(evaluator, places, [bake!], PLAIN_TASTE);
        excess.push(Math.min(...costs(evaluator, rest, likely)) / least - 1);
      }
    }
    expect(excess.length).toBeGreaterThan(15);
    expect(excess.filter((share) => share < 1e-9).length).toBeGreaterThan(excess.length / 2);
    expect(excess.reduce((sum, share) => sum + share, 0) / excess.length).toBeLessThan(0.01);
  });
});
