/** How long the ovens need at least for the bakes of groups that never share a firing. */
import type { DayModel } from "../day/day-model.ts";
import type { Chains, Task } from "./chains.ts";
import type { TaskSet } from "./hand-finish.ts";
import { clashOf } from "../loads/mixing.ts";
import type { Shares } from "./load-shares.ts";

/** Sets of loads from each head on; `minutes` are those of oven time, door opening to done. */
export function ovenSets(day: DayModel, { bakes, shares }: Pick<Chains, "bakes" | "shares">): TaskSet[] {
  const apart = groupsApart(day, bakes, shares);
  const heads = [...new Set(bakes.map((bake) => bake.head))].sort((a, b) => a - b);
  const step = Math.max(1, Math.floor(heads.length / MOST_HEADS));
  return heads
    .filter((_, index) => index % step === 0)
    .flatMap((head) => {
      const set = bakes.filter((bake) => bake.head >= head);
      const minutes = leastOvenMinutes(day, set, apart, shares);
      if (minutes === 0) return [];
      return [{ head, tail: 0, minutes, mostPerCoat: Math.max(...set.map((bake) => bake.minutes)) }];
    });
}

const MOST_HEADS = 40;

/** Bakes of groups apart stand in different loads, so that their oven times add up. */
export function leastOvenMinutes(
  day: DayModel,
  bakes: readonly Task[],
  apart: readonly string[],
  shares: readonly Shares[],
): number {
  return apart.reduce((sum, group) => {
    const own = bakes.filter((bake) => day.kinds[bake.kind]!.coat.mixGroup === group);
    return sum + leastMinutes(own, shares);
  }, 0);
}

/**
 * Full loads, longest bakes first: the k-th longest load is at least as long as the bake that the (k − 1) loads before it
 * cannot have held even if bakes could be split. By the measure that asks for most.
 */
function leastMinutes(bakes: readonly Task[], shares: readonly Shares[]): number {
  const sorted = [...bakes].sort((a, b) => b.minutes - a.minutes);
  const measures = shares[0]?.length ?? 0;
  let most = 0;
  for (let measure = 0; measure < measures; measure++) {
    let filled = 0;
    // Some load there is, even of pans that take none of it.
    let loads = sorted.length === 0 ? 0 : 1;
    let minutes = sorted[0]?.minutes ?? 0;
    for (const bake of sorted) {
      filled += shares[bake.kind]![measure]!;
      if (filled > loads + TINY) minutes += bake.minutes;
      loads = Math.max(loads, Math.ceil(filled - TINY));
    }
    most = Math.max(most, minutes);
  }
  return most;
}

/** Groups no two of which share a firing: those with most oven time first. */
export function groupsApart(day: DayModel, bakes: readonly Task[], shares: readonly Shares[]): string[] {
  const { mixing } = day.request;
  const minutes = new Map<string, number>();
  for (const bake of bakes) {
    const { mixGroup } = day.kinds[bake.kind]!.coat;
    if (minutes.has(mixGroup)) continue;
    const own = bakes.filter((other) => day.kinds[other.kind]!.coat.mixGroup === mixGroup);
    minutes.set(mixGroup, leastMinutes(own, shares));
  }
  const chosen: string[] = [];
  for (const [group] of [...minutes].sort((a, b) => b[1] - a[1]))
    if (chosen.every((other) => clashOf(mixing, [group, other]) !== undefined)) chosen.push(group);
  return chosen;
}

const TINY = 1e-6;
