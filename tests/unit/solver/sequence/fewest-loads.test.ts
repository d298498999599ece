import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { PLAIN_TASTE } from "../../../../solver/sequence/careful-hand.ts";
import { fewestLoads } from "../../../../solver/sequence/fewest-loads.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { PlanRequest, Shelf } from "../../../../solver/shop.ts";
import { areaLine, fixedOven, smallRequest } from "../../../help/requests.ts";
import { times } from "../fit/own-check.ts";

const shelf: Shelf = { id: "s", widthCm: 62, depthCm: 62, clearHeightCm: 18, maxKg: Infinity, offsetC: 0 };

function timetableOf(over: Partial<PlanRequest>): Timetable {
  const request = smallRequest({
    ovens: [fixedOven({ space: { kind: "shelves", gapCm: 2, shelves: times(2, shelf) } })],
    ...over,
  });
  return new Timetable(new RecipeBook(dayModel(request), 0), EXACT_BUCKET_K);
}

const pans = areaLine("pans", { quantity: 16, shape: { kind: "disc", diameterCm: 28 } });

describe("fewest loads as a start", () => {
  // Four discs of 28 + 2 cm fill a 60 cm floor (62 cm shelf less the gap), so 16 pans take two loads of two shelves.
  it("fires sixteen pans in two loads, each where its packing said", () => {
    const timetable = timetableOf({ lines: [pans] });
    const loads = fewestLoads(timetable, 500)!;
    expect(loads.map(({ bakes }) => bakes.length)).toEqual([8, 8]);
    const state = timetable.startState();
    for (const load of loads) {
      const timed = timetable.place(state, load, PLAIN_TASTE);
      expect(timed?.recipe.layout?.pans).toBe(8);
    }
  });

  it("keeps coats that may not share a firing apart, and waits for the pans that come last", () => {
    const [coating] = smallRequest().coatings;
    const other = { ...coating!, id: "other", coats: [{ ...coating!.coats[0]!, mixGroup: "silicone" }] };
    const timetable = timetableOf({
      coatings: [coating!, other],
      mixing: { rule: "same-group", neverTogether: [], cleanBurn: null },
      lines: [
        { ...pans, quantity: 8, readyMinute: 200 },
        { ...pans, id: "more", ticket: "more", quantity: 4, coating: 1 },
      ],
    });
    const loads = fewestLoads(timetable, 500)!;
    expect(loads.map(({ bakes }) => bakes.length)).toEqual([8, 4]);
    const state = timetable.startState();
    for (const load of loads) expect(timetable.place(state, load, PLAIN_TASTE)).toBeDefined();
  });

  it("has nothing to say where loads differ in what they cost, or only area counts", () => {
    expect(fewestLoads(timetableOf({ lines: [pans], ovens: [fixedOven()] }), 500)).toBeUndefined();
  });
});
