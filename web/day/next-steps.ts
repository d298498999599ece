/** What people do, in the order of the clock. */
import { millisOf } from "../parts/clock.ts";
import { coatName, ovenName, pieceName } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import type { LoadNow } from "../parts/load-now.ts";
import { words } from "../shell/words-en.ts";

export interface Step {
  readonly at: string;
  readonly said: string;
}

/** The minute that has just begun is still to be done. */
const graceMs = 60_000;

/** The next ones from `now` on. */
export function nextSteps(planned: Planned, loads: readonly LoadNow[], now: number, many: number): Step[] {
  const isToCome = ({ at }: { readonly at: string }): boolean => millisOf(at) > now - graceMs;
  return [...ovenSteps(planned, loads).filter(isToCome), ...handSteps(planned, now - graceMs)]
    .toSorted((a, b) => millisOf(a.at) - millisOf(b.at))
    .slice(0, many);
}

function ovenSteps({ day }: Planned, loads: readonly LoadNow[]): Step[] {
  const steps: Step[] = [];
  for (const { load } of loads.filter(({ state }) => state !== "fired" && state !== "interrupted")) {
    const oven = ovenName(day, load.oven);
    // Preheats and clean burns open no door.
    const isEmpty = load.pans.length === 0;
    const begins = isEmpty
      ? words.step.purgeEmpty(words.kind[load.kind], load.id, oven)
      : words.step.door(load.id, oven);
    steps.push({ at: load.doorOpensAt, said: begins });
    if (load.burnerOnAt !== null) steps.push({ at: load.burnerOnAt, said: words.step.burnerOn(load.id, oven) });
    if (load.burnerOffAt !== null) steps.push({ at: load.burnerOffAt, said: words.step.burnerOff(load.id, oven) });
    if (!isEmpty) steps.push({ at: load.unloadAt, said: words.step.unload(load.id, oven) });
  }
  return steps;
}

/** Alike work on one pan after the other is one step: else a row of pans would hide what the ovens want. */
function handSteps({ day, plan }: Planned, after: number): Step[] {
  const prep = plan.prep.map((task) => ({
    ...task,
    key: `bench ${task.bench}`,
    said: (more: number) => words.step.prep(pieceName(day, task), task.bench, more),
  }));
  const booth = plan.booth.map((task) => ({
    ...task,
    key: `booth ${task.sprayer} ${coatName(day, task)}`,
    said: (more: number) => words.step.spray(pieceName(day, task), coatName(day, task), task.sprayer, more),
  }));
  const tasks = [...prep, ...booth]
    .filter(({ from }) => millisOf(from) > after)
    .toSorted((a, b) => millisOf(a.from) - millisOf(b.from));
  const rows: { first: (typeof tasks)[number]; to: string; more: number }[] = [];
  for (const task of tasks) {
    const row = rows.findLast(({ first }) => first.key === task.key);
    if (row !== undefined && millisOf(task.from) <= millisOf(row.to)) {
      row.to = task.to;
      row.more++;
    } else rows.push({ first: task, to: task.to, more: 0 });
  }
  return rows.map(({ first, more }) => ({ at: first.from, said: first.said(more) }));
}
