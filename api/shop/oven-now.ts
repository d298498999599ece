/** The ovens as planning finds them now. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { afterFiring, afterIdle } from "./chamber-now.ts";
import { MINUTE } from "./instants.ts";
import { isDone } from "./progress.ts";
import type { LoadNow, Moment } from "./progress.ts";
import type { Current } from "./stand.ts";

export interface OvenThen {
  readonly opened: readonly LoadNow[];
  readonly firing: readonly LoadNow[];
  readonly moment: Moment;
  readonly asOf: number;
  readonly coatings: DayFile["coatings"];
}

/** The oven as planning finds it: its warmth, and what stood in it since its last clean burn. */
export function ovenNow(
  oven: DayFile["ovens"][number],
  current: Current | null,
  then: OvenThen,
): DayFile["ovens"][number] {
  const planned = current?.day.ovens.find(({ id }) => id === oven.id);
  if (current === null || planned === undefined) return oven;
  const brokenOff = current.loads.filter((entry) => entry.load.oven === oven.id && entry.state === "interrupted");
  const past = [
    ...then.opened.filter((entry) => entry.load.oven === oven.id && isDone(entry, then.moment)),
    ...brokenOff,
  ]
    .map(({ load }) => load)
    .toSorted((a, b) => then.moment.time.millis(a.doneAt) - then.moment.time.millis(b.doneAt));
  const lastGroups = past.reduce<readonly string[]>(
    (groups, load) => groupsAfter(groups, load, current, then.coatings),
    planned.lastGroups ?? [],
  );
  const soiled = { ...oven, lastGroups: [...lastGroups] };
  if (oven.cycle.kind === "fixed" || planned.cycle.kind === "fixed") return soiled;
  const ambientC = current.day.ambientC ?? 20;
  const firing = then.firing.find(({ load }) => load.oven === oven.id)?.load;
  const idleMinutes = (then.asOf - then.moment.time.millis(current.day.planFrom)) / MINUTE;
  const last = past.at(-1);
  // A load that was broken off stands behind a shut door.
  const isShut = last?.kind !== "bake" || brokenOff.some(({ load }) => load === last);
  const startC =
    firing !== undefined
      ? firing.chamberStartC
      : last !== undefined
        ? afterFiring(oven.cycle, ambientC, last, then.moment.time.millis(last.doneAt), then.asOf, isShut)
        : afterIdle(oven.cycle, ambientC, planned.cycle.startC ?? ambientC, Math.max(0, idleMinutes));
  return { ...soiled, cycle: { ...oven.cycle, startC: startC ?? ambientC } };
}

function groupsAfter(
  groups: readonly string[],
  load: PlanFile["loads"][number],
  current: Current,
  coatings: DayFile["coatings"],
): readonly string[] {
  if (load.kind === "clean burn") return [];
  const stood = load.pans.flatMap(({ id, coat }) => {
    const coating = current.day.pans.find((pan) => pan.id === id)?.coating;
    const found = [...current.day.coatings, ...coatings].find((one) => one.id === coating)?.coats[coat - 1];
    return found === undefined ? [] : [found.mixGroup];
  });
  return [...new Set([...groups, ...stood])];
}
