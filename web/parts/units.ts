/** Units as this device shows them. What is stored and sent stays metric; the choice stays on the device. */
import { useEffect, useState } from "preact/hooks";
import {
  celsiusStepToFahrenheit,
  celsiusToFahrenheit,
  cmToInches,
  fahrenheitStepToCelsius,
  fahrenheitToCelsius,
  inchesToCm,
  kWhToTherms,
  kWhToUnits,
  kgToPounds,
  poundsToKg,
  thermsToKWh,
  unitsToKWh,
} from "../../api/contract/units.ts";

/** "bill": gas in what the shop's bill or bottle counts in, as m³ or kg. */
export interface UnitChoice {
  readonly temperature: "°C" | "°F";
  readonly length: "cm" | "in";
  readonly mass: "kg" | "lb";
  readonly gas: "kWh" | "therm" | "bill";
}

export const unitOptions: { readonly [K in keyof UnitChoice]: readonly UnitChoice[K][] } = {
  temperature: ["°C", "°F"],
  length: ["cm", "in"],
  mass: ["kg", "lb"],
  gas: ["kWh", "therm", "bill"],
};

export type Quantity = "temperature" | "temperatureStep" | "length" | "mass" | "gas";

/** How a quantity stored in °C, cm, kg or kWh is shown. */
export interface Unit {
  readonly unit: string;
  readonly digits: number;
  readonly toShown: (stored: number) => number;
  readonly toStored: (shown: number) => number;
}

/** What one unit of the shop's gas bill holds. */
export interface Bill {
  readonly unit: string;
  readonly grossKWhPerUnit: number;
}

const key = "ovenful units";
const metric: UnitChoice = { temperature: "°C", length: "cm", mass: "kg", gas: "kWh" };
/** As the day file's own default: natural gas by the cubic metre. */
const naturalGas: Bill = { unit: "m3", grossKWhPerUnit: 11 };
const same = (n: number): number => n;

let chosen: UnitChoice = kept();
let bill: Bill = naturalGas;
const listeners = new Set<() => void>();

/** What was chosen before on this device; metric where nothing was, or nothing that can be read. */
function kept(): UnitChoice {
  const read = (quantity: keyof UnitChoice): string => localStorage.getItem(`${key} ${quantity}`) ?? "";
  const one = <K extends keyof UnitChoice>(quantity: K): UnitChoice[K] => {
    return unitOptions[quantity].find((option) => option === read(quantity)) ?? metric[quantity];
  };
  return { temperature: one("temperature"), length: one("length"), mass: one("mass"), gas: one("gas") };
}

export function chooseUnit<K extends keyof UnitChoice>(quantity: K, unit: UnitChoice[K]): void {
  localStorage.setItem(`${key} ${quantity}`, unit);
  chosen = { ...chosen, [quantity]: unit };
  for (const listener of listeners) listener();
}

/** From the day on screen; undefined: natural gas. */
export function setBill(gas: Bill | undefined): void {
  bill = gas ?? naturalGas;
}

/** Draws the component and all below it anew when the choice changes. */
export function useUnits(): UnitChoice {
  const [, turn] = useState(0);
  useEffect(() => {
    const listener = (): void => turn((n) => n + 1);
    listeners.add(listener);
    return () => void listeners.delete(listener);
  }, []);
  return chosen;
}

/** "m3" as it is written. */
export function billUnit(): string {
  return bill.unit.replace(/^m3$/, "m³");
}

export function unitOf(quantity: Quantity, choice: UnitChoice = chosen): Unit {
  switch (quantity) {
    case "temperature":
      return choice.temperature === "°F"
        ? { unit: "°F", digits: 0, toShown: celsiusToFahrenheit, toStored: fahrenheitToCelsius }
        : { unit: "°C", digits: 0, toShown: same, toStored: same };
    case "temperatureStep":
      return choice.temperature === "°F"
        ? { unit: "°F", digits: 0, toShown: celsiusStepToFahrenheit, toStored: fahrenheitStepToCelsius }
        : { unit: "°C", digits: 0, toShown: same, toStored: same };
    case "length":
      return choice.length === "in"
        ? { unit: "in", digits: 1, toShown: cmToInches, toStored: inchesToCm }
        : { unit: "cm", digits: 1, toShown: same, toStored: same };
    case "mass":
      return choice.mass === "lb"
        ? { unit: "lb", digits: 2, toShown: kgToPounds, toStored: poundsToKg }
        : { unit: "kg", digits: 2, toShown: same, toStored: same };
    case "gas":
      return gasUnit(choice, bill);
  }
}

function gasUnit(choice: UnitChoice, { grossKWhPerUnit }: Bill): Unit {
  if (choice.gas === "kWh") return { unit: "kWh", digits: 1, toShown: same, toStored: same };
  if (choice.gas === "therm") return { unit: "therm", digits: 2, toShown: kWhToTherms, toStored: thermsToKWh };
  return {
    unit: billUnit(),
    digits: 2,
    toShown: (kWh) => kWhToUnits(kWh, grossKWhPerUnit),
    toStored: (units) => unitsToKWh(units, grossKWhPerUnit),
  };
}
