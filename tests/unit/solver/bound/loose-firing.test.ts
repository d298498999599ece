/** Loose firings against the planner's own that wait for their door, minute by minute. */
import { describe, expect, it } from "vitest";
import { looseFirings } from "../../../../solver/bound/loose-firing.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { minutesToHandle } from "../../../../solver/heat/cooling.ts";
import { firingUnloadedFrom } from "../../../../solver/heat/options.ts";
import { memberOn } from "../../../../solver/loads/lone-pan.ts";
import { generatedDay } from "../../../help/days.ts";
import { requestOf } from "../../../help/exact-bound.ts";

const CHAMBER_C = 90;
const LONGEST_WAIT_MINUTES = 60;
const RANGE = { grace: 0, coolerUpToC: -Infinity, leastSetPointC: -Infinity, alike: 0 };

describe("a pan that waits in the oven that cools", () => {
  for (const seed of [420, 408, 6, 10])
    it(`is in no hand sooner than some loose firing on as much gas says: day ${seed}`, () => {
      const day = dayModel(requestOf(generatedDay({ pans: 3, ovens: 1, door: "cold", pace: "overloaded", seed })));
      const { ambientC, booth, ovens } = day.request;
      const { cycle } = ovens[0]!;
      if (cycle.kind !== "thermal") throw new Error("a gas oven was asked for");
      let fired = 0;
      let sooner = 0;
      day.kinds.forEach((kind, number) => {
        for (const offsetC of [-5, 5]) {
          const member = memberOn(kind, offsetC);
          if (member === undefined) continue;
          const standing = [{ kind: number, count: 1, highestOffsetC: offsetC, lowestOffsetC: offsetC }];
          const range = { ...RANGE, coolC: CHAMBER_C - 0.1, hotC: CHAMBER_C };
          const { firings } = looseFirings(day, cycle, standing, range);
          for (const { setPointC, closedMinutes } of firings) {
            let own = Infinity;
            for (let wait = 0; wait <= LONGEST_WAIT_MINUTES; wait++) {
              const unload = closedMinutes + wait;
              const one = firingUnloadedFrom(cycle, ambientC, [member], CHAMBER_C, setPointC, unload);
              if (one === undefined) continue;
              const [metalC] = one.metalAtUnloadC;
              const { handleAtC, coolFilmWPerM2K } = booth;
              const inHand =
                one.unloadMinutes + minutesToHandle(kind.body, metalC!, ambientC, handleAtC, coolFilmWPerM2K);
              const isCovered = firings.some(
                (loose) =>
                  loose.closedMinutes <= one.unloadMinutes &&
                  loose.gasKWh <= one.gasKWh + 1e-6 &&
                  loose.closedMinutes + loose.handMinutes[0]! <= inHand + 1e-6,
              );
              expect(isCovered, `${kind.line.id} on ${offsetC} K, ${setPointC} °C, unloaded at ${unload}`).toBe(true);
              fired++;
              if (wait === 0) own = inHand;
              else if (wait > 30 && inHand < own) sooner++;
            }
          }
        }
      });
      expect(fired).toBeGreaterThan(100);
      // Half an hour and more pays where the oven's fan cools metal faster than the bench does.
      if (seed === 420) expect(sooner).toBeGreaterThan(10);
    });
});
