/** Published packings; origins in fixtures/packing/README.md. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Footprint } from "../../../../solver/fit/footprint.ts";
import { packIntoLoads } from "../../../../solver/fit/load-count.ts";
import { cannotFitShelf, fitShelf } from "../../../../solver/fit/shelf-fit.ts";
import { disc, loadsOf, rectangle, times, worstMissCm } from "./own-check.ts";

interface Strip {
  readonly name: string;
  readonly width: number;
  readonly shortestKnown: number;
  readonly radii: readonly number[];
}

interface Floor {
  readonly name: string;
  readonly floor: readonly [number, number];
  readonly fewestKnown: number;
  readonly rectangles: readonly (readonly [number, number])[];
}

function read<T>(file: string): T {
  return JSON.parse(readFileSync(`fixtures/packing/${file}.json`, "utf8")) as T;
}

function fits(width: number, depth: number, footprints: Footprint[], effort: number): boolean {
  const spots = fitShelf(width, depth, 0, footprints, effort, 1);
  if (!spots) return false;
  const layout = spots.map((spot, i) => ({ ...spot, footprint: footprints[i]! }));
  expect(worstMissCm(width, depth, 0, layout)).toBeLessThanOrEqual(1e-6);
  return true;
}

describe("n equal circles in a square (E. Specht, packomania.com, list csq; proven optimal for these n)", () => {
  const records = Object.entries(
    read<{ radiusInUnitSquare: Record<string, number> }>("equal-circles").radiusInUnitSquare,
  );

  test.each(records)("%s circles fit a side 0.5 %% longer than the best known", (n, radius) => {
    const side = (10 / radius) * 1.005;
    expect(fits(side, side, times(Number(n), disc(20)), 20000)).toBe(true);
  });

  test.each(records)("%s circles never fit a side 0.1 %% shorter, nor are they refused at it", (n, radius) => {
    const side = 10 / radius;
    expect(fits(side * 0.999, side * 0.999, times(Number(n), disc(20)), 60)).toBe(false);
    expect(cannotFitShelf(side * 1.000001, side * 1.000001, 0, times(Number(n), disc(20)))).toBe(false);
  });
});

// E. Specht, packomania.com, list crc_0.500: circles in a rectangle 1 × 1/2, best known. Eight: the grid of 4 × 2.
describe("n equal circles in a rectangle twice as long as wide", () => {
  const radii = [
    [3, (3 - Math.sqrt(7)) / 2],
    [4, (11 - 6 * Math.sqrt(3)) / 4],
    [5, 9 / 2 - Math.sqrt(19)],
    [6, (27 - 10 * Math.sqrt(7)) / 4],
    [7, 1 / (4 + Math.sqrt(6) + Math.SQRT2)],
    [8, 1 / 8],
  ] as const;

  test.each(radii)("%s circles fit a shelf 0.5 %% larger than the best known and none 0.1 %% smaller", (n, radius) => {
    const pans = times(n, disc(20));
    const long = 10 / radius;
    expect(fits(long * 1.005, (long / 2) * 1.005, pans, 5000)).toBe(true);
    expect(fits(long * 0.999, (long / 2) * 0.999, pans, 200)).toBe(false);
  });
});

describe("circles of many sizes in a strip (Stoyan and Yaskov; KBG)", () => {
  test.each(read<{ instances: Strip[] }>("strips").instances)(
    "$name fits 5 % more than the shortest length",
    (strip) => {
      const pans = strip.radii.map((radius) => disc(20 * radius));
      expect(fits(strip.shortestKnown * 10.5, strip.width * 10, pans, 30000)).toBe(true);
    },
  );
});

describe("rectangles into fewest equal floors (Berkey and Wang; Martello and Vigo)", () => {
  test.each(read<{ instances: Floor[] }>("rectangles").instances)(
    "$name needs no more floors than the best known",
    (set) => {
      const [widthCm, depthCm] = set.floor;
      const shelf = { id: "only", widthCm, depthCm, clearHeightCm: 10, maxKg: Infinity, offsetC: 0 };
      const pans = set.rectangles.map(([w, d]) => ({ footprint: rectangle(w, d), heightCm: 5, massKg: 1 }));
      const loaded = packIntoLoads(
        { kind: "shelves", gapCm: 0, shelves: [shelf] },
        pans,
        times(pans.length, [0]),
        8000,
        1,
      );
      const loads = loadsOf(loaded);
      expect(Math.max(...loads) + 1).toBe(set.fewestKnown);
      for (let load = 0; load < set.fewestKnown; load++) {
        const layout = pans.flatMap(({ footprint }, i) =>
          loads[i] === load ? [{ ...loaded[i]!.place, footprint }] : [],
        );
        expect(worstMissCm(widthCm, depthCm, 0, layout)).toBeLessThanOrEqual(1e-6);
      }
    },
  );
});
