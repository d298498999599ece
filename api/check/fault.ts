/** What the checker objects to, and how far a figure may be off before it objects. */

export type Rule =
  | "names"
  | "1 coats"
  | "1 left over"
  | "2 space"
  | "3 mixing"
  | "4 oven"
  | "5 firing"
  | "5 window"
  | "6 staffed"
  | "7 bench"
  | "7 booth"
  | "8 flash"
  | "8 wait"
  | "9 tickets"
  | "cost"
  | "gas"
  | "proof"
  | "held"
  | "said"
  | "savings";

export interface Fault {
  readonly rule: Rule;
  /** Where in the plan file, as in `loads[3].pans[2].soakMinutes`. */
  readonly path: string;
  /** One plain sentence with the said and the found value. */
  readonly message: string;
  readonly said?: number | string;
  readonly found?: number | string;
}

/** Collects faults; every part of the checker writes into the same list. */
export type Report = (fault: Fault) => void;

/**
 * How far two independent integrations of the same oven, and the rounding of the plan file, may lie apart.
 * `exactMinutes` is for instants that fall on whole minutes.
 */
export const tolerance = {
  /** Instants that the integration finds. */
  instantMinutes: 0.25,
  soakMinutes: 0.25,
  temperatureC: 0.5,
  distanceCm: 0.01,
  gasShare: 0.005,
  gasKWh: 0.01,
  money: 0.01,
  moneyShare: 0.001,
  /** Two amounts written with four decimals, one of them rounded down. */
  writtenMoney: 0.0002,
  exactMinutes: 1e-6,
  percent: 0.051,
  massKg: 0.01,
  solventMl: 0.5,
  /** Floating point only: sums of masses and volumes against a limit. */
  sumShare: 1e-9,
} as const;

/** Money the file may be off by: 0.01 or 0.1 %, whichever is more. */
export function moneyTolerance(amount: number): number {
  return Math.max(tolerance.money, tolerance.moneyShare * Math.abs(amount));
}

/** Gas the file may be off by, kWh: 0.5 %, and no finer than the second decimal. */
export function gasTolerance(kWh: number): number {
  return Math.max(tolerance.gasKWh, tolerance.gasShare * Math.abs(kWh));
}

/** True where two figures are further apart than allowed, or one of them is no number. */
export function apart(said: number, found: number, allowed: number): boolean {
  return !(Math.abs(said - found) <= allowed + 1e-9);
}

/** A figure as a sentence shows it: at most three decimals, no trailing zeros. */
export function figure(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toFixed(3))) : String(value);
}
