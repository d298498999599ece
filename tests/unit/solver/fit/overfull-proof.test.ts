/** A proof that pans cannot lie on a shelf together: as sharp as published optima, and never of pans that somebody has laid out. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import { floorOf, outlineOf } from "../../../../solver/fit/outline.ts";
import { provenOverfull } from "../../../../solver/fit/overfull-proof.ts";
import { cannotFitShelf, fitShelf } from "../../../../solver/fit/shelf-fit.ts";
import { disc, rectangle, times } from "./own-check.ts";

function proven(
  [widthCm, depthCm, gapCm]: readonly [number, number, number],
  footprints: readonly Footprint[],
  left = 20_000,
): boolean {
  return provenOverfull(
    floorOf(widthCm, depthCm, gapCm),
    footprints.map((footprint) => outlineOf(footprint, gapCm)),
    { left },
  );
}

describe("equal discs in a square", () => {
  // Largest radii in a unit square, proven optimal: E. Specht, The best known packings of equal circles in a square (packomania.com).
  it.each([
    [2, 0.292893218813],
    [3, 0.25433309503],
    [4, 0.25],
    [5, 0.207106781187],
    [6, 0.187680601147],
  ])("%i are ruled out where a little larger than the published optimum, and not where smaller", (count, radius) => {
    const across = 200 * radius;
    expect(proven([100, 100, 0], times(count, disc(across * 1.01)))).toBe(true);
    expect(proven([100, 100, 0], times(count, disc(across * 0.999)))).toBe(false);
  });
});

describe("rectangles", () => {
  // Geometry: two of 48 cm and three gaps take 105 cm; turned, three stand side by side and leave 24 cm of depth.
  it("four of 48 by 28 cm have no room on 100 by 75 cm with gaps of 3 cm, three do", () => {
    expect(cannotFitShelf(100, 75, 3, times(4, rectangle(48, 28)))).toBe(false);
    expect(proven([100, 75, 3], times(4, rectangle(48, 28)))).toBe(true);
    expect(proven([100, 75, 3], times(3, rectangle(48, 28)))).toBe(false);
  });

  // Geometry: a pinwheel of four around a hole of 10 by 10 cm just fills the square.
  it("a pinwheel is not ruled out, and is where one of its four is longer", () => {
    expect(proven([70, 70, 0], times(4, rectangle(40, 30)))).toBe(false);
    expect(proven([70, 70, 0], [...times(3, rectangle(40, 30)), rectangle(40.5, 30.5)])).toBe(true);
  });
});

it("says nothing once its patience is spent", () => {
  expect(proven([80, 70, 3], times(5, disc(28)))).toBe(true);
  expect(proven([80, 70, 3], times(5, disc(28)), 20)).toBe(false);
});

it("rules nothing out that has a layout, and much that has none", () => {
  const footprint: fc.Arbitrary<Footprint> = fc.oneof(
    fc.constantFrom(18, 20, 22, 24, 28, 30, 32, 34).map(disc),
    fc.tuple(fc.integer({ min: 24, max: 52 }), fc.integer({ min: 12, max: 36 })).map(([w, d]) => rectangle(w, d)),
  );
  const pans = fc
    .tuple(fc.array(footprint, { minLength: 1, maxLength: 3 }), fc.array(fc.nat(2), { minLength: 2, maxLength: 6 }))
    .map(([sorts, picks]) => picks.map((pick) => sorts[pick % sorts.length]!));
  const floor = fc.constantFrom([70, 60], [80, 70], [100, 75]);
  let ruledOut = 0;
  fc.assert(
    fc.property(pans, floor, (some, [widthCm, depthCm]) => {
      const isOut = proven([widthCm!, depthCm!, 3], some, 500);
      if (!isOut) return;
      if (!cannotFitShelf(widthCm!, depthCm!, 3, some)) ruledOut++;
      expect(fitShelf(widthCm!, depthCm!, 3, some, 100, 1)).toBeUndefined();
    }),
    { seed: 20261127, numRuns: 600 },
  );
  expect(ruledOut).toBeGreaterThan(15);
});
