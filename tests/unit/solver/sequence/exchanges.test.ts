/** Lots of alike pans that change places: loads stay within the oven's floor, coats in their order. */
import { expect, it } from "vitest";
import type { Move } from "../../../../solver/sequence/draft.ts";
import { eject, swap, trade } from "../../../../solver/sequence/exchanges.ts";
import { relocate } from "../../../../solver/sequence/moves.ts";
import { isCoatedInOrder, movedLoads } from "../../../help/moved-loads.ts";
import { areaLine, fixedOven, smallRequest, twoCoatRequest } from "../../../help/requests.ts";

/** One large pan of 20 dm², bake 0, and small ones of 10 dm², of so many kg, for a floor of 30 dm². */
function largeAndSmall(...massesKg: readonly number[]) {
  return smallRequest({
    ovens: [fixedOven({ space: { kind: "area", dm2: 30 } })],
    lines: [
      areaLine("large", { shape: { kind: "area", dm2: 20 } }),
      ...massesKg.map((massKg, at) => areaLine(`small ${at}`, { massKg })),
    ],
  });
}

/** No pan comes or goes, and the large one counts for two. */
function expectSound(found: readonly (readonly (readonly number[])[])[], bakes: number): void {
  for (const loads of found) {
    expect(loads.flat().toSorted((a, b) => a - b)).toEqual([...Array.from({ length: bakes }).keys()]);
    for (const load of loads) expect(load.length + (load.includes(0) ? 1 : 0)).toBeLessThanOrEqual(3);
  }
}

it("gives several small pans for a large one between two full loads, which no single change does", () => {
  const request = largeAndSmall(1, 2, 3, 4);
  const full = [
    [0, 1],
    [2, 3, 4],
  ];
  const isLargeLater = (loads: readonly (readonly number[])[]): boolean =>
    loads.length === 2 && loads[0]?.includes(1) === true && loads[1]?.includes(0) === true;
  const traded = movedLoads(trade, request, full);
  expect(traded.some(isLargeLater)).toBe(true);
  expectSound(traded, 5);
  for (const move of [relocate, swap]) expect(movedLoads(move, request, full).some(isLargeLater)).toBe(false);
});

it("sends what makes room for a large pan to several loads, which no trade does", () => {
  const request = largeAndSmall(1, 2, 3, 4, 5);
  const loads = [[0, 1], [2, 3, 4], [5]];
  const isScattered = ([first, second, third]: readonly (readonly number[])[]): boolean =>
    first?.length === 2 && second?.includes(0) === true && third?.length === 2;
  const ejected = movedLoads(eject, request, loads);
  expect(ejected.some(isScattered)).toBe(true);
  expectSound(ejected, 6);
  for (const move of [relocate, swap, trade]) expect(movedLoads(move, request, loads).some(isScattered)).toBe(false);
});

it("bakes each of some alike pans once", () => {
  const found = movedLoads(eject, largeAndSmall(1, 1, 1, 1, 1), [[0, 1], [2, 3, 4], [5]], 5000);
  expect(found.length).toBeGreaterThan(0);
  expectSound(found, 6);
});

it.each<[string, Move]>([
  ["trade", trade],
  ["eject", eject],
])("bakes no coat with or before the one that it goes on: %s", (_, move) => {
  const found = movedLoads(move, twoCoatRequest(40, "a", "b", "c"), [
    [0, 2],
    [1, 4],
    [3, 5],
  ]);
  expect(new Set(found.map((loads) => JSON.stringify(loads))).size).toBeGreaterThan(1);
  for (const loads of found) {
    expect(loads.flat().toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(isCoatedInOrder(loads, 3)).toBe(true);
  }
});
