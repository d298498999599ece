/** Stored figures as text, in the chosen units and the browser's way of writing numbers. */
import { language } from "./language.ts";
import { unitOf } from "./units.ts";
import type { Quantity } from "./units.ts";

/** A plain number, always with so many decimals. */
export function rounded(value: number, digits = 0): string {
  return new Intl.NumberFormat(language, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    useGrouping: false,
  }).format(value);
}

/** The number in its unit without the unit, for a row of numbers that share one. */
export function bare(quantity: Quantity, stored: number, digits?: number): string {
  const unit = unitOf(quantity);
  return rounded(unit.toShown(stored), digits ?? unit.digits);
}

export function withUnit(quantity: Quantity, stored: number, digits?: number): string {
  return `${bare(quantity, stored, digits)} ${unitOf(quantity).unit}`;
}

export const temperature = (c: number): string => withUnit("temperature", c);
export const length = (cm: number): string => `${trimmed("length", cm)} ${unitOf("length").unit}`;
export const mass = (kg: number): string => withUnit("mass", kg);
export const gas = (kWh: number): string => withUnit("gas", kWh);

/** A difference of temperatures without a direction: "5 °C". */
export const temperatureSpan = (c: number): string => withUnit("temperatureStep", c);

/** A difference of temperatures with its sign. */
export function temperatureStep(c: number): string {
  return `${c < 0 ? "−" : c > 0 ? "+" : "±"}${withUnit("temperatureStep", Math.abs(c))}`;
}

/** "80 × 60 cm". */
export function lengths(...cm: readonly number[]): string {
  return `${cm.map((one) => trimmed("length", one)).join(" × ")} ${unitOf("length").unit}`;
}

/** A whole number of centimetres is written without decimals. */
function trimmed(quantity: Quantity, stored: number): string {
  const unit = unitOf(quantity);
  const shown = Number(unit.toShown(stored).toFixed(unit.digits));
  return rounded(shown, Number.isInteger(shown) ? 0 : unit.digits);
}

export function money(value: number, currency: string): string {
  return new Intl.NumberFormat(language, { style: "currency", currency }).format(value);
}
