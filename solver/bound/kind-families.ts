/** Kinds that may share firings, directly or by others, are a family; two families never share one. */
import type { LoadSets } from "./load-sets.ts";

export function kindFamilies(sets: LoadSets, kinds: readonly number[]): number[][] {
  const families: number[][] = [];
  const placed = new Set<number>();
  for (const kind of kinds) {
    if (placed.has(kind)) continue;
    const family = connected(sets, kinds, kind);
    for (const one of family) placed.add(one);
    families.push(family);
  }
  return families;
}

/** Kinds that `kind` may share a firing with, directly or by others, itself among them. */
function connected(sets: LoadSets, kinds: readonly number[], kind: number): number[] {
  const found = new Set([kind]);
  for (const one of found)
    for (const other of kinds) if (!found.has(other) && maySometimes(sets, one, other)) found.add(other);
  return [...found];
}

function maySometimes(sets: LoadSets, one: number, other: number): boolean {
  const { kinds } = sets.day;
  return kinds[one]!.ovens.some((oven) => kinds[other]!.ovens.includes(oven) && sets.pair(oven, one, other));
}
