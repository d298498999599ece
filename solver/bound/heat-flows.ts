/** Lone bakes and fires under the empty chamber as flows of heat between stretches of chamber temperature. */
import type { ThermalCycle } from "../shop.ts";
import type { LoneBakes, Span } from "./lone-bakes.ts";
import { STRIDE_K } from "./lone-bakes.ts";
import type { HeatWorth, Rates } from "./tariff.ts";
import { firingCost, heatingCost, leftC } from "./tariff.ts";

/** A stretch of one oven's chamber temperature. */
export interface Stretch {
  readonly oven: number;
  readonly cycle: ThermalCycle;
  readonly lowC: number;
  readonly highC: number;
}

export interface Flow {
  /** `FIRE`: no bake. */
  readonly kind: number;
  /** What it leaves in the chamber is lost. */
  readonly isLast: boolean;
  /** In the unit of the rates. */
  readonly cost: number;
  /** Per stretch: what it puts there less what it takes out, as a share of the stretch. */
  readonly heat: Float64Array;
}

export const FIRE = -1;

/** Spans of chambers that one kind is looked at in. */
export interface Look {
  readonly kind: number;
  readonly oven: number;
  spans: readonly Span[];
}

/** Of all ovens, coolest first in each. */
export function stretchesOf({ sets }: LoneBakes): Stretch[] {
  const { ovens, ambientC } = sets.day.request;
  return ovens.flatMap(({ cycle }, oven) => {
    if (cycle.kind === "fixed") return [];
    const hottestC = sets.hottestBucket(oven) * sets.grain.bucketK;
    const stretches: Stretch[] = [];
    for (let lowC = ambientC; lowC < hottestC; lowC += STRIDE_K)
      stretches.push({ oven, cycle, lowC, highC: Math.min(hottestC, lowC + STRIDE_K) });
    return stretches;
  });
}

/** Per stretch: how much of it lies below the chamber that its oven begins the day with, 0 to 1. */
export function heldAtFirst(stretches: readonly Stretch[]): number[] {
  return stretches.map((stretch) => below(stretch.cycle.startC, stretch));
}

/** `lastKinds`: those that may end the day. */
export function bakeFlows(
  lone: LoneBakes,
  rates: Rates,
  stretches: readonly Stretch[],
  { kind, oven, spans }: Look,
  lastKinds: ReadonlySet<number>,
): Flow[] {
  const costOf = firingCost(lone, rates, oven);
  const endsAt = leftC(lone, rates, oven);
  return spans.flatMap(({ coolC, firings }) =>
    firings.flatMap((firing): Flow[] => {
      const cost = costOf(firing);
      const flow = { kind, isLast: false, cost, heat: heatOf(stretches, oven, coolC, endsAt(firing)) };
      return lastKinds.has(kind)
        ? [flow, { kind, isLast: true, cost, heat: heatOf(stretches, oven, coolC, NO_HEAT) }]
        : [flow];
    }),
  );
}

/** From the low end of any stretch to the high end of any. */
export function fireFlows(rates: Rates, stretches: readonly Stretch[]): Flow[] {
  return stretches.flatMap((first) =>
    stretches.flatMap((last): Flow[] => {
      if (first.oven !== last.oven || last.lowC < first.lowC) return [];
      const heat = heatOf(stretches, first.oven, first.lowC, last.highC);
      return [{ kind: FIRE, isLast: false, cost: fireCost(rates, first, last), heat }];
    }),
  );
}

/** A worth with so much for each whole stretch, made a lawful one whatever the numbers are. */
export function worthOf(rates: Rates, stretches: readonly Stretch[], prices: readonly number[]): HeatWorth {
  const ends: number[] = [];
  stretches.forEach((stretch, at) => {
    const { oven } = stretch;
    let end = (stretches[at - 1]?.oven === oven ? ends[at - 1]! : 0) + Math.max(0, prices[at]!);
    for (let from = at; from >= 0 && stretches[from]!.oven === oven; from--) {
      const begin = stretches[from - 1]?.oven === oven ? ends[from - 1]! : 0;
      end = Math.min(end, begin + fireCost(rates, stretches[from]!, stretch));
    }
    ends.push(end);
  });
  return (oven, chamberC) => {
    let before = 0;
    for (let at = 0; at < stretches.length; at++) {
      const stretch = stretches[at]!;
      if (stretch.oven !== oven) continue;
      if (chamberC < stretch.highC) return before + (ends[at]! - before) * below(chamberC, stretch);
      before = ends[at]!;
    }
    return before;
  };
}

const NO_HEAT = -Infinity;

function fireCost(rates: Rates, { cycle, lowC }: Stretch, { highC }: Stretch): number {
  return rates.perMinute * cycle.purgeMinutes + heatingCost(rates, cycle, highC - lowC);
}

function below(chamberC: number, { lowC, highC }: Stretch): number {
  return Math.min(1, Math.max(0, (chamberC - lowC) / (highC - lowC)));
}

function heatOf(stretches: readonly Stretch[], oven: number, fromC: number, toC: number): Float64Array {
  const heat = new Float64Array(stretches.length);
  for (let at = 0; at < heat.length; at++) {
    const one = stretches[at]!;
    if (one.oven === oven) heat[at] = below(toC, one) - below(fromC, one);
  }
  return heat;
}
