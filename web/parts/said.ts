/** Sentences that come with metric figures and clocks to 24, told in the units, by the clock and with the dates that this device shows. */
import { clockOf, dayOf } from "./clock.ts";
import { bare } from "./figures.ts";
import { unitOf } from "./units.ts";
import type { Quantity } from "./units.ts";

const quantities: Readonly<Record<string, Quantity>> = { "°C": "temperature", kWh: "gas", kg: "mass" };

/** "285 °C" becomes "545 °F" where that is chosen. Only temperatures, never differences of them, stand in such sentences. */
export function inUnits(sentence: string): string {
  return sentence
    .replaceAll(/(-?\d+(?:\.\d+)?) (°C|kWh|kg)(?![\w/])/g, (found, figure: string, metric: string) => {
      const quantity = quantities[metric];
      if (quantity === undefined) return found;
      const { unit } = unitOf(quantity);
      return unit === metric ? found : `${bare(quantity, Number(figure))} ${unit}`;
    })
    .replaceAll(/\b\d{4}-\d\d-\d\d(?= [012]\d:)/g, (date) => dayOf(`${date}T00:00`))
    .replaceAll(/(?<![\d:T])([01]\d|2[0-3]):[0-5]\d(?![\d:])/g, (clock) => clockOf(`${anyDay}T${clock}`));
}

/** A clock is told alike on every day. */
const anyDay = "2000-01-01";
