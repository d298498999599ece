/**
 * The minute of a firing in which the burner may be on: purge, then full fire, hold or fall, whichever the chamber's
 * distance from its set-point asks for (oven physics, steps 2 to 4).
 */
import { glideParts, peekMinute, takeMinute } from "./glide.ts";
import type { LoadHeat } from "./load-heat.ts";
import { burntAt, noteApproach } from "./row.ts";

/**
 * Moves the row at `rows[at…]` from whole minute `start` to the next. `setPoint` in K above the room; Infinity for full
 * fire without end. Returns the minute in which the chamber, burner lit, first met the set-point, NaN where it did not.
 */
export function burnMinute(heat: LoadHeat, rows: Float64Array, at: number, start: number, setPoint: number): number {
  const { purgeMinutes } = heat.cycle;
  const end = start + 1;
  if (end <= purgeMinutes) {
    takeMinute(heat, heat.burn, rows, at, start, 0, peekMinute(heat.burn, rows, at, 0));
    return NaN;
  }
  let now = start;
  if (now < purgeMinutes) now = glideParts(heat, rows, at, now, purgeMinutes, 0, undefined);
  let met = NaN;
  while (now < end) {
    if (rows[at] === setPoint) {
      if (Number.isNaN(met)) met = now;
      now = holdOrLeave(heat, rows, at, now, end, setPoint);
    } else now = seek(heat, rows, at, now, end, setPoint);
  }
  if (rows[at] === setPoint && Number.isNaN(met)) met = now;
  return met;
}

/** Full fire below the set-point, none above it, until it is met or the minute ends. */
function seek(heat: LoadHeat, rows: Float64Array, at: number, now: number, end: number, setPoint: number): number {
  return drive(heat, rows, at, now, end, setPoint, rows[at]! < setPoint);
}

function drive(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  now: number,
  end: number,
  setPoint: number,
  firing: boolean,
): number {
  const watts = firing ? heat.fullW : 0;
  const burnt = burntAt(at, heat.members.length);
  if (end - now === 1) {
    const after = peekMinute(heat.burn, rows, at, watts);
    if (firing ? after[0]! < setPoint : after[0]! > setPoint) {
      takeMinute(heat, heat.burn, rows, at, now, watts, after);
      rows[burnt]! += watts;
      return end;
    }
  }
  const reached = glideParts(heat, rows, at, now, end, watts, { chamber: setPoint, rising: firing });
  rows[burnt]! += watts * (reached - now);
  return reached;
}

/** At the set-point: hold while the burner can, else leave it with full fire (sagging) or none (the pans overheat it). */
function holdOrLeave(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  now: number,
  end: number,
  setPoint: number,
): number {
  const needed = neededWatts(heat, rows, at, setPoint, 0);
  if (needed > heat.fullW + TINY_W) return drive(heat, rows, at, now, end, setPoint, true);
  if (needed < -TINY_W) return drive(heat, rows, at, now, end, setPoint, false);
  const until = onlyEases(heat, rows, at, setPoint) ? end : leavesHoldAt(heat, rows, at, now, end, setPoint);
  hold(heat, rows, at, now, until, setPoint);
  return until;
}

/** No metal is hotter than the chamber: what it draws only lessens, towards what wall and fan take. */
function onlyEases(heat: LoadHeat, rows: Float64Array, at: number, setPoint: number): boolean {
  for (let member = 0; member < heat.members.length; member++) if (rows[at + 1 + member]! > setPoint) return false;
  return setPoint >= 0;
}

/** Rounding of heat, far below any burner's. */
const TINY_W = 1e-6;

/** Heat that holding takes `minutes` from now, W: losses, and what the pans draw. */
function neededWatts(heat: LoadHeat, rows: Float64Array, at: number, setPoint: number, minutes: number): number {
  const { filmWPerK, burnLossWPerK, burn, minuteDecay } = heat;
  let watts = burnLossWPerK * setPoint;
  for (let member = 0; member < filmWPerK.length; member++) {
    const lag = setPoint - rows[at + 1 + member]!;
    const rate = burn.network.memberRate[member]!;
    const left = minutes === 1 ? minuteDecay[member]! : minutes === 0 ? 1 : Math.exp(-rate * minutes);
    watts += filmWPerK[member]! * lag * left;
  }
  return watts;
}

/** The minute up to which the burner can hold, `end` where it can all along. */
function leavesHoldAt(
  heat: LoadHeat,
  rows: Float64Array,
  at: number,
  now: number,
  end: number,
  setPoint: number,
): number {
  const last = neededWatts(heat, rows, at, setPoint, end - now);
  if (last <= heat.fullW + TINY_W && last >= -TINY_W) return end;
  let held = 0;
  let left = end - now;
  while (left - held > 1e-9) {
    const middle = 0.5 * (held + left);
    const needed = neededWatts(heat, rows, at, setPoint, middle);
    if (needed <= heat.fullW + TINY_W && needed >= -TINY_W) held = middle;
    else left = middle;
  }
  return now + left;
}

function hold(heat: LoadHeat, rows: Float64Array, at: number, now: number, until: number, setPoint: number): void {
  const { storedWattMinutesPerK, minuteDecay, burn } = heat;
  const span = until - now;
  let wattMinutes = heat.burnLossWPerK * setPoint * span;
  for (let member = 0; member < minuteDecay.length; member++) {
    const from = rows[at + 1 + member]!;
    const left = span === 1 ? minuteDecay[member]! : Math.exp(-burn.network.memberRate[member]! * span);
    const to = setPoint - (setPoint - from) * left;
    noteApproach(heat, rows, at, member, now, span, setPoint, to);
    rows[at + 1 + member] = to;
    wattMinutes += storedWattMinutesPerK[member]! * (to - from);
  }
  rows[burntAt(at, minuteDecay.length)]! += wattMinutes;
}
