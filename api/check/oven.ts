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
  /** Seconds at or above guardedLowC, and at or above lowC. */
  readonly guardedSoak: Float64Array;
  readonly soak: Float64Array;
  readonly peakC: Float64Array;
  /** Second of first reaching guardedLowC; NaN before. */
  readonly firstIn: Float64Array;
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
    stepSeconds: 60 / Math.max(1, Math.ceil(60 / stepSeconds)),
    metals,
  };
}

/** A run at the given second with the chamber at `chamberC` and every pan at room temperature. */
export function startRun(chamber: Chamber, chamberC: number, seconds: number): Run {
  const count = chamber.metals.length;
  const state = new Float64Array(count + 2).fill(chamber.ambientC);
  state[0] = chamberC;
  state[count + 1] = 0;
  return {
    chamber,
    state,
    seconds,
    guardedSoak: new Float64Array(count),
    soak: new Float64Array(count),
    peakC: new Float64Array(count).fill(-Infinity),
    firstIn: new Float64Array(count).fill(Number.NaN),
    hottestBurningC: -Infinity,
    reachedAt: Number.NaN,
    heldSeconds: 0,
  };
}

export function copyRun(run: Run): Run {
  return {
    ...run,
    state: run.state.slice(),
    guardedSoak: run.guardedSoak.slice(),
    soak: run.soak.slice(),
    peakC: run.peakC.slice(),
    firstIn: run.firstIn.slice(),
  };
}

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
