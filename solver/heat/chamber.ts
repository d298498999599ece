/** How an oven's empty chamber cools: shut and idle, with its fan on, or with its door open. Temperatures in °C. */
import type { ThermalCycle } from "../shop.ts";

/** Chamber after `minutes` with the door shut, burner and fan off: wall loss only. */
export function chamberAfterIdle(cycle: ThermalCycle, ambientC: number, chamberC: number, minutes: number): number {
  return decayed(ambientC, chamberC, (minutes * 60 * cycle.wallLossWPerK) / heatJPerK(cycle));
}

/** Chamber after `minutes` with the door shut, burner off and the fan on at its coasting rate. */
export function chamberAfterVent(cycle: ThermalCycle, ambientC: number, chamberC: number, minutes: number): number {
  const lossWPerK = cycle.wallLossWPerK + cycle.coastExhaustWPerK;
  return decayed(ambientC, chamberC, (minutes * 60 * lossWPerK) / heatJPerK(cycle));
}

/** Chamber after `minutes` with the door open; `doorTauMinutes` covers what pans draw meanwhile. */
export function chamberAfterDoor(cycle: ThermalCycle, ambientC: number, chamberC: number, minutes: number): number {
  if (minutes === 0) return chamberC;
  return decayed(ambientC, chamberC, minutes / cycle.doorTauMinutes);
}

/** Minutes until an empty chamber that loses `lossWPerK` is down to `toC`; Infinity where it never is. */
export function minutesToFall(
  cycle: ThermalCycle,
  ambientC: number,
  { fromC, toC, lossWPerK }: { readonly fromC: number; readonly toC: number; readonly lossWPerK: number },
): number {
  if (fromC <= toC) return 0;
  if (toC <= ambientC || lossWPerK <= 0) return Infinity;
  return (Math.log((fromC - ambientC) / (toC - ambientC)) * heatJPerK(cycle)) / (60 * lossWPerK);
}

function heatJPerK(cycle: ThermalCycle): number {
  return cycle.heatCapacityKJPerK * 1000;
}

/** First-order decay towards the room; `timeConstants` is elapsed time over the time constant. */
function decayed(ambientC: number, chamberC: number, timeConstants: number): number {
  return ambientC + (chamberC - ambientC) * Math.exp(-timeConstants);
}
