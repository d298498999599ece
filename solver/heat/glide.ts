/** Moves a row through time under constant burner heat, in place, noting what the metal goes through. */
import { crossing } from "./hermite.ts";
import type { LoadHeat } from "./load-heat.ts";
import type { Network, Propagator } from "./propagator.ts";
import { stepBy, stepFor } from "./propagator.ts";
import { isPlain, noteCubic, notePlain } from "./row.ts";

/** Working states, shared because nothing here calls back; grown to the largest load seen. */
let next = new Float64Array(16);
let trail = new Float64Array(64);

/** The state a minute on, not yet written: for looking before leaping. Valid until the next call into this file. */
export function peekMinute(propagator: Propagator, rows: Float64Array, at: number, watts: number): Float64Array {
  const size = propagator.minuteHeat.length;
  if (next.length < size) next = new Float64Array(2 * size);
  stepBy(propagator.minute, propagator.minuteHeat, watts, rows, at, next, 0);
  return next;
}

/** One whole minute from `start`. */
export function glideMinute(
  heat: LoadHeat,
  propagator: Propagator,
  rows: Float64Array,
  at: number,
  start: number,
  watts: number,
): void {
  takeMinute(heat, propagator, rows, at, start, watts, peekMinute(propagator, rows, at, watts));
}

/** Writes the state that peekMinute found, and notes the minute. */
export function takeMinute(
  heat: LoadHeat,
  propagator: Propagator,
  rows: Float64Array,
  at: number,
  start: number,
  watts: number,
  after: Float64Array,
): void {
  const { memberRate } = propagator.network;
  const n = memberRate.length;
  const chamber = rows[at]!;
  const chamberAfter = after[0]!;
  let trailed = false;
  for (let member = 0; member < n; member++) {
    const from = rows[at + 1 + member]!;
    const to = after[member + 1]!;
    if (isPlain(heat, member, from, to, (chamber - from) * (chamberAfter - to) < 0)) {
      notePlain(heat, rows, at, member, to, 1);
      continue;
    }
    if (!trailed) leaveTrail(propagator, rows, at, watts, after);
    trailed = true;
    noteTrail(heat, propagator, rows, at, start, member);
  }
  for (let node = 0; node <= n; node++) rows[at + node] = after[node]!;
}

/** The states at every part of a minute, one after another in `trail`. */
function leaveTrail(propagator: Propagator, rows: Float64Array, at: number, watts: number, after: Float64Array): void {
  const { parts, part, partHeat } = propagator;
  const size = partHeat.length;
  if (trail.length < (parts + 1) * size) trail = new Float64Array(2 * (parts + 1) * size);
  for (let node = 0; node < size; node++) {
    trail[node] = rows[at + node]!;
    trail[parts * size + node] = after[node]!;
  }
  for (let index = 1; index < parts; index++)
    stepBy(part, partHeat, watts, trail, (index - 1) * size, trail, index * size);
}

function noteTrail(
  heat: LoadHeat,
  propagator: Propagator,
  rows: Float64Array,
  at: number,
  start: number,
  member: number,
): void {
  const { parts, network } = propagator;
  const size = network.memberRate.length + 1;
  const span = 1 / parts;
  const slope = network.memberRate[member]! * span;
  for (let index = 0, base = 0; index < parts; index++, base += size) {
    const from = trail[base + 1 + member]!;
    const to = trail[base + size + 1 + member]!;
    const slopeFrom = slope * (trail[base]! - from);
    const slopeTo = slope * (trail[base + size]! - to);
    if (isPlain(heat, member, from, to, slopeFrom * slopeTo < 0)) notePlain(heat, rows, at, member, to, span);
    else noteCubic(heat, rows, at, member, start + index * span, span, from, to, slopeFrom, slopeTo);
  }
}

/** Where a glide in parts stops early: the chamber meeting a level, from below or from above. */
export interface Stop {
  readonly chamber: number;
  readonly rising: boolean;
}

/**
 * Glides from `start` to `end` (within one minute) or until the chamber meets `stop`; returns the minute it got to. Where it
 * stops, the chamber is set to the level exactly.
 */
export function glideParts(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  start: number,
  end: number,
  watts: number,
  stop: Stop | undefined,
): number {
  const { burn } = heat;
  const partMinutes = 1 / burn.parts;
  let now = start;
  while (now < end) {
    let span = Math.min(partMinutes, end - now);
    advance(burn, span, watts, rows, at);
    let met = false;
    if (stop !== undefined && (stop.rising ? next[0]! >= stop.chamber : next[0]! <= stop.chamber)) {
      const slopeFrom = span * chamberSlope(burn.network, rows, at, watts);
      const slopeTo = span * chamberSlope(burn.network, next, 0, watts);
      const share = crossing(stop.chamber, rows[at]!, next[0]!, slopeFrom, slopeTo);
      met = share * span > SHORTEST_MINUTES;
      if (met) {
        span *= share;
        stepFor(burn, span, watts, rows, at, next);
        next[0] = stop.chamber;
      } else if (rows[at] !== stop.chamber) {
        // Rounding left it a hair short; a crossing right at the level is the one just left.
        rows[at] = stop.chamber;
        return now;
      }
    }
    noteSpan(heat, rows, at, now, span);
    now = met || end - now - span > SHORTEST_MINUTES ? now + span : end;
    if (met) return now;
  }
  return end;
}

const SHORTEST_MINUTES = 1e-9;

function advance(propagator: Propagator, span: number, watts: number, rows: Float64Array, at: number): void {
  const size = propagator.partHeat.length;
  if (next.length < size) next = new Float64Array(2 * size);
  if (Math.abs(span * propagator.parts - 1) < 1e-12)
    stepBy(propagator.part, propagator.partHeat, watts, rows, at, next, 0);
  else stepFor(propagator, span, watts, rows, at, next);
}

/** Writes `next` and notes the stretch for every member. */
function noteSpan(heat: LoadHeat, rows: Float64Array, at: number, start: number, span: number): void {
  const { memberRate } = heat.burn.network;
  for (let member = 0; member < memberRate.length; member++) {
    const from = rows[at + 1 + member]!;
    const to = next[member + 1]!;
    const slope = memberRate[member]! * span;
    const slopeFrom = slope * (rows[at]! - from);
    const slopeTo = slope * (next[0]! - to);
    noteCubic(heat, rows, at, member, start, span, from, to, slopeFrom, slopeTo);
  }
  for (let node = 0; node <= memberRate.length; node++) rows[at + node] = next[node]!;
}

/** dx₀/dt, K per minute. */
function chamberSlope(network: Network, rows: Float64Array, at: number, watts: number): number {
  const { chamberGain, chamberLoss, kelvinPerWattMinute } = network;
  let slope = kelvinPerWattMinute * watts - chamberLoss * rows[at]!;
  for (let member = 0; member < chamberGain.length; member++) slope += chamberGain[member]! * rows[at + 1 + member]!;
  return slope;
}
