/** Firings that soak enough at the warm end of everything, whether or not they overbake: asked by loose-firing.ts. */
import type { BurnRun } from "../heat/burn-run.ts";
import { LONGEST_MINUTES, rowAt } from "../heat/burn-run.ts";
import { chamberAfterDoor } from "../heat/chamber.ts";
import { doorMinute, stateAtUnload, talliesAtUnload, talliesOn } from "../heat/coast.ts";
import type { LoadHeat } from "../heat/load-heat.ts";
import { firstBurnerOff, neverSoaks } from "../heat/quickest.ts";
import { burntAt } from "../heat/row.ts";
import { soakToSpare } from "../heat/windows.ts";

/** Two answers of the same physics differ by less, minutes. */
export const HAIR_MINUTES = 0.02;
/** In a chamber that falls, burner-offs are looked at for so long at least, whatever soaks by then. */
const LEAST_FALL_MINUTES = 120;
const TINY = 1e-9;

export interface Draft {
  readonly setPointC: number;
  readonly burnerOff: number;
  readonly unload: number;
  readonly gasKWh: number;
  readonly hotC: number;
}

/** Per burner-off, latest first: the first unloading that soaks enough, until none does; without those that say nothing new. */
export function draftsAt(run: BurnRun, setPointC: number): Draft[] {
  const { heat } = run.heatUp;
  const first = firstBurnerOff(run);
  if (first === undefined) return [];
  const end = soakedAt(run, first);
  if (!end.soaks && !run.startsAbove) return [];
  const drafts: Draft[] = [];
  const last = end.soaks ? end.burnerOff : Math.max(end.burnerOff, first + LEAST_FALL_MINUTES);
  let before = -1;
  for (let burnerOff = last; burnerOff >= first; burnerOff--) {
    const door = doorMinute(run, burnerOff, 0, Math.max(0, before - burnerOff));
    const unload = door === Infinity ? undefined : soakedUnload(run, burnerOff, door);
    if (unload === undefined) {
      if (run.startsAbove || door === Infinity) continue;
      break;
    }
    before = unload;
    const rows = stateAtUnload(run, burnerOff, unload);
    drafts.push({
      setPointC,
      burnerOff,
      unload,
      gasKWh: gasOf(heat, rows),
      hotC: chamberAfterDoor(heat.cycle, heat.ambientC, heat.ambientC + rows[0]!, heat.cycle.unloadMinutes),
    });
  }
  return thinned(drafts);
}

/** A burner-off that takes no less gas for a door no sooner and a cooler chamber says nothing new. `drafts`: latest burner-off first. */
function thinned(drafts: readonly Draft[]): Draft[] {
  return drafts.filter((draft, at) => {
    // Less gas takes an earlier burner-off.
    for (let other = at + 1; other < drafts.length; other++) {
      const { unload, gasKWh, hotC } = drafts[other]!;
      if (unload <= draft.unload && gasKWh < draft.gasKWh && hotC >= draft.hotC) return false;
    }
    return true;
  });
}

function gasOf(heat: LoadHeat, rows: Float64Array): number {
  return rows[burntAt(0, heat.members.length)]! / 60_000 / heat.cycle.efficiency;
}

/** The burner-off from which on a door that opened at once would find all soaked, or after which nothing soaks any more. */
function soakedAt(run: BurnRun, first: number): { readonly burnerOff: number; readonly soaks: boolean } {
  const { heat } = run.heatUp;
  const early = heat.cycle.earlyMinutes;
  let burnerOff = first;
  while (burnerOff <= LONGEST_MINUTES) {
    const minute = Math.max(0, burnerOff - early);
    const { rows, at } = rowAt(run, minute);
    const spare = soakToSpare(heat, rows, at) + HAIR_MINUTES;
    if (spare >= 0) return { burnerOff, soaks: true };
    if ((run.startsAbove || minute > run.branch) && neverSoaks(run, rows, at)) break;
    burnerOff += Math.max(1, Math.ceil(-spare - TINY));
  }
  return { burnerOff, soaks: false };
}

/** Soak grows by no more than a minute a minute, and not at all once no metal is warm enough. */
function soakedUnload(run: BurnRun, burnerOff: number, door: number): number | undefined {
  const { heat } = run.heatUp;
  const early = heat.cycle.earlyMinutes;
  const off = Math.max(0, burnerOff - early);
  let unload = door;
  let opened = Math.max(off, unload - early);
  let rows = talliesAtUnload(run, off, opened);
  let before = -Infinity;
  for (;;) {
    const spare = soakToSpare(heat, rows, 0) + HAIR_MINUTES;
    if (spare >= 0) return unload;
    if (spare <= before) return undefined;
    before = spare;
    unload += Math.max(1, Math.ceil(-spare - TINY));
    const later = Math.max(off, unload - early);
    rows = talliesOn(heat, opened, later);
    opened = later;
  }
}
