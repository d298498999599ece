/** An oven that is nothing but air of one temperature, to put textbook examples of heating metal through it. */
import type { Body } from "../../solver/heat/body.ts";
import { simulateFiring } from "../../solver/heat/firing.ts";
import type { MemberBake } from "../../solver/heat/firing.ts";
import type { ThermalCycle } from "../../solver/shop.ts";

/** Door work and purge take no time, the chamber starts at its set-point, and the burner holds it whatever metal draws. */
export function airOven(filmWPerM2K: number): ThermalCycle {
  return {
    kind: "thermal",
    burnerKW: 1e6,
    efficiency: 1,
    heatCapacityKJPerK: 1000,
    wallLossWPerK: 1,
    exhaustWPerK: 0,
    coastExhaustWPerK: 0,
    filmWPerM2K,
    purgeMinutes: 0,
    loadMinutes: 0,
    unloadMinutes: 0,
    doorTauMinutes: 10,
    doorLimitC: 5000,
    setPointMaxC: 5000,
    setPointStepC: 1,
    guardC: 0,
    earlyMinutes: 0,
    slackMinutes: 0,
    startC: 20,
  };
}

/** A body of `kgPerM2` metal per exchange area, m². */
export function bodyPerM2(kgPerM2: number, specificHeatJPerKgK: number): Body {
  return { exchangeM2: 1, coatedM2: 1, heatJPerK: kgPerM2 * specificHeatJPerKgK };
}

/** The body from `fromC` in air of `airC`, taken out after whole `minutes`; its window begins at `lowC`. */
export function heatInAir(
  body: Body,
  filmWPerM2K: number,
  fromC: number,
  airC: number,
  lowC: number,
  minutes: number,
): MemberBake {
  const window = { lowC, highC: 5000, soakLeastMinutes: 0, soakMostMinutes: 5000 };
  const decision = { setPointC: airC, burnerOffMinutes: minutes, unloadMinutes: minutes };
  const members = [{ count: 1, body, offsetC: 0, ...window }];
  return simulateFiring(airOven(filmWPerM2K), fromC, members, airC, decision).members[0]!;
}
