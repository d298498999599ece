/**
 * A load that takes one more pan along at no loss stands for itself without that pan: whatever baked the pan later only gets
 * less to do. Where the loss is small the larger load is counted as good as the smaller one, so that this stays safe.
 */
import type { Grain } from "./grain.ts";
import type { LoadSet } from "./load-sets.ts";
import type { Way } from "./load-ways.ts";
import type { Door } from "./next-door.ts";

/** A load that may come next, with the ways to fire it. */
export interface Candidate {
  readonly set: LoadSet;
  /** Per choice. */
  readonly counts: readonly number[];
  readonly size: number;
  ways: Way[];
  /** Pans as numbered in the task. */
  readonly members: readonly number[];
  /** Members that are sprayed and prepared nobody knows when: see `settled`. */
  readonly floating: Set<number>;
  /** Hands are free enough before it that a pan served sooner for it delays nobody. */
  readonly settled: boolean;
  /** As asked of waysToFire. */
  readonly doors: readonly Door[];
  readonly closesBy: number;
}

export interface Rider {
  readonly pans: readonly number[];
  /** Gas that its own heat takes about, per oven. */
  readonly heatKWh: readonly number[];
}

export function nameOf(oven: number, counts: readonly number[]): string {
  return String.fromCharCode(oven, ...counts);
}

/**
 * Takes ways out of candidates of which one with one more pan is as good; loosens the latter where need be. Served sooner, the
 * rider may hold up other pans at the booth: then nothing is said of when it is served.
 */
export function rideFree(riders: readonly Rider[], loads: ReadonlyMap<string, Candidate>, grain: Grain): void {
  const bySize = [...loads.values()].sort((a, b) => a.size - b.size);
  for (const candidate of bySize)
    for (let at = 0; at < riders.length && candidate.ways.length > 0; at++) {
      const count = candidate.counts[at]!;
      const rider = riders[at]!.pans[count];
      if (rider === undefined) continue;
      const larger = loads.get(nameOf(candidate.set.oven, candidate.counts.with(at, count + 1)));
      if (larger === undefined) continue;
      const heat = riders[at]!.heatKWh[candidate.set.oven]!;
      candidate.ways = candidate.ways.filter((way) => {
        const index = larger.ways.findIndex((one) =>
          takesAlong(one, way, { larger: larger.set, smaller: candidate.set, heat, grain }),
        );
        if (index < 0) return true;
        larger.ways[index] = asGoodAs(larger.ways[index]!, way, larger.set, candidate.set);
        for (const pan of candidate.floating) larger.floating.add(pan);
        if (!larger.settled) larger.floating.add(rider);
        return false;
      });
    }
}

interface Comparison {
  readonly larger: LoadSet;
  readonly smaller: LoadSet;
  readonly heat: number;
  readonly grain: Grain;
}

/** Through as soon, with no more gas than the extra pan's own heat, and about as warm a chamber left. */
function takesAlong(large: Way, small: Way, { larger, smaller, heat, grain }: Comparison): boolean {
  return (
    large.isBurnt === small.isBurnt &&
    large.open <= small.open &&
    large.done <= small.done &&
    large.gasKWh <= small.gasKWh + 1.3 * heat + grain.kWh &&
    large.firing.hotC >= small.firing.hotC - grain.hotK &&
    large.firing.coolC <= small.firing.coolC + grain.coolK &&
    smaller.kinds.every((kind, at) => {
      const minutes = large.firing.handMinutes[larger.kinds.indexOf(kind)]!;
      return large.done + minutes <= small.done + small.firing.handMinutes[at]! + grain.handMinutes;
    })
  );
}

function asGoodAs(large: Way, small: Way, largeSet: LoadSet, smallSet: LoadSet): Way {
  const handMinutes = largeSet.kinds.map((kind, at) => {
    const own = large.firing.handMinutes[at]!;
    const index = smallSet.kinds.indexOf(kind);
    return index < 0 ? own : Math.min(own, small.done - large.done + small.firing.handMinutes[index]!);
  });
  const firing = {
    ...large.firing,
    hotC: Math.max(large.firing.hotC, small.firing.hotC),
    coolC: Math.min(large.firing.coolC, small.firing.coolC),
    handMinutes,
  };
  return { ...large, gasKWh: Math.min(large.gasKWh, small.gasKWh), firing };
}
