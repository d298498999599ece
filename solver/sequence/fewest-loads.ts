/**
 * A start for ovens with fixed cycles and shelves, where a load costs the same however full it is: the bakes that may
 * share a firing are packed into as few loads as found, coat after coat. The layouts found are kept as recipes, since
 * packing each load anew could miss them.
 */
import { packIntoLoads } from "../fit/load-count.ts";
import { packPanOf } from "../loads/place-load.ts";
import { newLoad } from "./sequence.ts";
import type { PlannedLoad } from "./sequence.ts";
import type { Timetable } from "./timetable.ts";

/** Search steps of the two tries; the second takes about a second for a hundred pans. */
export const PACKING_EFFORTS = [3000, 20_000];

/** Undefined where an oven's cycle is not fixed or its space is an area. */
export function fewestLoads(timetable: Timetable, effort: number): PlannedLoad[] | undefined {
  const { ovens } = timetable.day.request;
  if (!ovens.every(({ cycle, space }) => cycle.kind === "fixed" && space.kind === "shelves")) return undefined;
  const state = timetable.startState();
  const loads: PlannedLoad[] = [];
  for (const { ovens: allowed, bakes } of companies(timetable)) {
    const oven = allowed.reduce((best, one) => (state.ovenFree[one]! < state.ovenFree[best]! ? one : best));
    for (const packed of pack(timetable, oven, bakes, effort)) loads.push(newLoad(oven, packed));
  }
  return loads;
}

interface CompanyOfBakes {
  readonly ovens: readonly number[];
  readonly bakes: number[];
}

/** Bakes of the same coat, earlier coats of their pans first. */
function companies({ day }: Timetable): CompanyOfBakes[] {
  const groups = new Map<string, CompanyOfBakes & { step: number }>();
  const coats = day.request.coatings.flatMap((coating) => coating.coats);
  day.bakes.forEach(({ kind, step }, bake) => {
    const { coat, ovens } = day.kinds[kind]!;
    if (ovens.length === 0) return;
    const key = `${step}/${coats.indexOf(coat)}/${ovens.join()}`;
    const group = groups.get(key) ?? { ovens, bakes: [], step };
    group.bakes.push(bake);
    groups.set(key, group);
  });
  return [...groups.values()].sort((a, b) => a.step - b.step);
}

/** The bakes load by load, the loads whose pans are all ready first. */
function pack({ day, book }: Timetable, oven: number, bakes: readonly number[], effort: number): number[][] {
  const { space } = day.request.ovens[oven]!;
  if (space.kind !== "shelves") return [];
  const kindOf = (bake: number): number => day.bakes[bake]!.kind;
  const shelves = space.shelves.map((_, index) => index);
  const byKind = [...bakes].sort((a, b) => kindOf(a) - kindOf(b) || a - b);
  const pans = byKind.map((bake) => packPanOf(day.kinds[kindOf(bake)]!));
  const loaded = packIntoLoads(
    space,
    pans,
    pans.map(() => shelves),
    effort,
    1,
  );
  const members: number[][] = [];
  loaded.forEach((own, index) => {
    if (own !== undefined) (members[own.load] ??= []).push(index);
  });
  for (const load of members)
    book.lay(
      oven,
      load.map((index) => kindOf(byKind[index]!)),
      load.map((index) => loaded[index]!.place),
    );
  const readyAt = (load: readonly number[]): number =>
    Math.max(...load.map((bake) => day.request.lines[day.pans[day.bakes[bake]!.pan]!.line]!.readyMinute));
  return members.map((load) => load.map((index) => byKind[index]!)).sort((a, b) => readyAt(a) - readyAt(b));
}
