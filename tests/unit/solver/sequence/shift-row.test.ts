/** Loads in a row that go to another place together. */
import { expect, it } from "vitest";
import { shift, shiftRow } from "../../../../solver/sequence/moves.ts";
import { isCoatedInOrder, movedLoads } from "../../../help/moved-loads.ts";
import { twoCoatRequest } from "../../../help/requests.ts";

const request = twoCoatRequest(40, "a", "b", "c");

it("brings a pan's two coats before other loads at once, which no single load can", () => {
  const loads = [[2], [4], [0], [1]];
  const both = [[0], [1], [2], [4]];
  expect(movedLoads(shiftRow, request, loads)).toContainEqual(both);
  expect(movedLoads(shift, request, loads)).not.toContainEqual(both);
});

it("bakes no coat before the one that it goes on, and loses no load", () => {
  const found = movedLoads(shiftRow, request, [[0], [2], [1], [4], [3], [5]]);
  expect(new Set(found.map((loads) => JSON.stringify(loads))).size).toBeGreaterThan(3);
  for (const loads of found) {
    expect(loads.flat().toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(isCoatedInOrder(loads, 3)).toBe(true);
  }
});
