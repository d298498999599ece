/** Gas that no plan can avoid, priced, when so many coats may be left over. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { ThermalCycle } from "../shop.ts";
import { bakingRange } from "./bake-times.ts";
import type { Chains, CloserLook, Task } from "./chains.ts";
import { groupsApart, leastOvenMinutes } from "./oven-sets.ts";

/**
 * Every load of a pan draws at least `kWh` of its kind beyond the heat that it takes from the chamber and does not leave in
 * it; all that ovens may take in this way is what they held at first. Loads are as few as room and groups allow, and no
 * fewer than the coats of one pan.
 */
export function leastGasCost(day: DayModel, { bakes, shares }: Chains, closer?: CloserLook): (left: number) => number {
  const { ovens, prices, held } = day.request;
  const kinds = day.kinds.map((kind, index) =>
    Math.max(
      0,
      Math.min(
        ...kind.ovens.map((oven) =>
          Math.max(leastKWh(day, index, oven), closer?.gas[0]?.spent.get(index)?.[oven] ?? 0),
        ),
      ),
    ),
  );
  // The unit of the oven sets is then kWh instead of minutes.
  const loads: Task[] = bakes.map((bake) => ({
    ...bake,
    minutes: Number.isFinite(kinds[bake.kind]!) ? kinds[bake.kind]! : 0,
  }));
  const least = leastOvenMinutes(day, loads, groupsApart(day, loads, shares), shares);
  const perPan = new Map<number, number>();
  for (const load of loads) perPan.set(load.pan, (perPan.get(load.pan) ?? 0) + load.minutes);
  const chains = [...perPan.values()].sort((a, b) => b - a);
  const most = chains[0] ?? 0;
  const stored = ovens.reduce((sum, _, oven) => sum + storedKWh(day, oven), 0);
  const strays = held.reduce((sum, load) => sum + strayKWh(day, load.oven), 0);
  return (left) => Math.max(0, Math.max(least - left * most, chains[left] ?? 0) - stored - strays) * prices.gasPerKWh;
}

const KJ_PER_KWH = 3600;

/**
 * A fixed cycle: its draw while the door is closed. Else, when the pan gets into its window the chamber is as warm as that
 * at least (or was, when the pan entered), and everything after only loses heat or draws more. The door then lets out its
 * share of that heat at unloading, and of the rest its share when it next opens: idling or venting until then loses more.
 */
function leastKWh(day: DayModel, kind: number, ovenIndex: number): number {
  const { cycle } = day.request.ovens[ovenIndex]!;
  const { coat } = day.kinds[kind]!;
  if (cycle.kind === "fixed") return (cycle.gasKW * (coat.cycleMinutes ?? 0)) / 60;
  const { highestOffsetC } = bakingRange(day, ovenIndex, cycle);
  const entered = coat.window!.metalLowC + cycle.guardC - highestOffsetC - day.request.ambientC;
  const chamber = Math.max(0, entered) * Math.exp(-cycle.loadMinutes / 2 / cycle.doorTauMinutes);
  const kept = Math.exp(-cycle.unloadMinutes / cycle.doorTauMinutes);
  const nextShare = Math.max(0, atDoor(day, ovenIndex, cycle)) / cycle.heatCapacityKJPerK;
  const letOut = cycle.heatCapacityKJPerK * chamber * (1 - kept + kept * nextShare);
  return letOut / KJ_PER_KWH / cycle.efficiency - strayKWh(day, ovenIndex);
}

/** Of each kelvin of a chamber whose door opens for loading: what gets out less what pans of the load can take, kJ. */
function atDoor(day: DayModel, ovenIndex: number, cycle: ThermalCycle): number {
  const half = cycle.loadMinutes / 2;
  const taken = Math.max(
    ...kindsIn(day, ovenIndex).map(
      ({ body }) => 1 - Math.exp((-60 * cycle.filmWPerM2K * body.exchangeM2 * half) / body.heatJPerK),
    ),
  );
  const letOut = cycle.heatCapacityKJPerK * (1 - Math.exp(-cycle.loadMinutes / cycle.doorTauMinutes));
  return letOut - mostKJPerK(day, ovenIndex) * taken;
}

/**
 * Heat that pans may bring into the closed oven for nothing: what they took from the air at loading beyond what the open
 * door lets out anyway, and what warm and cool shelves differ from the chamber by.
 */
function strayKWh(day: DayModel, ovenIndex: number): number {
  const { cycle } = day.request.ovens[ovenIndex]!;
  if (cycle.kind === "fixed") return 0;
  const kinds = kindsIn(day, ovenIndex);
  if (kinds.length === 0) return 0;
  const { hottestOpen, highestOffsetC, lowestOffsetC } = bakingRange(day, ovenIndex, cycle);
  const atLoading = Math.max(0, -atDoor(day, ovenIndex, cycle)) * Math.max(0, hottestOpen);
  const onShelves = mostKJPerK(day, ovenIndex) * (2 * Math.max(0, highestOffsetC) + Math.max(0, -lowestOffsetC));
  return (atLoading + onShelves) / KJ_PER_KWH / cycle.efficiency;
}

function kindsIn(day: DayModel, oven: number): readonly BakeKind[] {
  return day.kinds.filter((kind) => kind.ovens.includes(oven));
}

/** Heat capacity of all pans an oven may hold at once. */
function mostKJPerK(day: DayModel, oven: number): number {
  const all = day.pans.reduce((sum, pan) => sum + day.request.lines[pan.line]!.massKg, 0);
  const kg = Math.min(all, day.request.ovens[oven]!.maxLoadKg);
  return (kg * Math.max(...kindsIn(day, oven).map(({ line }) => line.specificHeatJPerKgK))) / 1000;
}

/** What the chamber holds above the room at first, as the gas it would have taken. */
function storedKWh(day: DayModel, oven: number): number {
  const { cycle } = day.request.ovens[oven]!;
  if (cycle.kind === "fixed") return 0;
  const kelvin = Math.max(0, cycle.startC - day.request.ambientC);
  return (cycle.heatCapacityKJPerK * kelvin) / KJ_PER_KWH / cycle.efficiency;
}
