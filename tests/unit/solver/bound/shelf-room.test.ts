/** What a shelf is proven not to hold, against published packings, and how hard it is tried. */
import { describe, expect, it } from "vitest";
import { roomOf } from "../../../../solver/bound/shelf-room.ts";
import type { BakeKind, DayModel } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { packPanOf } from "../../../../solver/loads/place-load.ts";
import type { ShelfSpace } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const GAP_CM = 2;
const { request } = dayModel(requestOf(generatedDay({ pans: 8, ovens: 1, door: "hot", pace: "calm", seed: 51 })));

/** Discs of these diameters, one line each, and one shelf. */
function discs(diametersCm: readonly number[], widthCm: number, depthCm: number): DayModel {
  const shelf = { id: "only", widthCm, depthCm, maxKg: Infinity, offsetC: 0, clearHeightCm: 20 };
  const space: ShelfSpace = { kind: "shelves", gapCm: GAP_CM, shelves: [shelf] };
  const lines = diametersCm.map((diameterCm, at) => ({
    ...request.lines[0]!,
    id: `${at}`,
    shape: { kind: "disc", diameterCm } as const,
    heightCm: 8,
  }));
  return dayModel({ ...request, ovens: [{ ...request.ovens[0]!, space }], lines });
}

function kindOf({ bakes, pans, kinds }: DayModel, line: number): BakeKind {
  return kinds[bakes.find(({ pan }) => pans[pan]!.line === line)!.kind]!;
}

function neverFits(day: DayModel, counts: readonly number[]): boolean {
  const parties = counts.map((count, line) => ({ kind: kindOf(day, line), count, shelves: [0] }));
  return roomOf(day.request.ovens[0]!.space as ShelfSpace).neverFits(parties);
}

describe("six discs on a square", () => {
  // Radius of the largest six circles in a unit square, proven optimal: the published packings of equal circles in a square
  // (E. Specht, packomania.com; Markót and Csendes 2005 for the proof).
  const sideCm = GAP_CM + (24 + GAP_CM) / 2 / 0.187680601147;

  it.each([
    [0.99, true],
    [1.02, false],
  ])("%f as wide as the best packing needs", (share, never) => {
    const cm = share * sideCm;
    expect(neverFits(discs([24], cm, cm), [6])).toBe(never);
  });
});

it("tries harder where a load hangs on it than where it is one question of many, and keeps the better answer", () => {
  // Three discs of 24 cm and two of 28 cm on 70 by 60 cm: no layout is known.
  const day = discs([24, 28], 70, 60);
  const room = roomOf(day.request.ovens[0]!.space as ShelfSpace);
  const pans = [0, 0, 0, 1, 1].map((line) => packPanOf(kindOf(day, line)));
  expect(room.mayHold(0, pans)).toBe(true);
  const { looked } = room;
  expect(neverFits(day, [3, 2])).toBe(true);
  expect(room.looked).toBeGreaterThan(looked + 1000);
  expect(room.mayHold(0, pans)).toBe(false);
  const told = room.looked;
  expect(neverFits(day, [3, 2])).toBe(true);
  expect(room.looked).toBe(told);
  // One of either less has room.
  expect(neverFits(day, [2, 2])).toBe(false);
  expect(neverFits(day, [3, 1])).toBe(false);
});
