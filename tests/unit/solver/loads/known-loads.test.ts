import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { KnownLoads } from "../../../../solver/loads/known-loads.ts";

describe("known loads", () => {
  it("tell nothing of loads that are neither within nor around them", () => {
    const loads = new KnownLoads();
    expect(loads.told([1])).toBeUndefined();
    loads.note([1, 2, 2], true);
    loads.note([3, 4], false);
    expect(loads.told([1, 3])).toBeUndefined();
    expect(loads.told([3])).toBeUndefined();
    expect(loads.told([1, 2, 2, 5])).toBeUndefined();
  });

  it("tell that a load with fewer pans bakes as well, counting alike pans", () => {
    const loads = new KnownLoads();
    loads.note([1, 2, 2, 7], true);
    expect(loads.told([2, 2])).toBe(true);
    expect(loads.told([1, 7])).toBe(true);
    expect(loads.told([1, 2, 2, 7])).toBe(true);
    expect(loads.told([1, 1])).toBeUndefined();
    expect(loads.told([2, 2, 2])).toBeUndefined();
  });

  it("tell that a load with more pans does not bake either, counting alike pans", () => {
    const loads = new KnownLoads();
    loads.note([2, 2, 5], false);
    expect(loads.told([1, 2, 2, 5])).toBe(false);
    expect(loads.told([2, 2, 2, 5])).toBe(false);
    expect(loads.told([2, 5])).toBeUndefined();
    expect(loads.told([2, 5, 5])).toBeUndefined();
  });

  it("keep kinds apart that have the same mark", () => {
    const loads = new KnownLoads();
    loads.note([0, 32], true);
    loads.note([1, 1], false);
    for (const kind of [10, 22, 23, 44, 54, 64, 66, 86]) {
      expect(loads.told([kind])).toBeUndefined();
      expect(loads.told([kind, kind])).toBeUndefined();
    }
  });

  it("never contradict an oven that takes so much, however many loads are known", () => {
    const kinds = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 8 });
    const sorted = kinds.map((some) => some.sort((a, b) => a - b));
    fc.assert(
      fc.property(fc.array(sorted, { minLength: 150, maxLength: 300 }), (asked) => {
        const fits = (some: readonly number[]): boolean => some.reduce((sum, kind) => sum + 1 + (kind % 7), 0) <= 20;
        const loads = new KnownLoads();
        for (const some of asked) {
          const told = loads.told(some);
          if (told === undefined) loads.note(some, fits(some));
          else expect(told).toBe(fits(some));
        }
        for (const some of asked) expect(loads.told(some)).toBe(fits(some));
      }),
      { numRuns: 30, seed: 4 },
    );
  });
});
