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

/** Notes any stretch, short enough for the cubic through both ends. Slopes per whole stretch; `start` in minutes. */
export function noteCubic(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  member: number,
  start: number,
  span: number,
  curve: Cubic,
): void {
  const n = heat.members.length;
  const { from, to, slopeFrom, slopeTo } = curve;
  const turn = slopeFrom * slopeTo < 0 ? turningPoint(from, to, slopeFrom, slopeTo) : 1;
  const atTurn = turn === 1 ? to : cubicAt(turn, from, to, slopeFrom, slopeTo);
  const guarded = heat.guardedNode[member]!;
  const soak = shareAbove(guarded, curve, turn, atTurn);
  rows[aboveLowAt(at, n, member)]! += span * shareAbove(heat.lowNode[member]!, curve, turn, atTurn);
  rows[soakAt(at, n, member)]! += span * soak;
  const peak = Math.max(rows[peakAt(at, n, member)]!, to, atTurn);
  rows[peakAt(at, n, member)] = peak;
  const first = firstInAt(at, n, member);
  if (soak > 0 && rows[first] === Infinity) rows[first] = start + span * entry(guarded, curve, turn, atTurn);
}

export interface Cubic {
  readonly from: number;
  readonly to: number;
  readonly slopeFrom: number;
  readonly slopeTo: number;
}

/** Share of the stretch at or above `level`. */
function shareAbove(level: number, curve: Cubic, turn: number, atTurn: number): number {
  const before = shareOfPiece(level, curve, 0, turn, curve.from, atTurn);
  return turn === 1 ? before : before + shareOfPiece(level, curve, turn, 1, atTurn, curve.to);
}

function shareOfPiece(level: number, curve: Cubic, low: number, high: number, atLow: number, atHigh: number): number {
  if (atLow >= level && atHigh >= level) return high - low;
  if (atLow < level && atHigh < level) return 0;
  const s = crossing(level, curve.from, curve.to, curve.slopeFrom, curve.slopeTo, low, high);
  return atHigh >= level ? high - s : s - low;
}

/** Where in the stretch `level` is first met, for a stretch that does meet it. */
function entry(level: number, curve: Cubic, turn: number, atTurn: number): number {
  if (curve.from >= level) return 0;
  const [low, high] = atTurn >= level ? [0, turn] : [turn, 1];
  return crossing(level, curve.from, curve.to, curve.slopeFrom, curve.slopeTo, low, high);
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
  const metAt = (level: number): number =>
    Math.min(span, Math.max(0, Math.log((chamber - from) / (chamber - level)) / rate));
  const above = (level: number): number => {
    if (from >= level === to >= level) return to >= level ? span : 0;
    return to >= level ? span - metAt(level) : metAt(level);
  };
  const guarded = heat.guardedNode[member]!;
  rows[aboveLowAt(at, n, member)]! += above(heat.lowNode[member]!);
  rows[soakAt(at, n, member)]! += above(guarded);
  if (to > rows[peakAt(at, n, member)]!) rows[peakAt(at, n, member)] = to;
  const first = firstInAt(at, n, member);
  if (to >= guarded && rows[first] === Infinity) rows[first] = start + (from >= guarded ? 0 : metAt(guarded));
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
