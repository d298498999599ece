/** What whole pans take of a load's shelves: no load that can be laid out has more than 1, and it is more than by their floor. */
import { describe, expect, it } from "vitest";
import { closeShares, loadShares } from "../../../../solver/bound/load-shares.ts";
import { shelfShares } from "../../../../solver/bound/shelf-shares.ts";
import type { DayModel } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import type { PanLine, ShelfSpace } from "../../../../solver/shop.ts";
import { chance } from "../../../help/day-chance.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

function invented(seed: number, pans = 24): DayModel {
  return dayModel(requestOf(generatedDay({ pans, ovens: 1, door: "hot", pace: "calm", seed })));
}

/** One oven with two alike shelves with gaps of 3 cm, and lines of one shape only. */
function oneShape(widthCm: number, depthCm: number, shape: PanLine["shape"]): DayModel {
  const { request } = invented(51);
  const shelf = { widthCm, depthCm, maxKg: Infinity, offsetC: 0, clearHeightCm: 20 };
  const shelves = [
    { ...shelf, id: "low" },
    { ...shelf, id: "high" },
  ];
  const space: ShelfSpace = { kind: "shelves", gapCm: 3, shelves };
  const lines = request.lines.map((line) => ({ ...line, shape, heightCm: 8 }));
  return dayModel({ ...request, ovens: [{ ...request.ovens[0]!, space }], lines });
}

describe("pans of one shape", () => {
  // Geometry: 100 by 75 cm takes three of 48 by 28 cm (see overfull-proof.test.ts), 80 by 70 cm takes four discs of 28 cm.
  it.each([
    [100, 75, { kind: "rectangle", widthCm: 48, depthCm: 28 }, 3],
    [80, 70, { kind: "disc", diameterCm: 28 }, 4],
  ] as const)("on two shelves of %i by %i cm: %j", (widthCm, depthCm, shape, each) => {
    const day = oneShape(widthCm, depthCm, shape);
    for (const share of shelfShares(day)!) expect(share).toBeCloseTo(1 / (2 * each), 6);
    for (const [floor] of loadShares(day)) expect(floor).toBeLessThan(0.85 / (2 * each));
  });

  it("take no more than their floor where four with their gaps fill a shelf", () => {
    const day = oneShape(66, 66, { kind: "rectangle", widthCm: 28.5, depthCm: 28.5 });
    const shares = shelfShares(day)!;
    expect(shares).toHaveLength(day.kinds.length);
    for (const share of shares) expect(share).toBeCloseTo(1 / 8, 6);
  });
});

it("whole loads never have more than 1, and the day's bakes fill more loads than by their floor", () => {
  const dice = chance(9);
  let more = 0;
  for (let seed = 41; seed < 47; seed++) {
    const day = invented(seed);
    const whole = shelfShares(day);
    if (whole === undefined) continue;
    const filled = (share: (kind: number) => number): number =>
      day.bakes.reduce((sum, { kind }) => sum + share(kind), 0);
    const floors = loadShares(day);
    expect(filled((kind) => whole[kind]!)).toBeGreaterThan(filled((kind) => floors[kind]![0]!));
    more++;
    const book = new RecipeBook(day, 20);
    for (let load = 0; load < 60; load++) {
      let kinds: number[] = [];
      for (let tries = 0; tries < 30; tries++) {
        const next = [...kinds, dice.whole(0, day.kinds.length - 1)].sort((a, b) => a - b);
        if (book.recipe(0, next) !== undefined && hasSo(day, next)) kinds = next;
      }
      expect(kinds.reduce((sum, kind) => sum + whole[kind]!, 0)).toBeLessThanOrEqual(1 + 1e-6);
    }
  }
  expect(more).toBeGreaterThan(2);
});

/** The day has so many pans of each line. */
function hasSo(day: DayModel, kinds: readonly number[]): boolean {
  return day.request.lines.every(
    ({ id, quantity }) => kinds.filter((kind) => day.kinds[kind]!.line.id === id).length <= quantity,
  );
}

it("is nothing of a pan that fits no oven", () => {
  const { request } = oneShape(80, 70, { kind: "disc", diameterCm: 28 });
  const [first, ...others] = request.lines;
  const day = dayModel({ ...request, lines: [{ ...first!, shape: { kind: "area", dm2: 9 } }, ...others] });
  const lost = day.kinds.map(({ ovens }) => ovens.length === 0);
  expect(new Set(lost)).toEqual(new Set([true, false]));
  shelfShares(day)!.forEach((share, kind) => expect(share).toBeCloseTo(lost[kind]! ? 0 : 1 / 8, 6));
});

it("is the last of the close measures, and of an oven that only counts areas there is none", () => {
  const day = invented(43);
  const close = closeShares(day);
  expect(close.map((own) => own.at(-1))).toEqual(shelfShares(day));
  const area = dayModel({
    ...day.request,
    ovens: [{ ...day.request.ovens[0]!, space: { kind: "area", dm2: 100 } }],
  });
  expect(shelfShares(area)).toBeUndefined();
  expect(closeShares(area)).toEqual(loadShares(area));
});
