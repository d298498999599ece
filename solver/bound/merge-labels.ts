/**
 * Labels that have the same bakes behind them and differ little, taken for one as good as the best of both: a search over fewer
 * labels that ends sooner on a lower bound (states merged as in relaxed decision diagrams; Bergman, Cire, van Hoeve and Hooker,
 * Discrete optimization with decision diagrams, INFORMS Journal on Computing 28, 2016).
 */
import type { HandsAtWork } from "./busy.ts";
import { lighter } from "./busy.ts";
import type { Shop } from "./hands-served.ts";
import type { Label } from "./label.ts";
import { keepsHot } from "./oven-start.ts";

/** What counts as a distance of 1. */
const COST_SHARE = 0.001;
const MINUTES = 1;
const HOT_K = 4;
const COOL_K = 12;

/**
 * How far apart two labels of one root are, by whatever tells most; Infinity where they are `most` or further. `dayCost`: what the
 * day costs about.
 */
export function distance(one: Label, other: Label, dayCost: number, most: number): number {
  let far = Math.max(
    Math.abs(one.gasCost - other.gasCost) / (COST_SHARE * dayCost),
    Math.abs(one.lastDone - other.lastDone) / MINUTES,
    apart(one.lastOpen, other.lastOpen) / MINUTES,
  );
  for (let pan = 0; pan < one.release.length && far < most; pan++)
    far = Math.max(far, apart(one.release[pan]!, other.release[pan]!) / MINUTES);
  for (let oven = 0; oven < one.free.length && far < most; oven++)
    far = Math.max(
      far,
      Math.abs(one.free[oven]! - other.free[oven]!) / MINUTES,
      Math.abs(one.hotC[oven]! - other.hotC[oven]!) / HOT_K,
      Math.abs(one.coolC[oven]! - other.coolC[oven]!) / COOL_K,
    );
  return far < most ? far : Infinity;
}

/** A label, its floor aside, that may do whatever either may at no more cost; undefined where there is no such to be told. */
export function bestOfBoth({ task, booth, bench }: Shop, one: Label, other: Label): Label | undefined {
  if (one.root !== other.root) return undefined;
  for (let oven = 0; oven < one.free.length; oven++)
    if (keepsHot(task, one, oven) !== keepsHot(task, other, oven)) return undefined;
  const colours = booth.changeoverMinutes > 0;
  const sprays = lighterOf(one.sprays, other.sprays, booth, colours);
  const owed = lighterOf(one.owed, other.owed, booth, colours);
  const preps = lighterOf(one.preps, other.preps, bench, false);
  const owedPreps = lighterOf(one.owedPreps, other.owedPreps, bench, false);
  if (sprays === undefined || owed === undefined || preps === undefined || owedPreps === undefined) return undefined;
  return {
    ...one,
    gasCost: Math.min(one.gasCost, other.gasCost),
    lastDone: Math.min(one.lastDone, other.lastDone),
    lastOpen: Math.min(one.lastOpen, other.lastOpen),
    notBefore: Math.min(one.notBefore, other.notBefore),
    release: one.release.map((minute, pan) => Math.min(minute, other.release[pan]!)),
    rest: one.rest.map((minutes, pan) => Math.min(minutes, other.rest[pan]!)),
    free: one.free.map((minute, oven) => Math.min(minute, other.free[oven]!)),
    hotC: one.hotC.map((chamberC, oven) => Math.max(chamberC, other.hotC[oven]!)),
    coolC: one.coolC.map((chamberC, oven) => Math.min(chamberC, other.coolC[oven]!)),
    sprays,
    owed,
    preps,
    owedPreps,
  };
}

/** Both may be infinite. */
function apart(one: number, other: number): number {
  return one === other ? 0 : Math.abs(one - other);
}

function lighterOf(
  one: readonly number[],
  other: readonly number[],
  work: HandsAtWork,
  colours: boolean,
): readonly number[] | undefined {
  if (lighter(one, other, work, colours)) return one;
  return lighter(other, one, work, colours) ? other : undefined;
}
