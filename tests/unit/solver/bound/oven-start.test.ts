/** A preheat as the proof pays it: no legal one takes less gas, and it is the legal one itself but for a hair. */
import { describe, expect, it } from "vitest";
import { preheatTo } from "../../../../solver/bound/oven-start.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import { chamberAfterIdle } from "../../../../solver/heat/chamber.ts";
import { chance } from "../../../help/day-chance.ts";
import { demoCycle } from "../../../help/random-ovens.ts";

const AMBIENT_C = 20;
const OPEN = 240;

describe("a preheat that ends as the door opens", () => {
  const dice = chance(4);
  const draws = Array.from({ length: 200 }, () => {
    const hotC = dice.whole(AMBIENT_C, 300);
    const targetC = hotC + dice.whole(10, 100);
    return { hotC, targetC, free: OPEN - dice.whole(30, 200) };
  });

  it.each([false, true])(
    "costs no less gas begun at any minute on a chamber that was no hotter (stays hot: %s)",
    (keepsHot) => {
      let near = 0;
      for (const { hotC, targetC, free } of draws) {
        const shut = { free, hotC, coolC: hotC, keepsHot, gasKWh: 0 };
        const paid = preheatTo(demoCycle, AMBIENT_C, shut, OPEN, { targetC, isWhole: true })!;
        expect(paid.open).toBe(OPEN);
        for (let from = free; from < OPEN; from++) {
          const startC = keepsHot ? hotC : chamberAfterIdle(demoCycle, AMBIENT_C, hotC, from - free);
          const legal = emptyFiring(demoCycle, AMBIENT_C, startC, targetC, 0)!;
          if (from + legal.minutes !== OPEN) continue;
          expect(paid.gasKWh).toBeLessThanOrEqual(legal.gasKWh);
          if (paid.gasKWh > 0.97 * legal.gasKWh) near++;
        }
      }
      expect(near).toBeGreaterThan(draws.length / 2);
    },
  );

  it("costs less by its fire alone, which need not end on a whole minute", () => {
    for (const { hotC, targetC, free } of draws) {
      const shut = { free, hotC, coolC: hotC, keepsHot: true, gasKWh: 0 };
      const [fire, whole] = [false, true].map(
        (isWhole) => preheatTo(demoCycle, AMBIENT_C, shut, OPEN, { targetC, isWhole })!.gasKWh,
      );
      expect(fire).toBeLessThan(whole!);
    }
  });
});
