/** Shelves that are remembered hold what shelves laid afresh do. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import { bestSpot, standardRules, type Rule } from "../../../../solver/fit/greedy.ts";
import { centresOn, emptyShelf, laidNext } from "../../../../solver/fit/greedy-shelf.ts";
import { emptyLaid, lay } from "../../../../solver/fit/laid.ts";
import { floorOf, outlineOf, turnedOutline } from "../../../../solver/fit/outline.ts";

const floor = floorOf(90, 60, 2);

/** Which of the pans find a place, laid one by one with nothing remembered, and where. */
function laidAfresh(pans: readonly Footprint[], rule: Rule) {
  const laid = emptyLaid(floor);
  return pans.flatMap((pan) => {
    const outline = outlineOf({ ...pan }, 2);
    const centre = bestSpot(laid, outline, rule);
    if (centre === undefined) return [];
    lay(laid, centre.turned ? turnedOutline(outline) : outline, centre.x, centre.y);
    return [centre];
  });
}

function laidRemembered(pans: readonly Footprint[], rule: Rule) {
  let shelf = emptyShelf(floor, rule);
  for (const pan of pans) shelf = laidNext(shelf, outlineOf(pan, 2)) ?? shelf;
  return centresOn(shelf);
}

const disc = (diameterCm: number): Footprint => ({ kind: "disc", diameterCm });
const size = fc.integer({ min: 16, max: 36 });
const pan: fc.Arbitrary<Footprint> = fc.oneof(
  size.map(disc),
  fc.record({ kind: fc.constant("rectangle" as const), widthCm: size, depthCm: size }),
);

describe("a shelf that is remembered", () => {
  it("is one and the same for the same pans in the same order", () => {
    const laid = (): unknown =>
      laidNext(laidNext(emptyShelf(floor, standardRules[0]!), outlineOf(disc(28), 2))!, outlineOf(disc(20), 2));
    expect(laid()).toBeDefined();
    expect(laid()).toBe(laid());
    expect(outlineOf(disc(28), 2)).toBe(outlineOf(disc(28), 2));
    expect(outlineOf(disc(28), 2)).not.toBe(outlineOf(disc(28), 3));
  });

  it("holds the pans that one laid afresh does, where it does", () => {
    let turnedAway = 0;
    fc.assert(
      fc.property(fc.array(pan, { minLength: 4, maxLength: 12 }), fc.constantFrom(...standardRules), (pans, rule) => {
        const centres = laidRemembered(pans, rule);
        expect(centres).toEqual(laidAfresh(pans, rule));
        if (centres.length < pans.length) turnedAway++;
      }),
      { numRuns: 400, seed: 3 },
    );
    expect(turnedAway).toBeGreaterThan(50);
  });

  it("takes a smaller pan after a larger one found no place", () => {
    const pans = [disc(50), disc(40), disc(30), disc(36), disc(32)];
    for (const rule of standardRules) expect(laidRemembered(pans, rule)).toEqual(laidAfresh(pans, rule));
    expect(laidRemembered(pans, standardRules[0]!)).toHaveLength(2);
  });
});
