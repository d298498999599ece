/** Lots of alike pans of two loads that change places: loads stay within the oven's floor, coats in their order. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import type { Move } from "../../../../solver/sequence/draft.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { swap, trade } from "../../../../solver/sequence/exchanges.ts";
import { relocate } from "../../../../solver/sequence/moves.ts";
import { newLoad } from "../../../../solver/sequence/sequence.ts";
import type { PlanRequest } from "../../../../solver/shop.ts";
import { areaLine, fixedCoat, fixedOven, smallRequest } from "../../../help/requests.ts";

/** What a move makes of the loads in so many draws. */
function made(move: Move, request: PlanRequest, loads: readonly (readonly number[])[]): number[][][] {
  const draft = new Draft(
    new RecipeBook(dayModel(request), 0),
    loads.map((bakes) => newLoad(0, bakes)),
  );
  const random = seededRandom(5);
  const sorted = (bakes: readonly number[]): number[] => bakes.toSorted((a, b) => a - b);
  return Array.from({ length: 400 }, () => move(draft, random))
    .filter((found) => found !== undefined)
    .map((found) => found.map(({ bakes }) => sorted(bakes)));
}

it("gives several small pans for a large one between two full loads, which no single change does", () => {
  const large = { kind: "area", dm2: 20 } as const;
  const request = smallRequest({
    ovens: [fixedOven({ space: { kind: "area", dm2: 30 } })],
    lines: [
      areaLine("large", { shape: large }),
      ...["a", "b", "c", "d"].map((id, at) => areaLine(id, { massKg: 1 + at })),
    ],
  });
  // 30 dm² each: the large pan and a small one, three small ones, none alike.
  const full = [
    [0, 1],
    [2, 3, 4],
  ];
  const isLargeLater = (loads: readonly (readonly number[])[]): boolean =>
    loads.length === 2 && loads[0]?.includes(1) === true && loads[1]?.includes(0) === true;
  const traded = made(trade, request, full);
  expect(traded.some(isLargeLater)).toBe(true);
  for (const loads of traded) {
    expect(loads.flat().toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4]);
    for (const bakes of loads) expect(bakes.length + (bakes.includes(0) ? 1 : 0)).toBeLessThanOrEqual(3);
  }
  for (const move of [relocate, swap]) expect(made(move, request, full).some(isLargeLater)).toBe(false);
});

it("bakes no coat with or before the one that it goes on", () => {
  const request = smallRequest({
    coatings: [
      { id: "two", name: "two coats", coats: [fixedCoat({ name: "primer" }), fixedCoat({ name: "top coat" })] },
    ],
    ovens: [fixedOven({ space: { kind: "area", dm2: 40 } })],
    lines: ["a", "b", "c"].map((id) => areaLine(id)),
  });
  // Bakes 0, 2 and 4 are primers, each under the one after it.
  const traded = made(trade, request, [
    [0, 2],
    [1, 4],
    [3, 5],
  ]);
  expect(new Set(traded.map((loads) => JSON.stringify(loads))).size).toBeGreaterThan(1);
  for (const loads of traded) {
    const at = (bake: number): number => loads.findIndex((bakes) => bakes.includes(bake));
    for (const primer of [0, 2, 4]) expect(at(primer)).toBeLessThan(at(primer + 1));
  }
});
