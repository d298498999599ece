/** Sentences that come with metric figures, told in the units that this device shows. */
import { bare } from "./figures.ts";
import { unitOf } from "./units.ts";
import type { Quantity } from "./units.ts";

const quantities: Readonly<Record<string, Quantity>> = { "°C": "temperature", kWh: "gas", kg: "mass" };

/** "285 °C" becomes "545 °F" where that is chosen. Only temperatures, never differences of them, stand in such sentences. */
export function inUnits(sentence: string): string {
  return sentence.replaceAll(/(-?\d+(?:\.\d+)?) (°C|kWh|kg)(?![\w/])/g, (found, figure: string, metric: string) => {
    const quantity = quantities[metric];
    if (quantity === undefined) return found;
    const { unit } = unitOf(quantity);
    return unit === metric ? found : `${bare(quantity, Number(figure))} ${unit}`;
  });
}
