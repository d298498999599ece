/** Conversions between the units shops use. Exact by definition unless a function asks for the bill's own figure. */

/** International Steam Table Btu: 1 therm = 100 000 Btu of 1055.05585262 J. */
const KWH_PER_THERM = (100_000 * 1055.05585262) / 3.6e6;
const KG_PER_LB = 0.45359237;
const CM_PER_IN = 2.54;
const MJ_PER_KWH = 3.6;

export function celsiusToFahrenheit(c: number): number {
  return (c * 9) / 5 + 32;
}

export function fahrenheitToCelsius(f: number): number {
  return ((f - 32) * 5) / 9;
}

/** A difference of temperatures: no offset of 32. */
export function celsiusStepToFahrenheit(c: number): number {
  return (c * 9) / 5;
}

export function fahrenheitStepToCelsius(f: number): number {
  return (f * 5) / 9;
}

export function cmToInches(cm: number): number {
  return cm / CM_PER_IN;
}

export function inchesToCm(inches: number): number {
  return inches * CM_PER_IN;
}

export function kgToPounds(kg: number): number {
  return kg / KG_PER_LB;
}

export function poundsToKg(lb: number): number {
  return lb * KG_PER_LB;
}

export function kWhToMJ(kWh: number): number {
  return kWh * MJ_PER_KWH;
}

export function mjToKWh(mj: number): number {
  return mj / MJ_PER_KWH;
}

export function kWhToTherms(kWh: number): number {
  return kWh / KWH_PER_THERM;
}

export function thermsToKWh(therms: number): number {
  return therms * KWH_PER_THERM;
}

/** Gross kWh in what the bill counts (m³, kg, l); `grossKWhPerUnit` from the bill or the bottle. */
export function unitsToKWh(units: number, grossKWhPerUnit: number): number {
  return units * grossKWhPerUnit;
}

export function kWhToUnits(kWh: number, grossKWhPerUnit: number): number {
  return kWh / grossKWhPerUnit;
}

/** Gross kWh per m³ of metered gas: calorific value in MJ/m³ and the bill's volume correction (1 where it has none). */
export function grossKWhPerM3(calorificMJPerM3: number, volumeCorrection = 1): number {
  return (calorificMJPerM3 * volumeCorrection) / MJ_PER_KWH;
}
