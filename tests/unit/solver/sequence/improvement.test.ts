/** Where a search goes on from. */
import { describe, expect, it } from "vitest";
import { walkable } from "../../../../solver/sequence/improvement.ts";
import type { Sequence } from "../../../../solver/sequence/sequence.ts";

const polished: Sequence = { haste: 1, heatCredit: 0, loads: [] };
const unpolished: Sequence = { haste: 2, heatCredit: 0, loads: [] };

describe("a walk that rounds", () => {
  it.each([
    { rough: 207, roughBefore: 210, begins: polished, why: "which it sees for what it is" },
    { rough: 528, roughBefore: 210, begins: unpolished, why: "since it sees a break missed in the polished one" },
    { rough: 210, roughBefore: 210, begins: polished, why: "since nothing is gained by the other" },
  ])("of a sequence of 206 seen as $rough, of $roughBefore before, begins from the one $why", (one) => {
    const roughCost = (sequence: Sequence): number => (sequence === polished ? one.rough : one.roughBefore);
    expect(walkable({ sequence: polished, cost: 206, unpolished }, roughCost)).toBe(one.begins);
  });

  it("begins from a sequence that the last hand has not been over", () => {
    expect(walkable({ sequence: unpolished, cost: 210 }, () => 1000)).toBe(unpolished);
  });
});
