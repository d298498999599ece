/**
 * Rows at whole minutes for as long as the burner may be on. Full fire does not know the set-point until it gets there, so
 * one heat-up serves every set-point: each branches off in the minute in which it is reached.
 */
import { burnMinute } from "./burn.ts";
import { glideParts } from "./glide.ts";
import type { LoadHeat } from "./load-heat.ts";
import { writeClosingRow } from "./loading.ts";
import { rowLength } from "./row.ts";

/** No firing is followed longer than a day. */
export const LONGEST_MINUTES = 1440;

interface Track {
  rows: Float64Array;
  /** Minute of the first row, and of the last one written. */
  first: number;
  last: number;
}

/** A load heating up under full fire from one chamber temperature at door opening. */
export interface HeatUp {
  readonly heat: LoadHeat;
  readonly chamberAtOpenC: number;
  /** Chamber when the purge ends, K above the room. */
  readonly purgedChamber: number;
  readonly track: Track;
}

/** The same with the burner held at a set-point, K above the room. */
export interface BurnRun {
  readonly heatUp: HeatUp;
  readonly setPoint: number;
  /** The chamber is at or above the set-point when the purge ends. */
  readonly startsAbove: boolean;
  /** Up to this minute the rows are the heat-up's; Infinity where the set-point is not reached. */
  readonly branch: number;
  /** Minute in which heating first met the set-point; NaN where it never does or starts above. */
  readonly reachedAt: number;
  readonly track: Track;
}

/** One heat-up and one run are in use at a time; their storage is kept, because firings are simulated by the thousand. */
const heatUpTrack: Track = { rows: new Float64Array(4096), first: 0, last: 0 };
const runTrack: Track = { rows: new Float64Array(4096), first: 0, last: 0 };
let current: HeatUp | undefined;

/** Voids runs made from an earlier heat-up. */
export function heatUp(heat: LoadHeat, chamberAtOpenC: number): HeatUp {
  if (current !== undefined && current.heat === heat && current.chamberAtOpenC === chamberAtOpenC) return current;
  reserve(heatUpTrack, heat, 2);
  heatUpTrack.first = 0;
  heatUpTrack.last = 0;
  writeClosingRow(heat, chamberAtOpenC, heatUpTrack.rows, 0);
  current = { heat, chamberAtOpenC, purgedChamber: purged(heat, heatUpTrack), track: heatUpTrack };
  return current;
}

function purged(heat: LoadHeat, track: Track): number {
  const { purgeMinutes } = heat.cycle;
  const whole = Math.floor(purgeMinutes);
  const at = extend(heat, track, whole, Infinity);
  if (whole === purgeMinutes) return track.rows[at]!;
  const ahead = track.rows.slice(at, at + rowLength(heat.members.length));
  glideParts(heat, ahead, 0, whole, purgeMinutes, 0, undefined);
  return ahead[0]!;
}

/** Looks for the set-point up to minute `until` only. Voids the run before. */
export function burnRun(up: HeatUp, setPoint: number, until: number): BurnRun {
  const startsAbove = up.purgedChamber >= setPoint;
  const branch = startsAbove ? Math.floor(up.heat.cycle.purgeMinutes) : branchMinute(up, setPoint, until);
  let reachedAt = NaN;
  if (branch !== Infinity) {
    const length = rowLength(up.heat.members.length);
    const at = (branch - up.track.first) * length;
    reserve(runTrack, up.heat, 2);
    for (let index = 0; index < length; index++) runTrack.rows[index] = up.track.rows[at + index]!;
    for (let index = 0; index < length; index++) runTrack.rows[length + index] = up.track.rows[at + index]!;
    runTrack.first = branch;
    runTrack.last = branch + 1;
    const met = burnMinute(up.heat, runTrack.rows, length, branch, setPoint);
    if (!startsAbove) reachedAt = met;
  }
  return { heatUp: up, setPoint, startsAbove, branch, reachedAt, track: runTrack };
}

/** The last whole minute before full fire reaches the set-point; Infinity where it does not by `until`. */
function branchMinute(up: HeatUp, setPoint: number, until: number): number {
  const { heat, track } = up;
  if (heat.burnLossWPerK * setPoint >= heat.fullW && up.purgedChamber < setPoint) return Infinity;
  const length = rowLength(heat.members.length);
  for (let minute = Math.floor(heat.cycle.purgeMinutes); minute < until; minute++) {
    extend(heat, track, minute + 1, Infinity);
    if (track.rows[(minute + 1) * length]! >= setPoint) return minute;
  }
  return Infinity;
}

/** The rows of a run and where that of a whole minute begins in them. Valid until the track grows. */
export interface RowPlace {
  rows: Float64Array;
  at: number;
}

const place: RowPlace = { rows: heatUpTrack.rows, at: 0 };

/** Finds the row of a whole minute, burning on to it if need be. The answer is overwritten by the next call. */
export function rowAt(run: BurnRun, minute: number): RowPlace {
  const { heat, track } = run.heatUp;
  if (minute <= run.branch) {
    place.at = extend(heat, track, minute, Infinity);
    place.rows = track.rows;
  } else {
    place.at = extend(heat, run.track, minute, run.setPoint);
    place.rows = run.track.rows;
  }
  return place;
}

function extend(heat: LoadHeat, track: Track, minute: number, setPoint: number): number {
  const length = rowLength(heat.members.length);
  while (track.last < minute) {
    const at = (track.last - track.first) * length;
    reserve(track, heat, track.last - track.first + 2);
    const { rows } = track;
    for (let index = 0; index < length; index++) rows[at + length + index] = rows[at + index]!;
    burnMinute(heat, rows, at + length, track.last, setPoint);
    track.last++;
  }
  return (minute - track.first) * length;
}

function reserve(track: Track, heat: LoadHeat, rowCount: number): void {
  const wanted = rowCount * rowLength(heat.members.length);
  if (track.rows.length >= wanted) return;
  const larger = new Float64Array(2 * wanted);
  larger.set(track.rows);
  track.rows = larger;
}
