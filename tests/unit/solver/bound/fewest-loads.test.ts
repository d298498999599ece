/** As few loads as shares allow, each at the least it can be worth, by hand. */
import { expect, it } from "vitest";
import { leastOf } from "../../../../solver/bound/fewest-loads.ts";

interface Priced {
  readonly name: string;
  readonly worth: number;
  readonly count: number;
  readonly shares: readonly number[];
}

function asked(...parts: readonly Priced[]): { readonly worth: number; readonly charged: string } {
  const charged: string[] = [];
  const worth = leastOf(
    parts,
    (part) => part.worth,
    ({ name }, loads) => charged.push(`${loads}${name}`),
  );
  return { worth, charged: charged.join(" ") };
}

const pan = (name: string, worth: number, count: number, ...shares: readonly number[]): Priced => ({
  name,
  worth,
  count,
  shares,
});

it("counts the k-th load as the dearest bake that the loads before it cannot have held", () => {
  // 2 × 0.4 fill one load, 2 × 0.3 more begin a second: that one holds a cheap bake at least.
  expect(asked(pan("a", 10, 2, 0.4), pan("b", 4, 2, 0.3))).toEqual({ worth: 14, charged: "1a 1b" });
  // 2 × 0.6 are two loads as soon as they may be split, and 0.6 more do not begin a third.
  expect(asked(pan("a", 10, 2, 0.6), pan("b", 4, 2, 0.3))).toEqual({ worth: 20, charged: "2a" });
});

it("goes by the measure that asks for most, and never below one load of the dearest", () => {
  expect(asked(pan("a", 10, 3, 0.1, 0.5), pan("b", 4, 1, 0.1, 0.1))).toEqual({ worth: 20, charged: "2a" });
  expect(asked(pan("a", 10, 0, 0.5), pan("b", 4, 1, 0))).toEqual({ worth: 4, charged: "1b" });
  expect(asked(pan("a", 10, 1, 0, 0.2))).toEqual({ worth: 10, charged: "1a" });
  expect(asked()).toEqual({ worth: 0, charged: "" });
});
