/**
 * Rows at whole minutes for as long as the burner may be on. Neither full fire nor a chamber that falls without heat knows
 * the set-point until it gets there, so that one heat-up and one fall serve every set-point: each branches off in the minute
 * in which it is reached.
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

/** A load from one chamber temperature at door opening: under full fire, and without heat. */
export interface HeatUp {
  readonly heat: LoadHeat;
  readonly chamberAtOpenC: number;
  /** Chamber when the purge ends, K above the room. */
  readonly purgedChamber: number;
  readonly track: Track;
  /** From the purge's last whole minute on. */
  readonly fall: Track;
  /** Of the run in use. */
  readonly runTrack: Track;
}

/** The same with the burner held at a set-point, K above the room. */
export interface BurnRun {
  readonly heatUp: HeatUp;
  readonly setPoint: number;
  /** The chamber is at or above the set-point when the purge ends. */
  readonly startsAbove: boolean;
  /**
   * Up to this minute the rows are those that other set-points have too; Infinity where heating does not reach the set-point.
   * Moved on while `isFalling`.
   */
  branch: number;
  /** The chamber started above the set-point and has not met it in any minute asked for. */
  isFalling: boolean;
  /** Minute in which heating first met the set-point; NaN where it never does or starts above. */
  readonly reachedAt: number;
  readonly track: Track;
}

/** Storage for one heat-up and one run at a time; it is kept, because firings are simulated by the thousand. */
export interface Workspace {
  readonly heatUp: Track;
  readonly fall: Track;
  readonly run: Track;
  current: HeatUp | undefined;
}

const emptyTrack = (): Track => ({ rows: new Float64Array(4096), first: 0, last: 0 });

export function newWorkspace(): Workspace {
  return { heatUp: emptyTrack(), fall: emptyTrack(), run: emptyTrack(), current: undefined };
}

const everyones = newWorkspace();

/** Voids runs made in the same workspace from an earlier heat-up. */
export function heatUp(heat: LoadHeat, chamberAtOpenC: number, workspace = everyones): HeatUp {
  const { current, heatUp: track, fall, run } = workspace;
  if (current !== undefined && current.heat === heat && current.chamberAtOpenC === chamberAtOpenC) return current;
  reserve(track, heat, 2);
  track.first = 0;
  track.last = 0;
  writeClosingRow(heat, chamberAtOpenC, track.rows, 0);
  const purgedChamber = purged(heat, track);
  begin(fall, heat, track, Math.floor(heat.cycle.purgeMinutes));
  return (workspace.current = { heat, chamberAtOpenC, purgedChamber, track, fall, runTrack: run });
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

/** Looks for the set-point up to minute `until` only. Voids the run before from the same heat-up. */
export function burnRun(up: HeatUp, setPoint: number, until: number): BurnRun {
  const startsAbove = up.purgedChamber >= setPoint;
  const branch = startsAbove ? up.fall.first : branchMinute(up, setPoint, until);
  let reachedAt = NaN;
  if (!startsAbove && branch !== Infinity) {
    begin(up.runTrack, up.heat, up.track, branch);
    reachedAt = burnOn(up.heat, up.runTrack, setPoint);
  }
  return { heatUp: up, setPoint, startsAbove, branch, isFalling: startsAbove, reachedAt, track: up.runTrack };
}

/** A track that goes on from one minute of another. */
function begin(track: Track, heat: LoadHeat, from: Track, minute: number): void {
  reserve(track, heat, 2);
  const length = rowLength(heat.members.length);
  const at = (minute - from.first) * length;
  for (let index = 0; index < length; index++) track.rows[index] = from.rows[at + index]!;
  track.first = minute;
  track.last = minute;
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

const place: RowPlace = { rows: everyones.heatUp.rows, at: 0 };

/** Finds the row of a whole minute, burning on to it if need be. The answer is overwritten by the next call. */
export function rowAt(run: BurnRun, minute: number): RowPlace {
  const { heat, track, fall } = run.heatUp;
  if (run.isFalling && minute > run.branch) fallOn(run, minute);
  if (minute > run.branch) {
    place.at = extend(heat, run.track, minute, run.setPoint);
    place.rows = run.track.rows;
  } else if (run.startsAbove && minute > fall.first) {
    place.at = extend(heat, fall, minute, NEVER_MET);
    place.rows = fall.rows;
  } else {
    place.at = extend(heat, track, minute, Infinity);
    place.rows = track.rows;
  }
  return place;
}

/** A chamber falls without heat to no such set-point. */
const NEVER_MET = -Infinity;

/** Moves the branch of a falling run on to `minute`, or to the last minute before the set-point is met. */
function fallOn(run: BurnRun, minute: number): void {
  const { heat, fall } = run.heatUp;
  while (run.branch < minute) {
    const at = extend(heat, fall, run.branch + 1, NEVER_MET);
    if (fall.rows[at]! <= run.setPoint) {
      begin(run.track, heat, fall, run.branch);
      run.isFalling = false;
      return;
    }
    run.branch++;
  }
}

/** A higher set-point than that of a run which is still falling: would every row asked for have been the same? */
export function fallsAlike({ isFalling, heatUp: { heat, fall } }: BurnRun, higher: number): boolean {
  if (!isFalling) return false;
  const length = rowLength(heat.members.length);
  for (let at = 0; at <= (fall.last - fall.first) * length; at += length) if (fall.rows[at]! <= higher) return false;
  return true;
}

function extend(heat: LoadHeat, track: Track, minute: number, setPoint: number): number {
  while (track.last < minute) burnOn(heat, track, setPoint);
  return (minute - track.first) * rowLength(heat.members.length);
}

/** One more minute of a track; the minute in which it met the set-point, see burnMinute. */
function burnOn(heat: LoadHeat, track: Track, setPoint: number): number {
  const length = rowLength(heat.members.length);
  const at = (track.last - track.first) * length;
  reserve(track, heat, track.last - track.first + 2);
  const { rows } = track;
  for (let index = 0; index < length; index++) rows[at + length + index] = rows[at + index]!;
  const met = burnMinute(heat, rows, at + length, track.last, setPoint);
  track.last++;
  return met;
}

function reserve(track: Track, heat: LoadHeat, rowCount: number): void {
  const wanted = rowCount * rowLength(heat.members.length);
  if (track.rows.length >= wanted) return;
  const larger = new Float64Array(2 * wanted);
  larger.set(track.rows);
  track.rows = larger;
}
