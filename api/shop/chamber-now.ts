/** How warm an oven stands when planning starts anew, from its last firing: the closed forms of the oven physics. */
import type { DayOven } from "../contract/day.ts";
import type { PlanLoad } from "../contract/plan.ts";
import { MINUTE } from "./instants.ts";

type Thermal = Pick<
  Extract<DayOven["cycle"], { kind: "thermal" }>,
  "wallLossWPerK" | "heatCapacityKJPerK" | "doorTauMinutes" | "unloadMinutes"
>;

/** Door shut, burner and fan off: the chamber falls by wall loss alone. */
export function afterIdle(cycle: Thermal, ambientC: number, fromC: number, minutes: number): number {
  return (
    ambientC + (fromC - ambientC) * Math.exp((-cycle.wallLossWPerK * minutes * 60) / (1000 * cycle.heatCapacityKJPerK))
  );
}

/** The chamber at `at` (milliseconds) after a firing that is done: the open door first unless it stays shut, then the shut oven. */
export function afterFiring(
  cycle: Thermal,
  ambientC: number,
  load: Pick<PlanLoad, "kind" | "curve">,
  doneAt: number,
  at: number,
  isShut = load.kind !== "bake",
): number | undefined {
  const last = load.curve.at(-1);
  if (last === undefined) return undefined;
  const doorMinutes = isShut ? 0 : cycle.unloadMinutes;
  const shutC = ambientC + (last.chamberC - ambientC) * Math.exp(-doorMinutes / cycle.doorTauMinutes);
  return afterIdle(cycle, ambientC, shutC, Math.max(0, (at - doneAt) / MINUTE));
}
