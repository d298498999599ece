/**
 * The first doors after a clean burn. Whole minutes of the fan leave the chamber somewhere below the door's limit, not on it: until
 * minutes without the fan, or pre-heats, may stand among them, no door opens on a hotter chamber than the first one.
 */
import { chamberAfterIdle, chamberAfterVent, minutesToFall } from "../heat/chamber.ts";
import type { ThermalCycle } from "../shop.ts";

export interface FirstDoors {
  /** Minute of the first of them. */
  readonly from: number;
  /** They open sooner than this minute. */
  readonly before: number;
  /** On a chamber no hotter than this, °C. */
  readonly hotC: number;
}

/** After a burn that ends on `burntC` at minute `burntAt` or later; undefined where any door may open on a chamber at its limit. */
export function firstDoors(
  cycle: ThermalCycle,
  ambientC: number,
  burntC: number,
  burntAt: number,
): FirstDoors | undefined {
  const { doorLimitC, wallLossWPerK, exhaustWPerK, coastExhaustWPerK } = cycle;
  // A purge that cools faster than the fan would open the door sooner.
  if (burntC <= doorLimitC || exhaustWPerK > coastExhaustWPerK) return undefined;
  const vented = (minutes: number): number => chamberAfterVent(cycle, ambientC, burntC, minutes);
  const lossWPerK = wallLossWPerK + coastExhaustWPerK;
  const first = Math.ceil(minutesToFall(cycle, ambientC, { fromC: burntC, toC: doorLimitC, lossWPerK }) - TINY);
  if (first > LONGEST_MINUTES) return undefined;
  const hotC = vented(first);
  const before = soonestHotter(cycle, ambientC, { vented, first, hotC });
  if (before <= first) return undefined;
  const from = Math.ceil(burntAt - TINY);
  return { from: from + first, before: from + before, hotC };
}

interface Vented {
  /** Chamber after so many minutes of the fan, °C. */
  readonly vented: (minutes: number) => number;
  /** So many of them let the first door open. */
  readonly first: number;
  /** The chamber then, °C. */
  readonly hotC: number;
}

/**
 * Minutes from the burn's end to a door on a chamber hotter than `hotC`: after fewer minutes of the fan, pre-heats that end above
 * their set-point, and minutes with neither, in any order; or after a pre-heat that heats.
 */
function soonestHotter(cycle: ThermalCycle, ambientC: number, { vented, first, hotC }: Vented): number {
  const { doorLimitC, purgeMinutes, wallLossWPerK: lossWPerK } = cycle;
  const limitC = doorLimitC + LIMIT_K;
  const purging = { ...cycle, wallLossWPerK: cycle.wallLossWPerK + cycle.exhaustWPerK };
  const purge = Math.max(1, Math.ceil(purgeMinutes));
  const heating = Math.floor(purgeMinutes) + 1;
  let least = Infinity;
  for (let fan = 0; fan <= first; fan++)
    for (let spent = fan; spent < least && spent <= first + purge; spent += purge) {
      const cooledC = chamberAfterIdle(purging, ambientC, vented(fan), spent - fan);
      const idle = Math.ceil(minutesToFall(cycle, ambientC, { fromC: cooledC, toC: limitC, lossWPerK }) - TINY);
      if (idle < Infinity && chamberAfterIdle(cycle, ambientC, cooledC, idle) > hotC)
        least = Math.min(least, spent + idle);
      // Heated up to the limit, or held there as it falls.
      if (chamberAfterIdle(purging, ambientC, cooledC, heating) <= limitC) least = Math.min(least, spent + heating);
    }
  return least;
}

/** Where the fan takes longer a minute more or less makes no difference. */
const LONGEST_MINUTES = 180;
/** So near its limit a door may open in other arithmetic. */
const LIMIT_K = 0.01;
const TINY = 1e-6;
