/**
 * The least cost of a tiny day by trying every plan: every sequence of loads, each a set of coats that are next, in
 * every oven, each as early as it can be. Nothing here waits without need, since no cost falls with time.
 */
import type { TinyDay, TinyPan } from "./tiny-days.ts";

interface Stand {
  /** Per pan: coats baked so far. */
  readonly baked: readonly number[];
  /** Per pan: when its next door may open; after its last coat, when it was done. */
  readonly free: readonly number[];
  /** Per oven: when its next door may open. */
  readonly ovens: readonly number[];
  readonly gas: number;
}

export function leastCost(day: TinyDay): number {
  const start: Stand = {
    baked: day.pans.map(() => 0),
    free: day.pans.map((pan) => firstDoor(pan)),
    ovens: Array.from({ length: day.ovens }, () => 0),
    gas: 0,
  };
  return leastFrom(day, start);
}

function leastFrom(day: TinyDay, stand: Stand): number {
  const due = day.pans.flatMap((pan, i) => ((stand.baked[i] ?? 0) < pan.coats.length ? [i] : []));
  if (due.length === 0) return costOf(day, stand);
  let least = Infinity;
  for (let members = 1; members < 1 << due.length; members++) {
    const load = due.filter((_, k) => (members & (1 << k)) !== 0);
    if (!mayShare(day, stand, load)) continue;
    for (let oven = 0; oven < day.ovens; oven++) least = Math.min(least, leastFrom(day, fired(day, stand, load, oven)));
  }
  return least;
}

function mayShare(day: TinyDay, { baked }: Stand, load: readonly number[]): boolean {
  const area = load.reduce((sum, i) => sum + panAt(day, i).dm2, 0);
  const groups = new Set(load.map((i) => coatAt(panAt(day, i), baked[i] ?? 0).group));
  return area <= day.capacityDm2 && (groups.size === 1 || !day.sameGroup);
}

function fired(day: TinyDay, stand: Stand, load: readonly number[], oven: number): Stand {
  const opens = Math.max(stand.ovens[oven] ?? 0, ...load.map((i) => stand.free[i] ?? 0));
  const closed = Math.max(...load.map((i) => coatAt(panAt(day, i), stand.baked[i] ?? 0).cycleMinutes));
  const done = opens + day.loadMinutes + closed + day.unloadMinutes;
  const next = (i: number): number => {
    const pan = panAt(day, i);
    const at = stand.baked[i] ?? 0;
    const inspected = done + coatAt(pan, at).inspectMinutes;
    const coat = pan.coats[at + 1];
    return inspected + (coat === undefined ? day.finishMinutes : wetMinutes(coat));
  };
  return {
    baked: stand.baked.map((coats, i) => (load.includes(i) ? coats + 1 : coats)),
    free: stand.free.map((minute, i) => (load.includes(i) ? next(i) : minute)),
    ovens: stand.ovens.map((minute, k) => (k === oven ? done : minute)),
    gas: stand.gas + (day.gasKW * closed) / 60,
  };
}

function costOf(day: TinyDay, { free, ovens, gas }: Stand): number {
  const late = day.pans.reduce(
    (sum, pan, i) => sum + (pan.latePerHour * Math.max(0, (free[i] ?? 0) - pan.promised)) / 60,
    0,
  );
  return gas * day.gasPerKWh + (day.crewPerHour * Math.max(...ovens)) / 60 + late;
}

function firstDoor(pan: TinyPan): number {
  return pan.ready + pan.prepMinutes + wetMinutes(coatAt(pan, 0));
}

/** Spraying and flashing; where nothing is sprayed nothing flashes. */
function wetMinutes({ sprayMinutes, flashMinutes }: TinyPan["coats"][number]): number {
  return sprayMinutes > 0 ? sprayMinutes + flashMinutes : 0;
}

function panAt(day: TinyDay, index: number): TinyPan {
  const pan = day.pans[index];
  if (pan === undefined) throw new Error(`no pan ${index}`);
  return pan;
}

function coatAt(pan: TinyPan, index: number): TinyPan["coats"][number] {
  const coat = pan.coats[index];
  if (coat === undefined) throw new Error(`no coat ${index}`);
  return coat;
}
