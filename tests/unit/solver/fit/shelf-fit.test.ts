import { describe, expect, test } from "vitest";
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import { cannotFitShelf, fitShelf } from "../../../../solver/fit/shelf-fit.ts";
import { disc, rectangle, times, worstMissCm } from "./own-check.ts";

/** Layout found, after the check with own arithmetic; undefined where none was found. */
function checked(width: number, depth: number, gap: number, footprints: Footprint[], effort: number): boolean {
  const spots = fitShelf(width, depth, gap, footprints, effort, 1);
  if (!spots) return false;
  expect(spots).toHaveLength(footprints.length);
  const layout = spots.map((spot, i) => ({ ...spot, footprint: footprints[i]! }));
  expect(worstMissCm(width, depth, gap, layout)).toBeLessThanOrEqual(1e-6);
  return true;
}

describe("round pans on one shelf", () => {
  // With half a gap round each the pans are 32 cm discs on a floor 4 cm smaller than the shelf. Five equal discs need a
  // square of diameter·(1 + √2) = 77.255 cm (one in each corner, one in the middle), so the shelf 81.255 cm.
  test("five 28 cm pans with 4 cm gaps fit a shelf of 81.26 cm and not one of 81.25 cm", () => {
    expect(checked(81.26, 81.26, 4, times(5, disc(28)), 500)).toBe(true);
    expect(checked(81.25, 81.25, 4, times(5, disc(28)), 500)).toBe(false);
  });

  test("ten 28 cm pans with 4 cm gaps are proven not to fit 80 × 80 cm", () => {
    expect(cannotFitShelf(80, 80, 4, times(10, disc(28)))).toBe(true);
    expect(fitShelf(80, 80, 4, times(10, disc(28)), 500, 1)).toBeUndefined();
  });

  test("four pans exactly as wide as half the shelf fit without a gap", () => {
    expect(checked(80, 80, 0, times(4, disc(40)), 0)).toBe(true);
    expect(cannotFitShelf(80, 80, 0, [...times(4, disc(40)), disc(20)])).toBe(false);
    expect(checked(80, 80, 0, [...times(4, disc(40)), disc(16.5)], 0)).toBe(true);
  });

  test("a pan larger than the shelf is refused, and so are two that touch in opposite corners", () => {
    expect(cannotFitShelf(50, 80, 2, [disc(46.5)])).toBe(true);
    expect(cannotFitShelf(80, 80, 2, [disc(46), disc(46)])).toBe(true);
    expect(fitShelf(1, 1, 0, [disc(1)], 0, 1)).toEqual([{ xCm: 0.5, yCm: 0.5, turned: false }]);
  });
});

describe("rectangles on one shelf", () => {
  test("three 10 cm squares fit a 30 cm shelf exactly", () => {
    expect(checked(30, 10, 0, times(3, rectangle(10, 10)), 0)).toBe(true);
    expect(checked(30.3, 10.1, 0, times(3, rectangle(10.1, 10.1)), 0)).toBe(true);
  });

  test.each([0, 0.5, 1, 1.6])("four pans with handles lie as a pinwheel with %s cm gaps, five are refused", (gap) => {
    expect(checked(80, 80, gap, times(4, rectangle(28, 47)), 0)).toBe(true);
    expect(cannotFitShelf(80, 80, gap, times(5, rectangle(28, 47)))).toBe(true);
  });

  // Half sides 8 and 8: along the diagonal two squares may lie with their corners 3 cm apart in x and 4 cm in y.
  test("corners need the gap as the crow flies only", () => {
    const gap = 5;
    const width = 2 * gap + 16 + 16 + 3;
    const depth = 2 * gap + 16 + 16 + 4;
    expect(checked(width + 1e-3, depth + 1e-3, gap, times(2, rectangle(16, 16)), 200)).toBe(true);
    expect(cannotFitShelf(width - 0.05, depth - 0.05, gap, times(2, rectangle(16, 16)))).toBe(true);
  });

  test("a lid fits beside a tin where its round edge clears the corner", () => {
    // Disc of radius 10 at (10, 10) from one corner, tin's corner at 10 + 10/√2 along both axes.
    const reach = 10 + 10 / Math.SQRT2;
    const shelf = reach + 20;
    expect(checked(shelf + 1e-6, shelf + 1e-6, 0, [disc(20), rectangle(20, 20)], 0)).toBe(true);
    expect(cannotFitShelf(shelf - 1e-3, shelf - 1e-3, 0, [disc(20), rectangle(20, 20)])).toBe(true);
  });
});

test("an empty shelf needs no places", () => {
  expect(fitShelf(50, 50, 2, [], 10, 1)).toEqual([]);
});
