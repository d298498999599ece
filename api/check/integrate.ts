/** Carries a run of oven.ts forward in time, meeting the set-point exactly and keeping count of soak and peaks. */
import type { Chamber, Phase, Run } from "./oven.ts";
import { tolerance } from "./fault.ts";
import { firstInAt, guardedSoakAt, peakAt, soakAt } from "./oven.ts";

/** Burner heat, W; "hold" gives whatever keeps the chamber where it is, between nothing and full fire. */
type Burner = number | "hold";

const atSetPointC = 1e-7;

/** Carries `run` forward to `untilSeconds`; changes it in place. */
export function advance(run: Run, phase: Phase, untilSeconds: number): void {
  const steps = Math.ceil((untilSeconds - run.seconds) / run.chamber.stepSeconds - 1e-9);
  const step = (untilSeconds - run.seconds) / Math.max(1, steps);
  for (let i = 0; i < steps; i++) {
    if (phase.kind === "burn") burnStep(run, phase.setPointC, step);
    else commit(run, phase, rungeKutta(run, phase, 0, step), step);
  }
  if (steps > 0) run.seconds = untilSeconds;
}

/** One step of burning; a step in which the chamber meets the set-point is cut there and the rest is taken after it. */
function burnStep(run: Run, setPointC: number, step: number): void {
  let left = step;
  for (let cuts = 0; left > 1e-9 && cuts < 4; cuts++) {
    const gapC = setPointC - (run.state[0] ?? 0);
    if (gapC <= atSetPointC && Number.isNaN(run.reachedAt)) run.reachedAt = run.seconds;
    const burner: Burner = Math.abs(gapC) <= atSetPointC ? "hold" : gapC > 0 ? run.chamber.fullFireW : 0;
    left -= burnUntilMet(run, setPointC, burner, left);
  }
  if (left > 1e-9) burnUntilMet(run, Infinity, "hold", left);
}

/** Burns for `step` seconds, or less where the chamber meets the set-point sooner; returns the seconds taken. */
function burnUntilMet(run: Run, setPointC: number, burner: Burner, step: number): number {
  const phase: Phase = { kind: "burn", setPointC };
  const from = run.state[0] ?? 0;
  let taken = step;
  let end = rungeKutta(run, phase, burner, step);
  if (burner !== "hold" && (from - setPointC) * ((end[0] ?? 0) - setPointC) < 0) {
    taken = meetingSecond(run, setPointC, burner, step);
    end = rungeKutta(run, phase, burner, taken);
    end[0] = setPointC;
  }
  run.hottestBurningC = Math.max(run.hottestBurningC, from, end[0] ?? -Infinity);
  if (Math.max(from, end[0] ?? -Infinity) >= setPointC - tolerance.temperatureC) run.heldSeconds += taken;
  commit(run, phase, end, taken);
  if (end[0] === setPointC && Number.isNaN(run.reachedAt)) run.reachedAt = run.seconds;
  return taken;
}

/** Seconds within the step after which the chamber is at the set-point, by regula falsi with bisection. */
function meetingSecond(run: Run, setPointC: number, burner: Burner, step: number): number {
  const phase: Phase = { kind: "burn", setPointC };
  const missAt = (seconds: number): number => (rungeKutta(run, phase, burner, seconds)[0] ?? 0) - setPointC;
  let low = 0;
  let high = step;
  let lowMiss = (run.state[0] ?? 0) - setPointC;
  let highMiss = missAt(step);
  for (let round = 0; round < 40; round++) {
    const share = round % 3 === 2 ? 0.5 : lowMiss / (lowMiss - highMiss);
    const middle = low + share * (high - low);
    const miss = missAt(middle);
    if (Math.abs(miss) < atSetPointC || high - low < 1e-9) return middle;
    if (miss * lowMiss > 0) [low, lowMiss] = [middle, miss];
    else [high, highMiss] = [middle, miss];
  }
  return high;
}

/** State after `step` seconds, by the classical Runge-Kutta weights 1/6, 1/3, 1/3, 1/6; good until the next call. */
function rungeKutta(run: Run, phase: Phase, burner: Burner, step: number): Float64Array {
  const { chamber, state } = run;
  const { slope, trial, end } = chamber.scratch;
  end.set(state);
  slope.fill(0);
  for (let stage = 0; stage < 4; stage++) {
    const reach = stage === 0 ? 0 : stage === 3 ? step : step / 2;
    const weight = (stage === 0 || stage === 3 ? 1 : 2) * (step / 6);
    for (let i = 0; i < state.length; i++) trial[i] = (state[i] ?? 0) + reach * (slope[i] ?? 0);
    slopes(chamber, phase, burner, trial, slope);
    for (let i = 0; i < state.length; i++) end[i] = (end[i] ?? 0) + weight * (slope[i] ?? 0);
  }
  return end;
}

/** Writes the time derivatives of `state` into `slope`. */
function slopes(chamber: Chamber, phase: Phase, burner: Burner, state: Float64Array, slope: Float64Array): void {
  const { metals, ambientC } = chamber;
  const airC = state[0] ?? 0;
  let drawnW = 0;
  for (let i = 0; i < metals.length; i++) {
    const metal = metals[i];
    if (metal === undefined) continue;
    const flowW = metal.filmWPerK * (airC + metal.offsetC - (state[i + 1] ?? 0));
    slope[i + 1] = flowW / metal.heatJPerK;
    drawnW += flowW;
  }
  slope[state.length - 1] = 0;
  if (phase.kind === "door") {
    slope[0] = -(airC - ambientC) / chamber.doorTauSeconds;
    return;
  }
  const fanWPerK = phase.kind === "coast" ? chamber.coastWPerK : chamber.exhaustWPerK;
  const needW = (chamber.wallWPerK + fanWPerK) * (airC - ambientC) + drawnW;
  const burnerW = burner === "hold" ? Math.min(Math.max(needW, 0), chamber.fullFireW) : burner;
  slope[0] = (burnerW - needW) / chamber.heatJPerK;
  slope[state.length - 1] = burnerW;
}

/** Takes over the state at the end of a step and adds the step to soak and peaks (metal taken as straight within it). */
function commit(run: Run, phase: Phase, end: Float64Array, step: number): void {
  if (phase.kind !== "door") {
    for (let i = 0; i < run.chamber.metals.length; i++) {
      const metal = run.chamber.metals[i];
      if (metal !== undefined) watch(run, i, { from: run.state[i + 1] ?? 0, to: end[i + 1] ?? 0, step }, metal);
    }
  }
  run.state.set(end);
  run.seconds += step;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

function watch(run: Run, i: number, stretch: Stretch, metal: { guardedLowC: number; lowC: number }): void {
  const { from, to, step } = stretch;
  const guarded = shareAbove(from, to, metal.guardedLowC);
  const { tally } = run;
  tally[guardedSoakAt(i)] = (tally[guardedSoakAt(i)] ?? 0) + guarded * step;
  tally[soakAt(i)] = (tally[soakAt(i)] ?? 0) + shareAbove(from, to, metal.lowC) * step;
  tally[peakAt(i)] = Math.max(tally[peakAt(i)] ?? -Infinity, from, to);
  if (guarded > 0 && Number.isNaN(tally[firstInAt(i)]))
    tally[firstInAt(i)] = run.seconds + (from >= metal.guardedLowC ? 0 : (1 - guarded) * step);
}

/** Share of a straight stretch from one temperature to another that lies at or above a level. */
function shareAbove(from: number, to: number, level: number): number {
  if (from >= level && to >= level) return 1;
  if (from < level && to < level) return 0;
  return (Math.max(from, to) - level) / Math.abs(to - from);
}
