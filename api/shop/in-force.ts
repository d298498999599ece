/** What the plan in force still has to come: what a new plan begins from, and what moving a pan is measured against. */
import type { DayFile } from "../contract/day.ts";
import type { PanFile } from "./pieces.ts";
import { hasOpened } from "./progress.ts";
import type { InForcePlan, LoadNow, Moment, Progress } from "./progress.ts";

export interface PieceNow {
  readonly id: string;
  readonly follows: string;
  readonly at: Progress;
}

/** Where the plan in force had the first bake not yet begun of each pan that goes on. */
export function inForceOf(
  current: InForcePlan,
  pieces: readonly PieceNow[],
  moment: Moment,
): NonNullable<DayFile["inForce"]> {
  const begun = new Set(current.loads.filter((entry) => hasOpened(entry, moment)).map(({ load }) => load.id));
  return pieces.flatMap(({ id, follows, at }) => {
    if (at.kind === "finished" || follows === "no") return [];
    const next = current.plan.loads.find((load) => !begun.has(load.id) && load.pans.some((pan) => pan.id === id));
    return next === undefined ? [] : [{ id, item: 1, doorOpensAt: next.doorOpensAt }];
  });
}

/** Bakes to come, load by load as they are expected now, of the pans that planning knows. */
export function inForceLoadsOf(
  current: InForcePlan,
  pans: readonly PanFile[],
  moment: Moment,
): NonNullable<DayFile["inForceLoads"]> {
  const due = new Map(pans.map((pan) => [pan.id, pan.nextCoat ?? 1]));
  const isToCome = (entry: LoadNow): boolean =>
    entry.state === "planned" && entry.load.kind === "bake" && !hasOpened(entry, moment);
  return current.loads.filter(isToCome).flatMap(({ load }) => {
    const left = load.pans.filter(({ id, coat }) => coat >= (due.get(id) ?? Infinity));
    if (left.length === 0) return [];
    const { oven, setPointC, doorOpensAt } = load;
    return [{ oven, setPointC, doorOpensAt, pans: left.map(({ id, item, coat }) => ({ id, item, coat })) }];
  });
}
