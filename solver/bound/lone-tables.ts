/** What lone bakes say about all loads: least minutes, and least gas and oven time at several worths of chamber heat. */
import type { KindTimes } from "./kind-times.ts";
import { kindTimes } from "./kind-times.ts";
import type { LoadSets } from "./load-sets.ts";
import { LoneBakes } from "./lone-bakes.ts";
import { scarceHeat } from "./scarce-heat.ts";
import type { Rates, Tariff } from "./tariff.ts";
import { GAS, OVEN_TIME, plainWorth, tariffOf } from "./tariff.ts";

export interface LoneTables {
  readonly times: ReadonlyMap<number, readonly KindTimes[]>;
  /** In kWh of gas; each is a bound by itself. The first counts heat as the gas that made it. */
  readonly gas: readonly Tariff[];
  /** In minutes of oven time, door opening to done. */
  readonly ovenTime: Tariff;
}

/** `startC`: as in `kindTimes`. */
export function loneTables(sets: LoadSets, startC: Float64Array): LoneTables {
  const lone = new LoneBakes(sets);
  const plain = (rates: Rates): Tariff => tariffOf(lone, rates, plainWorth(sets.day, rates));
  const gas = plain(GAS);
  const scarce = scarceHeat(lone, gas);
  return {
    times: kindTimes(lone, startC),
    gas: scarce === gas ? [gas] : [gas, scarce],
    ovenTime: scarceHeat(lone, plain(OVEN_TIME)),
  };
}
