import { describe, expect, test } from "vitest";
import type { PackPan } from "../../../../solver/fit/footprint.ts";
import { addToLayout, packLoad } from "../../../../solver/fit/load-fit.ts";
import type { Shelf, ShelfSpace } from "../../../../solver/shop.ts";
import { disc, rectangle, times, worstMissCm } from "./own-check.ts";

function shelf(id: string, changes: Partial<Shelf> = {}): Shelf {
  return { id, widthCm: 80, depthCm: 60, clearHeightCm: 18, maxKg: 20, offsetC: 0, ...changes };
}

function oven(...shelves: Shelf[]): ShelfSpace {
  return { kind: "shelves", gapCm: 2, shelves };
}

function pan(footprint: PackPan["footprint"], heightCm = 5, massKg = 1): PackPan {
  return { footprint, heightCm, massKg };
}

/** Shelf of each pan after the check of gaps, heights and masses with own arithmetic; undefined where nothing fits. */
function shelvesOf(space: ShelfSpace, pans: PackPan[], preference: number[][], effort: number): number[] | undefined {
  const { places } = packLoad(space, pans, preference, effort, 3);
  if (!places) return undefined;
  space.shelves.forEach((own, at) => {
    const lying = pans.flatMap((one, i) => (places[i]!.shelf === at ? [{ ...one, ...places[i]! }] : []));
    expect(worstMissCm(own.widthCm, own.depthCm, space.gapCm, lying)).toBeLessThanOrEqual(1e-6);
    expect(lying.reduce((sum, one) => sum + one.massKg, 0)).toBeLessThanOrEqual(own.maxKg + 1e-6);
    for (const one of lying) expect(one.heightCm).toBeLessThanOrEqual(own.clearHeightCm);
  });
  places.forEach((place, i) => expect(preference[i]).toContain(place.shelf));
  return places.map((place) => place.shelf);
}

describe("a load on several shelves", () => {
  test("a pan goes to the first shelf of its list while there is room", () => {
    const space = oven(shelf("top"), shelf("middle"));
    expect(
      shelvesOf(
        space,
        [pan(disc(28)), pan(disc(24))],
        [
          [1, 0],
          [0, 1],
        ],
        0,
      ),
    ).toEqual([1, 0]);
  });

  test("a tall pot goes where the shelf above leaves it room, and is refused where none does", () => {
    const space = oven(shelf("top", { clearHeightCm: 10 }), shelf("middle"));
    expect(shelvesOf(space, [pan(disc(28), 15)], [[0, 1]], 0)).toEqual([1]);
    expect(packLoad(space, [pan(disc(28), 19)], [[0, 1]], 100, 1)).toEqual({
      places: undefined,
      proven: true,
      why: "height",
    });
  });

  test("cast iron spreads over the shelves by their mass limits", () => {
    const space = oven(shelf("top", { maxKg: 8 }), shelf("middle", { maxKg: 8 }));
    const irons = times(4, pan(disc(24), 5, 4));
    expect(shelvesOf(space, irons, times(4, [0, 1]), 100)!.toSorted((a, b) => a - b)).toEqual([0, 0, 1, 1]);
    expect(packLoad(space, [...irons, pan(disc(20), 5, 1)], times(5, [0, 1]), 100, 1)).toMatchObject({
      proven: true,
      why: "shelf-mass",
    });
  });

  // 5 + 3 + 2 and 4 + 3 + 3 kg: the only way of carrying these twice on 10 kg, whichever pan comes first.
  test("masses that fill both shelves to the gram are found", () => {
    const space = oven(shelf("top", { maxKg: 10 }), shelf("middle", { maxKg: 10 }));
    const pans = [3, 3, 3, 2, 4, 5].map((massKg) => pan(disc(20), 5, massKg));
    expect(shelvesOf(space, pans, times(6, [0, 1]), 500)).toBeDefined();
  });

  test("a pan wider than every shelf is refused alone, a load larger than the shelves by area", () => {
    const space = oven(shelf("top"), shelf("middle"));
    expect(packLoad(space, [pan(disc(58))], [[0, 1]], 100, 1)).toMatchObject({ proven: true, why: "single" });
    expect(packLoad(space, times(12, pan(rectangle(28, 38))), times(12, [0, 1]), 100, 1)).toMatchObject({
      proven: true,
      why: "area",
    });
  });

  test("three pans of which no two share a shelf need three shelves", () => {
    const pans = times(3, pan(rectangle(50, 40)));
    expect(packLoad(oven(shelf("a"), shelf("b")), pans, times(3, [0, 1]), 10, 1)).toMatchObject({ proven: true });
    expect(shelvesOf(oven(shelf("a"), shelf("b"), shelf("c")), pans, times(3, [0, 1, 2]), 0)).toBeDefined();
  });

  test("pans whose heat allows one shelf only push the others to the next", () => {
    const space = oven(shelf("hot"), shelf("cool"));
    const pans = [...times(6, pan(disc(22))), ...times(6, pan(disc(21.5)))];
    const preference = [...times(6, [0, 1]), ...times(6, [0])];
    expect(shelvesOf(space, pans, preference, 200)).toEqual([...times(6, 1), ...times(6, 0)]);
  });
});

describe("one pan more in a layout", () => {
  // Three and two pans in staggered rows: the sixth would need them in straight rows, so the others would have to move.
  test("it finds the room left, leaves the others where they are and gives up where they would have to move", () => {
    const space = oven(shelf("only"));
    const pans = times(4, pan(disc(23)));
    const { places } = packLoad(space, pans, times(4, [0]), 0, 1);
    const fifth = addToLayout(space, pans, places!, pans[0]!, [0]);
    expect(fifth).toBeDefined();
    const all = [...places!, fifth!].map((place) => ({ ...place, footprint: disc(23) }));
    expect(worstMissCm(80, 60, 2, all)).toBeLessThanOrEqual(1e-6);
    expect(addToLayout(space, times(5, pans[0]!), [...places!, fifth!], pans[0]!, [0])).toBeUndefined();
    expect(shelvesOf(space, times(6, pans[0]!), times(6, [0]), 100)).toBeDefined();
  });

  test("it minds the clear height and the shelf's mass limit", () => {
    const space = oven(shelf("low", { clearHeightCm: 6 }), shelf("weak", { maxKg: 2 }), shelf("last"));
    expect(addToLayout(space, [], [], pan(disc(20), 8, 3), [0, 1, 2])?.shelf).toBe(2);
    expect(addToLayout(space, [], [], pan(disc(20), 8, 3), [0, 1])).toBeUndefined();
  });
});
