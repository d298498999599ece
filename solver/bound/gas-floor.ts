/** Gas that no plan can avoid, priced, when so many pans may be left over. */
import type { DayModel } from "../day/day-model.ts";
import type { Chains } from "./chains.ts";
import { groupsApart, leastOvenMinutes } from "./oven-sets.ts";

/** Fixed cycles draw gas for as long as the door is closed: the least oven time, less door work, at the least draw. */
export function leastGasCost(day: DayModel, { bakes }: Chains): (left: number) => number {
  const { ovens, prices } = day.request;
  const draws = ovens.map(({ cycle }) => (cycle.kind === "fixed" ? cycle.gasKW : 0));
  const pricePerMinute = (Math.min(...draws) / 60) * prices.gasPerKWh;
  if (pricePerMinute === 0) return () => 0;
  const closed = bakes.map((bake) => ({ ...bake, minutes: day.kinds[bake.kind]!.coat.cycleMinutes ?? 0 }));
  const minutes = leastOvenMinutes(day, closed, groupsApart(day, closed));
  const perPan = new Map<number, number>();
  for (const bake of closed) perPan.set(bake.pan, (perPan.get(bake.pan) ?? 0) + bake.minutes);
  const most = Math.max(0, ...perPan.values());
  return (left) => Math.max(0, minutes - left * most) * pricePerMinute;
}
