/** Pre-heats in a shut oven that ends them as the pans are ready, against every whole minute at which they could begin. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import { EXACT_BUCKET_K } from "../../../../solver/loads/recipe.ts";
import { IdleOven } from "../../../../solver/sequence/idle-oven.ts";
import { demoCycle } from "../../../help/random-ovens.ts";
import { smallRequest } from "../../../help/requests.ts";

const cycle = { ...demoCycle, doorLimitC: 450 };
const day = dayModel(smallRequest());
const { ambientC } = day.request;
const oven = new IdleOven(day, cycle, EXACT_BUCKET_K);

it("a pre-heat ends as late as it can before the pans are ready, though a minute later it may take a minute more", () => {
  let sooner = 0;
  for (let chamberC = 30; chamberC <= 240; chamberC += 15)
    for (let setPointC = 250; setPointC <= 410; setPointC += 20)
      for (const open of [12, 25, 40, 75]) {
        const idle = { free: 0, chamberC, before: [], from: 0, open };
        let latest = -Infinity;
        for (let from = 0; from < open; from++) {
          const run = emptyFiring(cycle, ambientC, oven.chamberAt(idle, from, 0), setPointC, 0);
          if (run !== undefined && from + run.minutes <= open) latest = Math.max(latest, from + run.minutes);
        }
        const [preheat] = oven.preheated(idle, setPointC)?.before ?? [];
        expect(preheat?.to ?? -Infinity, `${chamberC} ${setPointC} ${open}`).toBe(latest);
        if (latest > -Infinity && latest < open) sooner++;
      }
  expect(sooner).toBeGreaterThan(5);
});
