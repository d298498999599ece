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

function stepsOf({ day, plan }: Planned, loads: readonly LoadNow[]): Step[] {
  const steps: Step[] = [];
  for (const { load } of loads.filter(({ state }) => state !== "fired" && state !== "interrupted")) {
    const oven = ovenName(day, load.oven);
    steps.push({ at: load.doorOpensAt, said: words.step.door(load.id, oven) });
    if (load.burnerOnAt !== null) steps.push({ at: load.burnerOnAt, said: words.step.burnerOn(load.id, oven) });
    if (load.burnerOffAt !== null) steps.push({ at: load.burnerOffAt, said: words.step.burnerOff(load.id, oven) });
    steps.push({ at: load.unloadAt, said: words.step.unload(load.id, oven) });
  }
  for (const task of plan.prep) steps.push({ at: task.from, said: words.step.prep(pieceName(day, task), task.bench) });
  for (const task of plan.booth)
    steps.push({ at: task.from, said: words.step.spray(pieceName(day, task), coatName(day, task), task.sprayer) });
  return steps.toSorted((a, b) => millisOf(a.at) - millisOf(b.at));
}

/** The minute that has just begun is still to be done. */
const graceMs = 60_000;

/** The next ones from `now` on. */
export function nextSteps(planned: Planned, loads: readonly LoadNow[], now: number, many: number): Step[] {
  return stepsOf(planned, loads)
    .filter(({ at }) => millisOf(at) > now - graceMs)
    .slice(0, many);
}
