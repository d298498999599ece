/** A firing with no pans: the clean burn, and the preheat that buys time with gas. The chamber alone has a closed form. */
import type { ThermalCycle } from "../shop.ts";

/** From door shut to burner off; the door stays shut throughout. Gas in kWh gross. */
export interface EmptyFiring {
  /** Whole. */
  readonly minutes: number;
  /** Null where the chamber is at or above the set-point when the burner may light. */
  readonly setPointAtMinutes: number | null;
  readonly gasKWh: number;
  readonly chamberAtDoneC: number;
}

/** The chamber while the burner may be on; temperatures in K above the room. */
interface Burning {
  readonly setPoint: number;
  readonly fullW: number;
  readonly lossWPerK: number;
  readonly wattMinutesPerK: number;
}

/**
 * Purge, full fire to `setPointC`, at least `holdMinutes` at or above it, ending on a whole minute. A chamber that is above
 * the set-point when the purge ends takes no heat until it has fallen to it; its hold counts from the purge's end.
 * Undefined where the burner cannot reach or cannot hold the set-point.
 */
export function emptyFiring(
  cycle: ThermalCycle,
  ambientC: number,
  chamberC: number,
  setPointC: number,
  holdMinutes: number,
): EmptyFiring | undefined {
  const lossWPerK = cycle.wallLossWPerK + cycle.exhaustWPerK;
  const wattMinutesPerK = (cycle.heatCapacityKJPerK * 1000) / 60;
  const fullW = cycle.burnerKW * 1000 * cycle.efficiency;
  const setPoint = setPointC - ambientC;
  const burning = { setPoint, fullW, lossWPerK, wattMinutesPerK };
  const fallen = (from: number, minutes: number): number => from * Math.exp((-minutes * lossWPerK) / wattMinutesPerK);
  const purged = fallen(chamberC - ambientC, cycle.purgeMinutes);
  const heats = purged < setPoint;
  const reachedAt = cycle.purgeMinutes + (heats ? minutesOfFullFire(burning, purged) : 0);
  const heldFrom = heats ? reachedAt : cycle.purgeMinutes + minutesOfFalling(burning, purged);
  const minutes = Math.ceil(reachedAt + holdMinutes);
  if (!Number.isFinite(minutes)) return undefined;
  const holding = Math.max(0, minutes - heldFrom);
  const holdW = lossWPerK * setPoint;
  if (holding > 0 && holdW > fullW) return undefined;
  const wattMinutes = fullW * (reachedAt - cycle.purgeMinutes) + holdW * holding;
  return {
    minutes,
    setPointAtMinutes: heats ? reachedAt : null,
    gasKWh: wattMinutes / 60_000 / cycle.efficiency,
    chamberAtDoneC: ambientC + (holding > 0 || heats ? setPoint : fallen(purged, minutes - cycle.purgeMinutes)),
  };
}

/** C·dT/dt = P − (U + G)·T solved for the time to the set-point; Infinity where full fire cannot reach it. */
function minutesOfFullFire({ setPoint, fullW, lossWPerK, wattMinutesPerK }: Burning, from: number): number {
  if (lossWPerK * setPoint >= fullW) return Infinity;
  if (lossWPerK === 0) return (wattMinutesPerK * (setPoint - from)) / fullW;
  // As accurate where next to nothing is lost.
  const lost = (lossWPerK * (setPoint - from)) / (fullW - lossWPerK * from);
  return (wattMinutesPerK / lossWPerK) * -Math.log1p(-lost);
}

/** Minutes until a chamber with its burner off has fallen to the set-point; Infinity where it never does. */
function minutesOfFalling({ setPoint, lossWPerK, wattMinutesPerK }: Burning, from: number): number {
  return setPoint > 0 ? (wattMinutesPerK / lossWPerK) * Math.log(from / setPoint) : Infinity;
}
