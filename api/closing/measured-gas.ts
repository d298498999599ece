/** Gas by meter or bottle: what the readings say was used, against what the burners should have taken meanwhile. */
import type { DaySummary } from "../contract/closed-day.ts";
import type { ShopTime } from "../shop/instants.ts";
import type { Fired } from "./fired.ts";

type MeasuredGas = NonNullable<DaySummary["measuredGas"]>;

/** A level read at an instant (milliseconds): of the meter it rises, of the bottle it falls. */
export interface Level {
  readonly at: number;
  /** Whose meter it is; a bottle serves the shop. */
  readonly oven: string;
  readonly units: number;
  /** True: what a fresh bottle holds, not what is left of the last one. */
  readonly fresh: boolean;
}

export interface GasKind {
  readonly by: MeasuredGas["by"];
  readonly unit: string;
  readonly grossKWhPerUnit: number;
}

/** Null with fewer than two readings of the same meter or bottle. A level that goes the wrong way begins anew. */
export function measuredGas(
  levels: readonly Level[],
  fired: readonly Fired[],
  { by, unit, grossKWhPerUnit }: GasKind,
  time: ShopTime,
): MeasuredGas | null {
  const sources = by === "bottle" ? [levels] : byOven(levels);
  const stretches = sources.flatMap((source) => stretchesOf(source, by));
  if (stretches.length === 0) return null;
  const units = stretches.reduce((sum, { used }) => sum + used, 0);
  const kWh = units * grossKWhPerUnit;
  const foreseenKWh = stretches.reduce((sum, stretch) => sum + foreseen(fired, stretch, by, time), 0);
  return {
    by,
    readings: levels.filter(({ fresh }) => !fresh).length,
    from: time.write(Math.min(...stretches.map(({ from }) => from))),
    to: time.write(Math.max(...stretches.map(({ to }) => to))),
    units,
    unit,
    kWh,
    foreseenKWh,
    differencePercent: foreseenKWh > 0 ? (100 * (kWh - foreseenKWh)) / foreseenKWh : null,
  };
}

function byOven(levels: readonly Level[]): Level[][] {
  const ovens = [...new Set(levels.map(({ oven }) => oven))];
  return ovens.map((oven) => levels.filter((level) => level.oven === oven));
}

interface Stretch {
  readonly oven: string;
  readonly from: number;
  readonly to: number;
  readonly used: number;
}

function stretchesOf(levels: readonly Level[], by: MeasuredGas["by"]): Stretch[] {
  const inOrder = levels.toSorted((a, b) => a.at - b.at);
  return inOrder.slice(1).flatMap((level, index) => {
    const before = inOrder[index];
    if (before === undefined || level.fresh) return [];
    const used = by === "meter" ? level.units - before.units : before.units - level.units;
    return used < 0 ? [] : [{ oven: level.oven, from: before.at, to: level.at, used }];
  });
}

/** Gas of the burners between two instants, spread evenly over the time that each was lit. */
function foreseen(fired: readonly Fired[], stretch: Stretch, by: MeasuredGas["by"], time: ShopTime): number {
  return fired.reduce((sum, { load }) => {
    if (by === "meter" && load.oven !== stretch.oven) return sum;
    const lit = time.millis(load.burnerOnAt ?? load.doorClosesAt);
    const off = time.millis(load.burnerOffAt ?? load.unloadAt);
    if (off <= lit) return lit >= stretch.from && lit < stretch.to ? sum + load.gasKWh : sum;
    const overlap = Math.max(0, Math.min(off, stretch.to) - Math.max(lit, stretch.from));
    return sum + (load.gasKWh * overlap) / (off - lit);
  }, 0);
}
