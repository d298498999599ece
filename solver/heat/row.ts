/**
 * A row: the load at one instant and what its metal has been through since the door closed. Flat numbers, because
 * rows are made by the million.
 *
 * With n members: chamber node at 0; member nodes from 1; then n each of minutes at or above lowC, minutes at or above
 * lowC + guardC, highest node, and the minute lowC + guardC was first reached (Infinity before); last the burner's
 * heat so far, W·min.
 */
import { crossing, cubicAt, turningPoint } from "./hermite.ts";
import type { LoadHeat } from "./load-heat.ts";

export function rowLength(memberCount: number): number {
  return 5 * memberCount + 2;
}

/** Places of a member's numbers in the row that begins at `at`. */
export const aboveLowAt = (at: number, n: number, member: number): number => at + n + 1 + member;
export const soakAt = (at: number, n: number, member: number): number => at + 2 * n + 1 + member;
export const peakAt = (at: number, n: number, member: number): number => at + 3 * n + 1 + member;
export const firstInAt = (at: number, n: number, member: number): number => at + 4 * n + 1 + member;
export const burntAt = (at: number, n: number): number => at + 5 * n + 1;

/** Notes a stretch in which a member's node stayed on its side of both levels and did not turn. */
export function notePlain(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  member: number,
  to: number,
  span: number,
): void {
  const n = heat.members.length;
  if (to >= heat.lowNode[member]!) rows[aboveLowAt(at, n, member)]! += span;
  if (to >= heat.guardedNode[member]!) rows[soakAt(at, n, member)]! += span;
  if (to > rows[peakAt(at, n, member)]!) rows[peakAt(at, n, member)] = to;
}

/** Does the node stay on its side of both levels, without turning, between two instants? */
export function isPlain(heat: LoadHeat, member: number, from: number, to: number, turns: boolean): boolean {
  const low = heat.lowNode[member]!;
  const guarded = heat.guardedNode[member]!;
  return !turns && from >= low === to >= low && from >= guarded === to >= guarded;
}

/**
 * Notes any stretch, short enough for the cubic from node `from` to `to`. Slopes per whole stretch; `start` and `span` in
 * minutes.
 */
export function noteCubic(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  member: number,
  start: number,
  span: number,
  from: number,
  to: number,
  slopeFrom: number,
  slopeTo: number,
): void {
  const n = heat.members.length;
  const turn = slopeFrom * slopeTo < 0 ? turningPoint(from, to, slopeFrom, slopeTo) : 1;
  const atTurn = turn === 1 ? to : cubicAt(turn, from, to, slopeFrom, slopeTo);
  const low = heat.lowNode[member]!;
  const guarded = heat.guardedNode[member]!;
  let soak = shareAbove(guarded, from, to, slopeFrom, slopeTo, 0, turn, from, atTurn);
  let aboveLow = shareAbove(low, from, to, slopeFrom, slopeTo, 0, turn, from, atTurn);
  const first = firstInAt(at, n, member);
  if (soak > 0 && rows[first] === Infinity) rows[first] = start + (from >= guarded ? 0 : span * (turn - soak));
  if (turn !== 1) {
    const late = shareAbove(guarded, from, to, slopeFrom, slopeTo, turn, 1, atTurn, to);
    aboveLow += shareAbove(low, from, to, slopeFrom, slopeTo, turn, 1, atTurn, to);
    soak += late;
    if (late > 0 && rows[first] === Infinity) rows[first] = start + span * (1 - late);
  }
  rows[aboveLowAt(at, n, member)]! += span * aboveLow;
  rows[soakAt(at, n, member)]! += span * soak;
  rows[peakAt(at, n, member)] = Math.max(rows[peakAt(at, n, member)]!, to, atTurn);
}

/** Share of the stretch at or above `level` between `low` and `high`, where the cubic runs from `atLow` to `atHigh`. */
function shareAbove(
  level: number,
  from: number,
  to: number,
  slopeFrom: number,
  slopeTo: number,
  low: number,
  high: number,
  atLow: number,
  atHigh: number,
): number {
  if (atLow >= level && atHigh >= level) return high - low;
  if (atLow < level && atHigh < level) return 0;
  const s = crossing(level, from, to, slopeFrom, slopeTo, low, high);
  return atHigh >= level ? high - s : s - low;
}

/** Notes a stretch in which the chamber stands still and the node approaches it exponentially. */
export function noteApproach(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  member: number,
  start: number,
  span: number,
  chamber: number,
  to: number,
): void {
  const from = rows[at + 1 + member]!;
  if (isPlain(heat, member, from, to, false)) {
    notePlain(heat, rows, at, member, to, span);
    return;
  }
  const n = heat.members.length;
  const rate = heat.burn.network.memberRate[member]!;
  const low = heat.lowNode[member]!;
  const guarded = heat.guardedNode[member]!;
  const soak = minutesAbove(guarded, from, to, chamber, rate, span);
  rows[aboveLowAt(at, n, member)]! += minutesAbove(low, from, to, chamber, rate, span);
  rows[soakAt(at, n, member)]! += soak;
  if (to > rows[peakAt(at, n, member)]!) rows[peakAt(at, n, member)] = to;
  const first = firstInAt(at, n, member);
  if (to >= guarded && rows[first] === Infinity) rows[first] = start + span - soak;
}

/** Of an exponential approach from `from` to `to` during `span`, on its way to `limit`. */
function minutesAbove(level: number, from: number, to: number, limit: number, rate: number, span: number): number {
  const ends = to >= level;
  if (from >= level === ends) return ends ? span : 0;
  const met = Math.min(span, Math.max(0, Math.log((limit - from) / (limit - level)) / rate));
  return ends ? span - met : met;
}

export function metalC(heat: LoadHeat, member: number, node: number): number {
  return heat.ambientC + heat.members[member]!.offsetC + node;
}

/** Gas that the burner's heat so far took, kWh gross. */
export function gasKWh(heat: LoadHeat, rows: Float64Array, at: number): number {
  return rows[burntAt(at, heat.members.length)]! / 60_000 / heat.cycle.efficiency;
}

/** A chamber that stands at a set-point or door limit reads so exactly, whatever taking off the room's temperature rounded. */
export function rounded(chamberC: number): number {
  return Math.round(chamberC * 1e9) / 1e9;
}
