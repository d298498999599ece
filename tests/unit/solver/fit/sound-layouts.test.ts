/** For any pans: a layout given is sound, the same again for the same seed, and the question is left as it was. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fillShelf } from "../../../../solver/fit/fill-shelf.ts";
import type { Footprint, PackPan, Place } from "../../../../solver/fit/footprint.ts";
import { packIntoLoads } from "../../../../solver/fit/load-count.ts";
import { addToLayout, packLoad } from "../../../../solver/fit/load-fit.ts";
import { cannotFitShelf, fitShelf } from "../../../../solver/fit/shelf-fit.ts";
import { seededDice } from "../../../../solver/fit/seeded.ts";
import type { ShelfSpace } from "../../../../solver/shop.ts";
import { loadsOf, rectangle, worstMissCm } from "./own-check.ts";

const runs = { seed: 20260310, numRuns: 120 } as const;
const cm = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: least * 10, max: most * 10 }).map((tenths) => tenths / 10);

const footprint: fc.Arbitrary<Footprint> = fc.oneof(
  { weight: 3, arbitrary: cm(12, 36).map((diameterCm): Footprint => ({ kind: "disc", diameterCm })) },
  { weight: 1, arbitrary: fc.tuple(cm(8, 40), cm(8, 40)).map(([w, d]) => rectangle(w, d)) },
);
const pan: fc.Arbitrary<PackPan> = fc.record({ footprint, heightCm: cm(2, 20), massKg: cm(0.5, 6) });
const space: fc.Arbitrary<ShelfSpace> = fc.record({
  kind: fc.constant("shelves" as const),
  gapCm: cm(0, 4),
  shelves: fc.array(
    fc.record({
      id: fc.constant("s"),
      widthCm: cm(40, 110),
      depthCm: cm(40, 80),
      clearHeightCm: cm(10, 20),
      maxKg: fc.oneof(cm(8, 30), fc.constant(Infinity)),
      offsetC: fc.constant(0),
    }),
    { minLength: 1, maxLength: 3 },
  ),
});

function expectSound(own: ShelfSpace, pans: readonly PackPan[], places: readonly Place[]): void {
  expect(places).toHaveLength(pans.length);
  own.shelves.forEach((shelf, at) => {
    const lying = pans.flatMap((one, i) => (places[i]!.shelf === at ? [{ ...one, ...places[i]! }] : []));
    expect(worstMissCm(shelf.widthCm, shelf.depthCm, own.gapCm, lying)).toBeLessThanOrEqual(1e-6);
    expect(lying.reduce((sum, one) => sum + one.massKg, 0)).toBeLessThanOrEqual(shelf.maxKg + 1e-6);
    for (const one of lying) expect(one.heightCm).toBeLessThanOrEqual(shelf.clearHeightCm);
  });
}

describe("any load", () => {
  test("is laid out soundly, alike for the same seed, with the question untouched", () => {
    const question = fc.tuple(space, fc.array(pan, { maxLength: 16 }), fc.integer({ min: 0, max: 60 }), fc.nat(1000));
    fc.assert(
      fc.property(question, ([own, pans, effort, seed]) => {
        const preference = pans.map((_, i) => own.shelves.map((__, at) => (at + i) % own.shelves.length));
        const before = structuredClone({ own, pans, preference });
        const answer = packLoad(own, pans, preference, effort, seed);
        if (answer.places) expectSound(own, pans, answer.places);
        expect(packLoad(own, pans, preference, effort, seed)).toEqual(answer);
        expect({ own, pans, preference }).toEqual(before);
      }),
      runs,
    );
  });

  test("dealt out to shelves is laid out where greedy orders do, in all but a few of a hundred, and often where they do not", () => {
    const told = { both: 0, dealtOnly: 0, quickOnly: 0 };
    fc.assert(
      fc.property(space, fc.array(pan, { minLength: 4, maxLength: 14 }), (own, pans) => {
        const all = own.shelves.map((_, at) => at);
        const preference = pans.map(() => all);
        const quick = packLoad(own, pans, preference, 0, 1);
        const dealt = packLoad(own, pans, preference, 0, 1, "dealt");
        if (quick.places && dealt.places) expect(dealt).toEqual(quick);
        else if (dealt.places) expectSound(own, pans, dealt.places);
        if (dealt.places) told[quick.places ? "both" : "dealtOnly"]++;
        else if (quick.places) told.quickOnly++;
      }),
      { ...runs, numRuns: 1500 },
    );
    expect(told.both).toBeGreaterThan(100);
    expect(told.dealtOnly).toBeGreaterThan(10);
    expect(told.quickOnly).toBeLessThan(0.03 * told.both);
  });

  test("takes one pan more soundly or not at all", () => {
    fc.assert(
      fc.property(space, fc.array(pan, { maxLength: 8 }), pan, (own, pans, extra) => {
        const all = own.shelves.map((_, at) => at);
        const { places } = packLoad(
          own,
          pans,
          pans.map(() => all),
          0,
          1,
        );
        fc.pre(places !== undefined);
        const place = addToLayout(own, pans, places!, extra, all);
        if (place) expectSound(own, [...pans, extra], [...places!, place]);
      }),
      runs,
    );
  });

  test("put together into loads fits, and only a pan that fits nowhere is left out", () => {
    fc.assert(
      fc.property(space, fc.array(pan, { maxLength: 14 }), (own, pans) => {
        const all = own.shelves.map((_, at) => at);
        const loaded = packIntoLoads(
          own,
          pans,
          pans.map(() => all),
          40,
          1,
        );
        const loads = loadsOf(loaded);
        for (const load of new Set(loads.filter((one) => one >= 0))) {
          const members = pans.map((_, i) => i).filter((i) => loads[i] === load);
          expectSound(
            own,
            members.map((i) => pans[i]!),
            members.map((i) => loaded[i]!.place),
          );
        }
        pans.forEach((one, i) => {
          const alone = packLoad(own, [one], [all], 0, 1);
          expect(loads[i] === -1).toBe(alone.places === undefined);
        });
        const used = new Set(loads.filter((load) => load >= 0));
        expect([...used].toSorted((a, b) => a - b)).toEqual([...used].map((_, at) => at));
      }),
      { ...runs, numRuns: 60 },
    );
  });
});

describe("any shelf", () => {
  test("filled from a pool keeps all distances and counts the value chosen", () => {
    fc.assert(
      fc.property(fc.array(footprint, { maxLength: 14 }), cm(0, 3), fc.nat(50), (pool, gap, effort) => {
        const value = pool.map((_, i) => 1 + (i % 3));
        const fill = fillShelf(70, 60, gap, pool, effort, 1, value);
        const layout = fill.spots.map((spot, at) => ({ ...spot, footprint: pool[fill.chosen[at]!]! }));
        expect(new Set(fill.chosen).size).toBe(fill.chosen.length);
        expect(worstMissCm(70, 60, gap, layout)).toBeLessThanOrEqual(1e-6);
        expect(fill.value).toBeCloseTo(fill.chosen.reduce((sum, i) => sum + value[i]!, 0));
      }),
      runs,
    );
  });

  test("is never proven too small for a layout that exists", () => {
    fc.assert(
      fc.property(fc.array(footprint, { minLength: 1, maxLength: 10 }), cm(0, 3), (pans, gap) => {
        const spots = fillShelf(75, 60, gap, pans, 20, 1).chosen.map((i) => pans[i]!);
        expect(cannotFitShelf(75, 60, gap, spots)).toBe(false);
      }),
      runs,
    );
  });
});

/** Sides of pieces cut from a full shelf by straight cuts, so that all of them fit without waste. */
function cutUp(pieces: number, seed: number): Footprint[] {
  const dice = seededDice(seed);
  const sides: [number, number][] = [[80, 80]];
  while (sides.length < pieces) {
    sides.sort((a, b) => b[0] * b[1] - a[0] * a[1]);
    const [piece] = sides.splice(dice.below(Math.min(2, sides.length)), 1);
    const [long, short] = [Math.max(...piece!), Math.min(...piece!)];
    const cut = Math.round(long * (2.5 + 5 * dice.next())) / 10;
    sides.push([cut, short], [long - cut, short]);
  }
  return sides.map(([w, d]) => (dice.next() < 0.5 ? rectangle(w, d) : rectangle(d, w)));
}

describe("a full shelf cut up", () => {
  test.each([
    [5, 0, 0],
    [8, 30, 0],
    [12, 300, 2],
  ])("into %s pieces is put together again with %s steps, missed at most %s times of 40", (pieces, effort, most) => {
    let missed = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const rectangles = cutUp(pieces, seed);
      expect(cannotFitShelf(80, 80, 0, rectangles)).toBe(false);
      const spots = fitShelf(80, 80, 0, rectangles, effort, 1);
      if (!spots) missed++;
      else {
        const layout = spots.map((spot, i) => ({ ...spot, footprint: rectangles[i]! }));
        expect(worstMissCm(80, 80, 0, layout)).toBeLessThanOrEqual(1e-6);
      }
    }
    expect(missed).toBeLessThanOrEqual(most);
  });
});
