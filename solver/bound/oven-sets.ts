/** How long the ovens need at least for the bakes of groups that never share a firing. */
import type { DayModel } from "../day/day-model.ts";
import type { Task } from "./chains.ts";
import type { TaskSet } from "./hand-finish.ts";
import { clashOf } from "../loads/mixing.ts";
import type { Oven } from "../shop.ts";

/** Sets of loads from each head on; `minutes` are those of oven time, door opening to done. */
export function ovenSets(day: DayModel, bakes: readonly Task[]): TaskSet[] {
  const apart = groupsApart(day, bakes);
  const heads = [...new Set(bakes.map((bake) => bake.head))].sort((a, b) => a - b);
  const step = Math.max(1, Math.floor(heads.length / MOST_HEADS));
  return heads
    .filter((_, index) => index % step === 0)
    .flatMap((head) => {
      const set = bakes.filter((bake) => bake.head >= head);
      const minutes = leastOvenMinutes(day, set, apart);
      if (minutes === 0) return [];
      return [{ head, tail: 0, minutes, mostPerCoat: Math.max(...set.map((bake) => bake.minutes)) }];
    });
}

const MOST_HEADS = 40;

/** Bakes of groups apart stand in different loads, so that their oven times add up. */
export function leastOvenMinutes(day: DayModel, bakes: readonly Task[], apart: readonly string[]): number {
  return apart.reduce((sum, group) => {
    const own = bakes.filter((bake) => day.kinds[bake.kind]!.coat.mixGroup === group);
    return sum + leastMinutes(day, own);
  }, 0);
}

/**
 * Full loads, longest bakes first: the k-th longest load is at least as long as the bake that the (k − 1) loads before it
 * cannot have held even if bakes could be split. By area, mass and solvent, whichever asks for most.
 */
function leastMinutes(day: DayModel, bakes: readonly Task[]): number {
  const sorted = [...bakes].sort((a, b) => b.minutes - a.minutes);
  const { ovens } = day.request;
  const measures: ((kind: number) => number)[] = [
    (kind) => footprint(day, kind) / Math.max(...ovens.map((oven) => room(oven))),
    (kind) => day.kinds[kind]!.line.massKg / Math.max(...ovens.map((oven) => oven.maxLoadKg)),
    (kind) => day.kinds[kind]!.solventMl / Math.max(...ovens.map((oven) => oven.maxSolventMl)),
  ];
  return Math.max(
    ...measures.map((share) => {
      let filled = 0;
      let loads = 0;
      let minutes = 0;
      for (const bake of sorted) {
        filled += share(bake.kind);
        if (filled > loads + TINY) minutes += bake.minutes;
        loads = Math.max(loads, Math.ceil(filled - TINY));
      }
      return minutes;
    }),
  );
}

/** Exact for an area; on shelves the bare shapes, without gaps. dm². */
function footprint(day: DayModel, kind: number): number {
  const { line, areaDm2 } = day.kinds[kind]!;
  const shelves = day.request.ovens.some((oven) => oven.space.kind === "shelves");
  return shelves && line.shape.kind === "disc" ? areaDm2 * (Math.PI / 4) : areaDm2;
}

function room({ space }: Oven): number {
  if (space.kind === "area") return space.dm2;
  return space.shelves.reduce((sum, shelf) => sum + (shelf.widthCm * shelf.depthCm) / 100, 0);
}

/** Groups no two of which share a firing: those with most oven time first. */
export function groupsApart(day: DayModel, bakes: readonly Task[]): string[] {
  const { mixing } = day.request;
  const minutes = new Map<string, number>();
  for (const bake of bakes) {
    const { mixGroup } = day.kinds[bake.kind]!.coat;
    if (minutes.has(mixGroup)) continue;
    const own = bakes.filter((other) => day.kinds[other.kind]!.coat.mixGroup === mixGroup);
    minutes.set(mixGroup, leastMinutes(day, own));
  }
  const chosen: string[] = [];
  for (const [group] of [...minutes].sort((a, b) => b[1] - a[1]))
    if (chosen.every((other) => clashOf(mixing, [group, other]) !== undefined)) chosen.push(group);
  return chosen;
}

const TINY = 1e-6;
