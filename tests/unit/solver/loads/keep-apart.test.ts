/** Which shelves are looked at where windows meet on some of them only. */
import { describe, expect, it } from "vitest";
import type { BakeKind } from "../../../../solver/day/day-model.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { ShelvesApart } from "../../../../solver/loads/keep-apart.ts";
import type { ShelfSpace } from "../../../../solver/shop.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const shelf = { widthCm: 70, depthCm: 60, clearHeightCm: 18, maxKg: 30 };
const space: ShelfSpace = {
  kind: "shelves",
  gapCm: 2,
  shelves: [
    { ...shelf, id: "top", offsetC: 5 },
    { ...shelf, id: "middle", offsetC: 0 },
    { ...shelf, id: "low", offsetC: -5 },
  ],
};
// As `shelfSets` has them, warm to cool.
const [ALL, WARM, COOL, TOP, , LOW] = [0, 1, 2, 3, 4, 5];

const made = dayModel(requestOf(generatedDay({ pans: 6, ovens: 1, door: "hot", pace: "calm", seed: 1 }))).kinds[0]!;
const body = { exchangeM2: 0.2, coatedM2: 0.1, heatJPerK: 2000 };

/** Metal of one speed, to be at `lowC` for so many minutes and never above `highC`. */
function kind(lowC: number, highC: number): BakeKind {
  const window = { metalLowC: lowC, metalHighC: highC, soakLeastMinutes: 10, soakMostMinutes: 40 };
  return { ...made, body, highC, coat: { ...made.coat, window } };
}

describe("shelves kept apart", () => {
  const apart = new ShelvesApart(space, demoCycle, 20);

  it("are all shelves for kinds whose windows meet anywhere, and fewer where that leaves more to spare", () => {
    // 270 °C less the guard is 5 K above the 260 °C that the other must be at, and 10 K with 5 K between their shelves.
    const ways = [...apart.ways([kind(250, 270), kind(255, 310)])];
    expect(ways[0]).toEqual([ALL, ALL]);
    expect(ways).toContainEqual([COOL, TOP]);
  });

  it("are warmer by the guards on both sides for what needs as much as another stands, by hand", () => {
    // The one is at 255 °C with its guard while the other may be at 250: 5 K between their shelves, 10 K leave 5 to spare.
    expect([...apart.ways([kind(250, 300), kind(205, 255)])]).toEqual([
      [WARM, LOW],
      [TOP, COOL],
      [TOP, LOW],
    ]);
  });

  it("are none where no shelves are far enough apart", () => {
    expect([...apart.ways([kind(262, 300), kind(205, 255)])]).toEqual([]);
  });
});
