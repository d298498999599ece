/**
 * The least cost of a tiny day by trying every plan: every order of sprayings, every sequence of loads, each a set of
 * coats that are next, in every oven, each as early as it can be. Nothing here waits without need: no cost falls with time.
 */
import type { TinyCoat, TinyDay, TinyPan } from "./tiny-days.ts";

interface Stand {
  readonly pans: readonly PanStand[];
  /** Per oven: when its next door may open. */
  readonly ovens: readonly number[];
  /** When the sprayer's hands are free, and what is in the gun. */
  readonly sprayer: { readonly free: number; readonly paint: string | null };
  readonly gas: number;
}

interface PanStand {
  readonly baked: number;
  /** The next coat is on, or needs no hands. */
  readonly wet: boolean;
  /** When its next door may open; before spraying, when that may begin; after its last coat, when it was done. */
  readonly free: number;
}

export function leastCost(day: TinyDay): number {
  return leastFrom(day, {
    pans: day.pans.map((pan) => facing(day, pan, 0, pan.ready + pan.prepMinutes)),
    ovens: Array.from({ length: day.ovens }, () => 0),
    sprayer: { free: 0, paint: null },
    gas: 0,
  });
}

/** A pan that may be worked on for its coat `baked` from `minute` on. Where nothing is sprayed nothing flashes. */
function facing(day: TinyDay, pan: TinyPan, baked: number, minute: number): PanStand {
  const coat = pan.coats[baked];
  if (coat === undefined) return { baked, wet: true, free: minute + day.finishMinutes };
  if (coat.sprayMinutes === 0) return { baked, wet: true, free: minute };
  if (day.sprayers === 0) return { baked, wet: true, free: minute + coat.sprayMinutes + coat.flashMinutes };
  return { baked, wet: false, free: minute };
}

function leastFrom(day: TinyDay, stand: Stand): number {
  const due = day.pans.flatMap((pan, i) => (panStand(stand, i).baked < pan.coats.length ? [i] : []));
  if (due.length === 0) return costOf(day, stand);
  const dry = due.filter((i) => !panStand(stand, i).wet);
  const wet = due.filter((i) => panStand(stand, i).wet);
  let least = Infinity;
  for (const pan of dry) least = Math.min(least, leastFrom(day, sprayed(day, stand, pan)));
  for (let members = 1; members < 1 << wet.length; members++) {
    const load = wet.filter((_, k) => (members & (1 << k)) !== 0);
    if (!mayShare(day, stand, load)) continue;
    for (let oven = 0; oven < day.ovens; oven++) least = Math.min(least, leastFrom(day, fired(day, stand, load, oven)));
  }
  return least;
}

function sprayed(day: TinyDay, stand: Stand, pan: number): Stand {
  const { sprayMinutes, flashMinutes, paint } = nextCoat(day, stand, pan);
  const { sprayer } = stand;
  const change = sprayer.paint === null || sprayer.paint === paint ? 0 : day.changeoverMinutes;
  const own = panStand(stand, pan);
  const end = Math.max(own.free, sprayer.free + change) + sprayMinutes;
  return {
    ...stand,
    pans: stand.pans.with(pan, { ...own, wet: true, free: end + flashMinutes }),
    sprayer: { free: end, paint },
  };
}

function mayShare(day: TinyDay, stand: Stand, load: readonly number[]): boolean {
  const area = load.reduce((sum, i) => sum + panAt(day, i).dm2, 0);
  const groups = new Set(load.map((i) => nextCoat(day, stand, i).group));
  return area <= day.capacityDm2 && (groups.size === 1 || !day.sameGroup);
}

function fired(day: TinyDay, stand: Stand, load: readonly number[], oven: number): Stand {
  const opens = Math.max(stand.ovens[oven] ?? 0, ...load.map((i) => panStand(stand, i).free));
  const closed = Math.max(...load.map((i) => nextCoat(day, stand, i).cycleMinutes));
  const done = opens + day.loadMinutes + closed + day.unloadMinutes;
  const after = (own: PanStand, i: number): PanStand =>
    facing(day, panAt(day, i), own.baked + 1, done + nextCoat(day, stand, i).inspectMinutes);
  return {
    ...stand,
    pans: stand.pans.map((own, i) => (load.includes(i) ? after(own, i) : own)),
    ovens: stand.ovens.with(oven, done),
    gas: stand.gas + (day.gasKW * closed) / 60,
  };
}

function costOf(day: TinyDay, stand: Stand): number {
  const late = day.pans.reduce(
    (sum, pan, i) => sum + (pan.latePerHour * Math.max(0, panStand(stand, i).free - pan.promised)) / 60,
    0,
  );
  return stand.gas * day.gasPerKWh + (day.crewPerHour * Math.max(...stand.ovens)) / 60 + late;
}

function nextCoat(day: TinyDay, stand: Stand, pan: number): TinyCoat {
  const coat = panAt(day, pan).coats[panStand(stand, pan).baked];
  if (coat === undefined) throw new Error(`pan ${pan} has no coat left`);
  return coat;
}

function panStand(stand: Stand, index: number): PanStand {
  const own = stand.pans[index];
  if (own === undefined) throw new Error(`no pan ${index}`);
  return own;
}

function panAt(day: TinyDay, index: number): TinyPan {
  const pan = day.pans[index];
  if (pan === undefined) throw new Error(`no pan ${index}`);
  return pan;
}
