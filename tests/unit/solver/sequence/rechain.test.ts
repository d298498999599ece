/** Alike pans whose coats all change loads at once. */
import { expect, it } from "vitest";
import { eject, swap, trade } from "../../../../solver/sequence/exchanges.ts";
import { relocate } from "../../../../solver/sequence/moves.ts";
import { rechain } from "../../../../solver/sequence/rechain.ts";
import { isCoatedInOrder, movedLoads } from "../../../help/moved-loads.ts";
import { twoCoatRequest } from "../../../help/requests.ts";

it("bakes both coats of a pan that was left over in loads that have room, which no other move does", () => {
  const request = twoCoatRequest(40, "a", "b", "c");
  const left = [
    [0, 2],
    [1, 3],
  ];
  const isTakenIn = (loads: readonly (readonly number[])[]): boolean =>
    loads.length === 2 && loads[0]?.includes(4) === true && loads[1]?.includes(5) === true;
  expect(movedLoads(rechain, request, left).some(isTakenIn)).toBe(true);
  for (const move of [relocate, swap, trade, eject])
    expect(movedLoads(move, request, left).some(isTakenIn)).toBe(false);
});

it("opens a load for a first coat before others and lets the next join theirs", () => {
  const found = movedLoads(rechain, twoCoatRequest(40, "a", "b", "c", "d"), [[0, 2, 4], [1, 3, 5], [6], [7]]);
  expect(found).toContainEqual([[6], [0, 2, 4], [1, 3, 5, 7]]);
});

it("leaves every pan its coats, once each and in their order, and no load too full", () => {
  const found = movedLoads(rechain, twoCoatRequest(30, "a", "b", "c", "d"), [[0, 2], [1, 4], [3, 5, 6], [7]]);
  expect(new Set(found.map((loads) => JSON.stringify(loads))).size).toBeGreaterThan(10);
  for (const loads of found) {
    expect(loads.flat().toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(isCoatedInOrder(loads, 4)).toBe(true);
    for (const load of loads) expect(load.length).toBeLessThanOrEqual(3);
  }
});
