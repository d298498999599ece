/** What is remembered of single shelves is sound, and does not depend on how it was asked. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import { floorOf, outlineOf } from "../../../../solver/fit/outline.ts";
import { bySize, emptyPattern, withPan, type ShelfPattern } from "../../../../solver/fit/shelf-patterns.ts";
import { fitShelf, spotOf } from "../../../../solver/fit/shelf-fit.ts";
import { disc, rectangle, times, worstMissCm } from "./own-check.ts";

const GAP_CM = 2;
const floor = floorOf(90, 60, GAP_CM);

const size = fc.integer({ min: 16, max: 38 });
const pan: fc.Arbitrary<Footprint> = fc.oneof(
  size.map(disc),
  fc.tuple(size, size).map(([w, d]) => rectangle(w, d)),
);
const handful = fc.array(pan, { minLength: 2, maxLength: 6 });

function patternOf(pans: readonly Footprint[], of = floor, gapCm = GAP_CM): ShelfPattern | undefined {
  let pattern: ShelfPattern | undefined = emptyPattern(of);
  for (const one of pans) pattern = pattern && withPan(pattern, outlineOf(one, gapCm));
  return pattern;
}

/** How far the pattern misses its distances, cm, by arithmetic that is not the packer's. */
function missCm(pans: readonly Footprint[], pattern: ShelfPattern): number {
  const sorted = [...pans].sort((a, b) => bySize(outlineOf(a, GAP_CM), outlineOf(b, GAP_CM)));
  const layout = pattern.centres.map((centre, at) => ({ ...spotOf(centre, GAP_CM), footprint: sorted[at]! }));
  return worstMissCm(90, 60, GAP_CM, layout);
}

describe("a pattern of pans on one floor", () => {
  it("lies on it with all distances kept, and is the same whichever pan was asked for first", () => {
    const told = { fits: 0, refused: 0 };
    fc.assert(
      fc.property(handful, fc.nat(), (pans, turn) => {
        const pattern = patternOf(pans);
        const about = turn % pans.length;
        const other = patternOf([...pans.slice(about), ...pans.slice(0, about)].reverse());
        if (pattern === undefined || other === undefined) {
          told.refused++;
          return;
        }
        told.fits++;
        expect(other).toBe(pattern);
        expect(pattern.outlines).toHaveLength(pans.length);
        expect(missCm(pans, pattern)).toBeLessThanOrEqual(1e-6);
      }),
      { numRuns: 600, seed: 11 },
    );
    expect(told.fits).toBeGreaterThan(150);
    expect(told.refused).toBeGreaterThan(150);
  });

  it("finds room wherever laying them all anew does", () => {
    let found = 0;
    fc.assert(
      fc.property(handful, (pans) => {
        if (fitShelf(90, 60, GAP_CM, pans, 0, 1) === undefined) return;
        found++;
        const sorted = [...pans].sort((a, b) => bySize(outlineOf(a, GAP_CM), outlineOf(b, GAP_CM)));
        expect(patternOf(sorted)).toBeDefined();
      }),
      { numRuns: 400, seed: 12 },
    );
    expect(found).toBeGreaterThan(150);
  });

  it("does not hang on what has been asked before, nor on what has been forgotten since", () => {
    const pans = [disc(24), rectangle(40, 26), disc(30), disc(18)];
    const before = patternOf(pans)!.centres;
    // More than are kept.
    for (let width = 20; width < 2020; width++)
      patternOf(times(20, disc(9)), floorOf(width / 10, 60 + width / 1000, 0), 0);
    expect(patternOf(pans)!.centres).toEqual(before);
  });
});

// E. Specht, packomania.com, list csq: largest radii of n equal circles in a unit square, proven optimal for these n; origin in
// fixtures/packing/README.md.
describe("equal discs in a square", () => {
  const { radiusInUnitSquare } = JSON.parse(readFileSync("fixtures/packing/equal-circles.json", "utf8")) as {
    radiusInUnitSquare: Record<string, number>;
  };

  it.each([2, 3, 4, 5, 6, 7, 8, 9])(
    "%s lie on a side 5 %% longer than the shortest, and on none 0.1 %% shorter",
    (n) => {
      const shortest = 10 / radiusInUnitSquare[n]!;
      const on = (side: number): ShelfPattern | undefined => patternOf(times(n, disc(20)), floorOf(side, side, 0), 0);
      expect(on(1.05 * shortest)).toBeDefined();
      expect(on(0.999 * shortest)).toBeUndefined();
    },
  );
});
