import { describe, expect, test } from "vitest";
import { fillShelf } from "../../../../solver/fit/fill-shelf.ts";
import type { PackPan } from "../../../../solver/fit/footprint.ts";
import { packIntoLoads } from "../../../../solver/fit/load-count.ts";
import { packLoad } from "../../../../solver/fit/load-fit.ts";
import type { Shelf } from "../../../../solver/shop.ts";
import { disc, loadsOf, rectangle, times, worstMissCm } from "./own-check.ts";

function shelf(id: string, changes: Partial<Shelf> = {}): Shelf {
  return { id, widthCm: 60, depthCm: 60, clearHeightCm: 18, maxKg: Infinity, offsetC: 0, ...changes };
}

function pan(footprint: PackPan["footprint"], heightCm = 5, massKg = 1): PackPan {
  return { footprint, heightCm, massKg };
}

describe("fewest loads", () => {
  // Four discs of 28 + 2 cm fill a 60 cm floor (62 cm shelf less the gap), so 16 pans take two loads of two shelves.
  test("sixteen 28 cm pans take two loads of two shelves", () => {
    const space = { kind: "shelves", gapCm: 2, shelves: times(2, shelf("s", { widthCm: 62, depthCm: 62 })) } as const;
    const loads = loadsOf(packIntoLoads(space, times(16, pan(disc(28))), times(16, [0, 1]), 500, 1));
    expect(loads.toSorted((a, b) => a - b)).toEqual([...times(8, 0), ...times(8, 1)]);
  });

  test("a tall pot takes the one high shelf of each load, and one too tall is left out", () => {
    const shelves = [shelf("low", { clearHeightCm: 8 }), shelf("high")];
    const pots = [pan(disc(40), 15), pan(disc(40), 15), pan(disc(40), 15), pan(disc(20), 30)];
    const loads = loadsOf(packIntoLoads({ kind: "shelves", gapCm: 2, shelves }, pots, times(4, [0, 1]), 200, 1));
    expect(loads.slice(0, 3).toSorted((a, b) => a - b)).toEqual([0, 1, 2]);
    expect(loads[3]).toBe(-1);
  });

  // Capacity 100 with 51×6, 27×6, 26×6, 23×12: nine loads exist (51+26+23, 27+27+23+23) where first-fit decreasing
  // needs eleven. Witness of the 11/9 bound, from memory; see also G. Dósa, ESCAPE 2007.
  test("masses of the first-fit witness go into nine loads", () => {
    const space = { kind: "shelves", gapCm: 0, shelves: [shelf("s", { maxKg: 100 })] } as const;
    const masses = [...times(6, 51), ...times(6, 27), ...times(6, 26), ...times(12, 23)];
    const pans = masses.map((massKg) => pan(rectangle(5, 5), 5, massKg));
    const loads = loadsOf(packIntoLoads(space, pans, times(30, [0]), 5000, 1));
    expect(Math.max(...loads) + 1).toBe(9);
    for (let load = 0; load < 9; load++) {
      const mass = masses.reduce((sum, own, i) => sum + (loads[i] === load ? own : 0), 0);
      expect(mass).toBeLessThanOrEqual(100);
    }
  });

  test("each load of a mixed day can be laid out", () => {
    const space = { kind: "shelves", gapCm: 3, shelves: times(3, shelf("s", { maxKg: 15 })) } as const;
    const sizes = [18, 20, 22, 24, 26, 28, 30, 32];
    const round = times(3, sizes)
      .flat()
      .map((size) => pan(disc(size), 5, size / 10));
    const pans = [...round, ...times(6, pan(rectangle(24, 38), 6, 2))];
    const preference = pans.map((_, i) => (i % 5 === 0 ? [2] : [0, 1, 2]));
    const loads = loadsOf(packIntoLoads(space, pans, preference, 1000, 1));
    for (let load = 0; load <= Math.max(...loads); load++) {
      const members = pans.map((_, i) => i).filter((i) => loads[i] === load);
      const fit = packLoad(
        space,
        members.map((i) => pans[i]!),
        members.map((i) => preference[i]!),
        5000,
        1,
      );
      expect(fit.places).toBeDefined();
    }
    expect(loads).not.toContain(-1);
  });
});

describe("the fullest shelf", () => {
  // 40×40 + 20×40 + 60×20 fill 60 × 60 exactly; the other two only get in the way.
  test("the three tins that fill the shelf are chosen from five", () => {
    const pool = [rectangle(35, 35), rectangle(40, 40), rectangle(50, 15), rectangle(40, 20), rectangle(20, 60)];
    const fill = fillShelf(60, 60, 0, pool, 300, 1);
    expect(fill.value).toBe(3600);
    expect(fill.chosen.toSorted((a, b) => a - b)).toEqual([1, 3, 4]);
    const layout = fill.spots.map((spot, at) => ({ ...spot, footprint: pool[fill.chosen[at]!]! }));
    expect(worstMissCm(60, 60, 0, layout)).toBeLessThanOrEqual(1e-6);
  });

  test("a given value counts instead of the area, and what is too large is not offered", () => {
    const pool = [disc(70), disc(40), disc(25), disc(25)];
    expect(fillShelf(60, 60, 2, pool, 100, 1, [100, 1, 2, 2]).chosen.toSorted((a, b) => a - b)).toEqual([2, 3]);
    expect(fillShelf(60, 60, 2, [], 100, 1)).toEqual({ chosen: [], spots: [], value: 0 });
  });
});
