/** Invented days in shops unlike the bench's: no or other clean burns, other ovens and hands, breaks, single coats, an oven out of use. */
import type { CleanBurn, Coating, Oven, PlanRequest } from "../../solver/shop.ts";
import type { Chance } from "./day-chance.ts";
import { chance } from "./day-chance.ts";
import { generatedDay } from "./days.ts";
import { requestOf } from "./exact-bound.ts";

/** One to `mostPans` pans, one or two ovens; some with a load that is out and one that still burns. */
export function oddShop(seed: number, mostPans: number): PlanRequest {
  const dice = chance(seed * 7919);
  const request = requestOf(
    generatedDay({
      seed,
      pans: dice.whole(1, mostPans),
      ovens: dice.happens(1 / 3) ? 2 : 1,
      door: dice.oneOf(["hot", "cold"]),
      pace: dice.oneOf(["calm", "overloaded"]),
      crew: dice.oneOf([20, 60, 120]),
      held: dice.happens(1 / 4),
    }),
  );
  return pausedRequest(dice, {
    ...request,
    mixing: { ...request.mixing, cleanBurn: otherBurn(dice, request.mixing.cleanBurn) },
    ovens: request.ovens.map((oven) => otherOven(dice, oven, request.ambientC)),
    benches: dice.whole(0, 2),
    booth: {
      ...request.booth,
      sprayers: dice.whole(0, 2),
      handleAtC: dice.oneOf([30, 40, 60]),
      coolFilmWPerM2K: dice.oneOf([8, 15, 40]),
    },
    ...(request.held.length === 0 && dice.happens(2 / 3) ? singleCoats(dice, request) : {}),
  });
}

function otherBurn(dice: Chance, burn: CleanBurn | null): CleanBurn | null {
  if (burn === null || dice.happens(1 / 2)) return null;
  if (dice.happens(1 / 2)) return burn;
  return { ...burn, setPointC: dice.oneOf([250, 330, 400, 430]), holdMinutes: dice.whole(0, 30) };
}

function otherOven(dice: Chance, oven: Oven, ambientC: number): Oven {
  const { cycle } = oven;
  const lastGroups = dice.happens(1 / 2) ? ["silicone"] : oven.lastGroups;
  const other = { ...oven, lastGroups, attended: dice.happens(2 / 3) };
  if (cycle.kind === "fixed" || dice.happens(1 / 3)) return other;
  return {
    ...other,
    ...(dice.happens(1 / 4) ? { outUntilMinute: dice.whole(1, 150) } : {}),
    cycle: {
      ...cycle,
      doorLimitC: dice.oneOf([110, 150, 250, 440]),
      purgeMinutes: dice.whole(0, 8),
      guardC: dice.whole(0, 8),
      earlyMinutes: dice.whole(0, 2),
      slackMinutes: dice.whole(0, 3),
      coastExhaustWPerK: cycle.exhaustWPerK * dice.whole(1, 4),
      wallLossWPerK: cycle.wallLossWPerK * dice.oneOf([0.5, 1.5, 3]),
      startC: ambientC + dice.whole(0, 180),
      setPointStepC: dice.oneOf([1, 5, 10, 20]),
      doorTauMinutes: dice.whole(2, 20),
      loadMinutes: dice.whole(1, 6),
      unloadMinutes: dice.whole(1, 6),
    },
  };
}

/** Each coating by its first coat alone, or its last. */
function singleCoats(dice: Chance, { coatings, lines }: PlanRequest): Pick<PlanRequest, "coatings" | "lines"> {
  const at = dice.oneOf([0, -1]);
  const alone = ({ coats, ...coating }: Coating): Coating => ({ ...coating, coats: [coats.at(at)!] });
  return { coatings: coatings.map(alone), lines: lines.map((line) => ({ ...line, nextCoat: 1 })) };
}

/** With a break where nothing is held. */
function pausedRequest(dice: Chance, request: PlanRequest): PlanRequest {
  if (request.held.length > 0 || dice.happens(1 / 2)) return request;
  const pause = dice.whole(30, 230);
  const back = pause + dice.whole(15, 135);
  const end = Math.max(back + 300, ...request.staffed.map(({ to }) => to));
  return {
    ...request,
    staffed: [
      { from: 0, to: pause },
      { from: back, to: end },
    ],
    nextOpenMinute: Math.max(request.nextOpenMinute, end + 600),
  };
}
