/** Pre-heats in a shut oven that ends them as the pans are ready, against every whole minute at which they could begin. */
import { expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { chamberAfterIdle } from "../../../../solver/heat/chamber.ts";
import { emptyFiring } from "../../../../solver/heat/empty-firing.ts";
import { EXACT_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { IdleOven } from "../../../../solver/sequence/idle-oven.ts";
import { demoCycle } from "../../../help/random-ovens.ts";
import { smallRequest } from "../../../help/requests.ts";

const cycle = { ...demoCycle, doorLimitC: 450 };
const day = dayModel(smallRequest());
const { ambientC } = day.request;
const CLEAN_BURN = { setPointC: 400, holdMinutes: 10 };
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
        const [preheat] = oven.preheated(idle, setPointC, { from: 0, to: Infinity })?.before ?? [];
        expect(preheat?.to ?? -Infinity, `${chamberC} ${setPointC} ${open}`).toBe(latest);
        if (latest > -Infinity && latest < open) sooner++;
      }
  expect(sooner).toBeGreaterThan(5);
});

it("a pre-heat before a break ends as people leave, and the chamber cools shut until the door opens", () => {
  const idle = { free: 0, chamberC: 90, before: [], from: 150, open: 155 };
  const start = oven.preheated(idle, 250, { from: 20, to: 120 })!;
  const [preheat] = start.before;
  const run = emptyFiring(cycle, ambientC, oven.chamberAt(idle, preheat!.from, 0), 250, 0)!;
  expect(preheat).toMatchObject({ kind: "preheat", to: 120, from: 120 - run.minutes });
  expect(start.doorOpens).toBe(155);
  expect(start.chamberC).toBeCloseTo(chamberAfterIdle(cycle, ambientC, run.chamberAtDoneC, 35), 6);
  expect(start.chamberC).toBeGreaterThan(oven.chamberAt(idle, 155, 0) + 50);
});

it("a clean burn is offered in every window that is long enough for it, soon and late", () => {
  const { mixing } = smallRequest();
  const burnt = { ...mixing, cleanBurn: { ...CLEAN_BURN, after: [], before: [] } };
  const one = new IdleOven(dayModel(smallRequest({ mixing: burnt })), cycle, EXACT_BUCKET_K);
  const idle = { free: 30, chamberC: 90, before: [], from: 150, open: 155 };
  const minutesFrom = (minute: number): number =>
    emptyFiring(cycle, ambientC, one.chamberAt(idle, minute, 0), CLEAN_BURN.setPointC, CLEAN_BURN.holdMinutes)!.minutes;
  const offered = (from: number, to: number): number[][] =>
    one.cleaned(idle, { from, to }).map(({ before: [burn], open }) => [burn!.from, burn!.to, open]);
  const late = 140 - minutesFrom(140 - minutesFrom(30));
  expect(minutesFrom(late)).toBeGreaterThan(minutesFrom(30));
  expect(offered(30, 140)).toEqual([
    [30, 30 + minutesFrom(30), 155],
    [late, late + minutesFrom(late), 155],
  ]);
  expect(offered(150, 400)).toEqual([[150, 150 + minutesFrom(150), 150 + minutesFrom(150)]]);
  expect(offered(30, 29 + minutesFrom(30))).toEqual([]);
});
