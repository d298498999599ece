/** Loads dealt out to shelves by what is known of single shelves. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dealLoad } from "../../../../solver/fit/deal-load.ts";
import type { Footprint, PackPan } from "../../../../solver/fit/footprint.ts";
import { packLoad, type Laying } from "../../../../solver/fit/load-fit.ts";
import { floorOf, outlineOf } from "../../../../solver/fit/outline.ts";
import { fitShelf } from "../../../../solver/fit/shelf-fit.ts";
import type { ShelfSpace } from "../../../../solver/shop.ts";
import { disc, rectangle, worstMissCm } from "./own-check.ts";

const GAP_CM = 2;

function spaceOf(maxKg: readonly number[], clearHeightCm: readonly number[] = maxKg.map(() => 20)): ShelfSpace {
  const shelves = maxKg.map((kg, at) => ({
    id: `s${at}`,
    widthCm: 70,
    depthCm: 60,
    clearHeightCm: clearHeightCm[at]!,
    maxKg: kg,
    offsetC: 0,
  }));
  return { kind: "shelves", gapCm: GAP_CM, shelves };
}

const panOf = (footprint: Footprint, massKg = 1, heightCm = 5): PackPan => ({ footprint, massKg, heightCm });

/** Shelf of each pan. */
function laid(space: ShelfSpace, pans: readonly PackPan[], laying: Laying): number[] | undefined {
  const all = space.shelves.map((_, at) => at);
  const { places } = packLoad(
    space,
    pans,
    pans.map(() => all),
    0,
    1,
    laying,
  );
  space.shelves.forEach((shelf, at) => {
    const lying = pans.flatMap((pan, i) => (places?.[i]!.shelf === at ? [{ ...pan, ...places[i]! }] : []));
    expect(worstMissCm(70, 60, GAP_CM, lying)).toBeLessThanOrEqual(1e-6);
    expect(lying.reduce((sum, { massKg }) => sum + massKg, 0)).toBeLessThanOrEqual(shelf.maxKg + 1e-9);
    for (const { heightCm } of lying) expect(heightCm).toBeLessThanOrEqual(shelf.clearHeightCm);
  });
  return places?.map(({ shelf }) => shelf);
}

describe("a load dealt out to shelves", () => {
  it("is found where some way to deal it leaves each shelf what lies on it, by trying all of them", () => {
    const told = { quick: 0, dealt: 0, none: 0 };
    const size = fc.integer({ min: 18, max: 36 });
    const footprint = fc.oneof(
      size.map(disc),
      fc.tuple(size, size).map(([w, d]) => rectangle(w, d)),
    );
    const pan = fc.record({ footprint, massKg: fc.integer({ min: 1, max: 4 }), heightCm: fc.constantFrom(5, 15) });
    fc.assert(
      fc.property(fc.array(pan, { minLength: 4, maxLength: 8 }), (pans) => {
        const space = spaceOf([12, 9], [20, 12]);
        const shelves = laid(space, pans, "dealt");
        if (laid(space, pans, "quick") !== undefined) told.quick++;
        if (shelves !== undefined) told.dealt++;
        else if (isDealtByAllWays(space, pans)) expect.fail(JSON.stringify(pans));
        else told.none++;
      }),
      { numRuns: 500, seed: 21 },
    );
    expect(told.dealt).toBeGreaterThan(told.quick + 5);
    expect(told.none).toBeGreaterThan(50);
  });

  it("takes a pan back where another needs its room", () => {
    // A shelf takes both large ones and one small, or one large and two small.
    const pans = [32, 32, 28, 28, 28, 28].map((cm) => panOf(disc(cm)));
    const space = spaceOf([Infinity, Infinity]);
    expect(laid(space, pans, "quick")).toBeUndefined();
    const shelves = laid(space, pans, "dealt")!;
    expect(shelves[0]).not.toBe(shelves[1]);
    expect(shelves.filter((shelf) => shelf === 0)).toHaveLength(3);
  });

  it("leaves a shelf what it can bear", () => {
    const pans = [4, 4, 3, 3, 3, 3].map((kg) => panOf(disc(18), kg));
    expect(laid(spaceOf([10, 10]), pans, "quick")).toBeUndefined();
    expect(laid(spaceOf([10, 10]), pans, "dealt")).toBeDefined();
    expect(laid(spaceOf([10.5, 9.5]), pans, "dealt")).toBeUndefined();
  });

  it("is laid greedily where its pans are many and small", () => {
    const pans = Array.from({ length: 30 }, (_, at) => panOf(disc(9 + at / 100)));
    const shelves = laid(spaceOf([Infinity, Infinity]), pans, "dealt");
    expect(shelves).toBeDefined();
    expect(shelves).toEqual(laid(spaceOf([Infinity, Infinity]), pans, "quick"));
  });

  it("puts pans on the first shelves of their lists where it has the choice", () => {
    const space = spaceOf([12, 12]);
    const pans = [panOf(disc(20), 7), panOf(disc(20), 6), panOf(disc(20), 5), panOf(disc(20), 5)];
    for (const preference of [
      [0, 1],
      [1, 0],
    ]) {
      const { places } = packLoad(
        space,
        pans,
        pans.map(() => preference),
        0,
        1,
        "dealt",
      );
      const massOn = (at: number): number =>
        pans.reduce((sum, { massKg }, i) => sum + (places![i]!.shelf === at ? massKg : 0), 0);
      expect(massOn(preference[0]!)).toBe(12);
      expect(massOn(preference[1]!)).toBe(11);
    }
  });
});

describe("a load for which no deal is found", () => {
  /** Small discs of 2, 4, 6 … kg, half a kilogram more in all than two shelves bear. */
  const dealt = (pans: number) => {
    const massKg = Array.from({ length: pans }, (_, at) => 2 * (at + 1));
    const maxKg = (pans * (pans + 1)) / 2 - 0.25;
    const floor = floorOf(70, 60, GAP_CM);
    const outlines = massKg.map(() => outlineOf(disc(10), GAP_CM));
    const freight = { outlines, area: massKg.map(() => 144), massKg, allowed: massKg.map(() => [0, 1]) };
    return dealLoad(
      freight,
      [0, 1].map(() => ({ floor, maxKg, members: [], centres: [] })),
    );
  };

  it("has none where all ways were gone through", () => {
    expect(dealt(4)).toEqual({ trays: undefined, isImpossible: true });
  });

  it("may have one where the deal was broken off", () => {
    expect(dealt(16)).toEqual({ trays: undefined, isImpossible: false });
  });
});

function isDealtByAllWays(space: ShelfSpace, pans: readonly PackPan[]): boolean {
  for (let way = 0; way < 2 ** pans.length; way++) {
    const isSound = space.shelves.every((shelf, at) => {
      const on = pans.filter((_, i) => ((way >> i) & 1) === at);
      return (
        on.reduce((sum, { massKg }) => sum + massKg, 0) <= shelf.maxKg &&
        on.every(({ heightCm }) => heightCm <= shelf.clearHeightCm) &&
        fitShelf(
          70,
          60,
          GAP_CM,
          on.map(({ footprint }) => footprint),
          0,
          1,
        ) !== undefined
      );
    });
    if (isSound) return true;
  }
  return false;
}
