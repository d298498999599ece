/**
 * The oven physics integrated afresh: one chamber node and one node per pan, classical fourth-order Runge-Kutta.
 *
 *     m·cp·dTi/dt = h·A·(Ta + d − Ti)          C·dTa/dt = P − (U + fan)·(Ta − Tr) − Σ h·A·(Ta + d − Ti)
 *
 * Instants are seconds since the door closed; temperatures °C; heat J.
 */
import type { DayOven } from "../contract/day.ts";

export type ThermalCycle = Extract<DayOven["cycle"], { kind: "thermal" }>;

/** A pan on its shelf, with the two temperatures whose soak counts. */
export interface Metal {
  /** h·A, W/K. */
  readonly filmWPerK: number;
  /** m·cp, J/K. */
  readonly heatJPerK: number;
  readonly offsetC: number;
  /** metalLowC + guardC. */
  readonly guardedLowC: number;
  /** metalLowC. */
  readonly lowC: number;
}

/** The oven as the integration needs it. */
export interface Chamber {
  readonly ambientC: number;
  readonly heatJPerK: number;
  readonly wallWPerK: number;
  readonly exhaustWPerK: number;
  readonly coastWPerK: number;
  readonly doorTauSeconds: number;
  readonly fullFireW: number;
  readonly efficiency: number;
  readonly stepSeconds: number;
  readonly metals: readonly Metal[];
  /** Room for the slopes, the trial states and the end of a step. */
  readonly scratch: { readonly slope: Float64Array; readonly trial: Float64Array; readonly end: Float64Array };
}

/** What happens to the chamber; `burn` holds the set-point with what the burner has. */
export type Phase =
  | { readonly kind: "door" }
  | { readonly kind: "purge" }
  | { readonly kind: "burn"; readonly setPointC: number }
  | { readonly kind: "coast" };

/** An integration under way: `state` is chamber, each pan, and the heat the burner gave. */
export interface Run {
  readonly chamber: Chamber;
  readonly state: Float64Array;
  seconds: number;
  /** Four figures a pan: see `guardedSoakAt` and its neighbours. */
  readonly tally: Float64Array;
  /** Hottest the chamber was while burning; -Infinity before. */
  hottestBurningC: number;
  /** Second at which the chamber first met the set-point while burning; NaN before. */
  reachedAt: number;
  /** Seconds of burning with the chamber no more than half a degree below the set-point. */
  heldSeconds: number;
}

export function chamberOf(
  cycle: ThermalCycle,
  ambientC: number,
  metals: readonly Metal[],
  stepSeconds: number,
): Chamber {
  return {
    ambientC,
    heatJPerK: cycle.heatCapacityKJPerK * 1000,
    wallWPerK: cycle.wallLossWPerK,
    exhaustWPerK: cycle.exhaustWPerK,
    coastWPerK: cycle.coastExhaustWPerK,
    doorTauSeconds: cycle.doorTauMinutes * 60,
    fullFireW: cycle.burnerKW * 1000 * cycle.efficiency,
    efficiency: cycle.efficiency,
    stepSeconds: 60 / Math.max(1, Math.ceil(60 / Math.min(stepSeconds, ...metals.map(timeConstant)))),
    metals,
    scratch: scratchFor(metals.length),
  };
}

/** τ = m·cp/(h·A), seconds; a step longer than that would lose its footing. */
function timeConstant({ heatJPerK, filmWPerK }: Metal): number {
  return filmWPerK > 0 ? Math.max(1, heatJPerK / filmWPerK) : Infinity;
}

export function scratchFor(metals: number): Chamber["scratch"] {
  const room = (): Float64Array => new Float64Array(metals + 2);
  return { slope: room(), trial: room(), end: room() };
}

/** A run at the given second with the chamber at `chamberC` and every pan at room temperature. */
export function startRun(chamber: Chamber, chamberC: number, seconds: number): Run {
  const count = chamber.metals.length;
  const state = new Float64Array(count + 2).fill(chamber.ambientC);
  state[0] = chamberC;
  state[count + 1] = 0;
  const tally = new Float64Array(4 * count);
  for (let i = 0; i < count; i++) {
    tally[peakAt(i)] = -Infinity;
    tally[firstInAt(i)] = Number.NaN;
  }
  return { chamber, state, seconds, tally, hottestBurningC: -Infinity, reachedAt: Number.NaN, heldSeconds: 0 };
}

export function copyRun({ chamber, state, seconds, tally, hottestBurningC, reachedAt, heldSeconds }: Run): Run {
  return { chamber, state: state.slice(), seconds, tally: tally.slice(), hottestBurningC, reachedAt, heldSeconds };
}

/** Seconds at or above guardedLowC of pan `i`, within `tally`. */
export const guardedSoakAt = (i: number): number => 4 * i;
/** Seconds at or above lowC. */
export const soakAt = (i: number): number => 4 * i + 1;
/** Highest temperature, °C. */
export const peakAt = (i: number): number => 4 * i + 2;
/** Second of first reaching guardedLowC; NaN before. */
export const firstInAt = (i: number): number => 4 * i + 3;

export function chamberC(run: Run): number {
  return run.state[0] ?? Number.NaN;
}

export function metalC(run: Run, index: number): number {
  return run.state[index + 1] ?? Number.NaN;
}

/** Gross gas so far, kWh. */
export function gasKWh(run: Run): number {
  return (run.state[run.state.length - 1] ?? Number.NaN) / run.chamber.efficiency / 3.6e6;
}
