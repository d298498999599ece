/** Gas that no plan can avoid, priced, when so many pans may be left over. */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import { clashOf } from "../loads/mixing.ts";
import { bakingRange } from "./bake-times.ts";
import type { Chains, Task } from "./chains.ts";
import { groupsApart, leastOvenMinutes } from "./oven-sets.ts";

/**
 * Every load of a pan draws at least `kWh` of its kind beyond the heat that it takes from the chamber and does not leave in
 * it; all that ovens may take in this way is what they held at first. Loads are as few as room and groups allow, and no
 * fewer than the coats of one pan.
 */
export function leastGasCost(day: DayModel, { bakes }: Chains): (left: number) => number {
  const { ovens, prices, held } = day.request;
  const kinds = day.kinds.map((kind, index) =>
    Math.max(0, Math.min(...kind.ovens.map((oven) => leastKWh(day, index, oven)))),
  );
  // The unit of the oven sets is then kWh instead of minutes.
  const loads: Task[] = bakes.map((bake) => ({
    ...bake,
    minutes: Number.isFinite(kinds[bake.kind]!) ? kinds[bake.kind]! : 0,
  }));
  const least = leastOvenMinutes(day, loads, groupsApart(day, loads));
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
 * A fixed cycle: its draw while the door is closed. Else, when the last pan of a load gets into its window the chamber is at
 * the lowest window of the load at least (or was, when the pans entered). The door then lets out its share of that heat
 * at unloading, from wherever the chamber has got to, and at loading a share of what it finds.
 */
function leastKWh(day: DayModel, kind: number, ovenIndex: number): number {
  const { cycle } = day.request.ovens[ovenIndex]!;
  const { coat } = day.kinds[kind]!;
  if (cycle.kind === "fixed") return (cycle.gasKW * (coat.cycleMinutes ?? 0)) / 60;
  const company = kindsIn(day, ovenIndex).filter(
    (other) =>
      clashOf(day.request.mixing, [coat.mixGroup, other.coat.mixGroup]) === undefined ||
      other.coat.mixGroup === coat.mixGroup,
  );
  const lowestC = Math.min(...company.map((other) => other.coat.window!.metalLowC)) + cycle.guardC;
  const { highestOffsetC } = bakingRange(day, ovenIndex, cycle);
  const entered = lowestC - highestOffsetC - day.request.ambientC;
  const chamber = Math.max(0, entered) * Math.exp(-cycle.loadMinutes / 2 / cycle.doorTauMinutes);
  const letOut = cycle.heatCapacityKJPerK * chamber * (1 - Math.exp(-cycle.unloadMinutes / cycle.doorTauMinutes));
  return letOut / KJ_PER_KWH / cycle.efficiency - strayKWh(day, ovenIndex);
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
  const mostKJPerK = (mostKg(day, ovenIndex) * Math.max(...kinds.map(({ line }) => line.specificHeatJPerKgK))) / 1000;
  const half = cycle.loadMinutes / 2;
  const taken = Math.max(
    ...kinds.map(({ body }) => 1 - Math.exp((-60 * cycle.filmWPerM2K * body.exchangeM2 * half) / body.heatJPerK)),
  );
  const doorLets = cycle.heatCapacityKJPerK * (1 - Math.exp(-cycle.loadMinutes / cycle.doorTauMinutes));
  const atLoading = Math.max(0, mostKJPerK * taken - doorLets) * Math.max(0, hottestOpen);
  const onShelves = mostKJPerK * (2 * Math.max(0, highestOffsetC) + Math.max(0, -lowestOffsetC));
  return (atLoading + onShelves) / KJ_PER_KWH / cycle.efficiency;
}

function kindsIn(day: DayModel, oven: number): readonly BakeKind[] {
  return day.kinds.filter((kind) => kind.ovens.includes(oven));
}

function mostKg(day: DayModel, oven: number): number {
  const all = day.pans.reduce((sum, pan) => sum + day.request.lines[pan.line]!.massKg, 0);
  return Math.min(all, day.request.ovens[oven]!.maxLoadKg);
}

/** What the chamber holds above the room at first, as the gas it would have taken. */
function storedKWh(day: DayModel, oven: number): number {
  const { cycle } = day.request.ovens[oven]!;
  if (cycle.kind === "fixed") return 0;
  const kelvin = Math.max(0, cycle.startC - day.request.ambientC);
  return (cycle.heatCapacityKJPerK * kelvin) / KJ_PER_KWH / cycle.efficiency;
}
