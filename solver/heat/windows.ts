/** Does a row at unloading keep its members' windows, and by how much? */
import type { LoadHeat } from "./load-heat.ts";
import { aboveLowAt, peakAt, soakAt } from "./row.ts";

/** Rounding, minutes and K. */
const TINY = 1e-9;

/** Soak beyond the least, of the member that has least of it; Infinity for an empty load. */
export function soakToSpare(heat: LoadHeat, rows: Float64Array, at: number): number {
  const n = heat.members.length;
  let least = Infinity;
  for (let member = 0; member < n; member++)
    least = Math.min(least, rows[soakAt(at, n, member)]! - heat.members[member]!.soakLeastMinutes + TINY);
  return least;
}

/** Minutes above lowC left until the most is reached, of the member that has fewest left. */
export function soakLeft(heat: LoadHeat, rows: Float64Array, at: number): number {
  const n = heat.members.length;
  let least = Infinity;
  for (let member = 0; member < n; member++)
    least = Math.min(least, heat.members[member]!.soakMostMinutes + TINY - rows[aboveLowAt(at, n, member)]!);
  return least;
}

/** Every member's metal has stayed at or below highC − guardC. */
export function peaksKept(heat: LoadHeat, rows: Float64Array, at: number): boolean {
  const n = heat.members.length;
  for (let member = 0; member < n; member++)
    if (rows[peakAt(at, n, member)]! > heat.highNode[member]! + TINY) return false;
  return true;
}

/** The two windows that more heat breaks: most soak and highest metal. */
export function notOverbaked(heat: LoadHeat, rows: Float64Array, at: number): boolean {
  return soakLeft(heat, rows, at) >= 0 && peaksKept(heat, rows, at);
}
