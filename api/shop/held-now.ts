/** Loads that planning must not touch now: those under way as they are, those pinned as far as they can still be. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { OUT_OF_USE_CM } from "./equipment.ts";
import { MINUTE } from "./instants.ts";
import type { PanFile } from "./pieces.ts";
import { hasOpened } from "./progress.ts";
import type { LoadNow, Moment } from "./progress.ts";
import type { Current } from "./stand.ts";

interface HeldBy {
  readonly current: Current;
  readonly firing: readonly LoadNow[];
  readonly ovens: DayFile["ovens"];
  readonly moment: Moment;
  /** Pans as planning finds them. */
  readonly pans: readonly PanFile[];
}

type Held = NonNullable<DayFile["held"]>;

/** A load under way is held as it is. A pinned one keeps the pans that can still be in it. */
export function heldLoads({ current, firing, ovens, moment, pans }: HeldBy): Held {
  const due = new Map(pans.map((pan) => [pan.id, pan]));
  const inUse = new Set(ovens.map(({ id }) => id));
  const pinned = current.loads
    .filter((entry) => entry.state === "pinned" && !hasOpened(entry, moment) && inUse.has(entry.load.oven))
    .filter(({ load }) => usableThen(ovens, load, moment))
    .flatMap(({ load }) => {
      const left = load.pans.filter(({ id, coat }) => (due.get(id)?.nextCoat ?? 1) <= coat && due.has(id));
      return load.kind === "bake" && left.length === 0 ? [] : [{ ...load, state: "pinned" as const, pans: left }];
    });
  const facts = firing.filter(({ load }) => inUse.has(load.oven));
  // The chamber is known at the door's opening, when its venting was over.
  return [
    ...facts.map(({ load }) => ({ ...load, state: "firing" as const, ventMinutes: 0 })),
    ...pinned.filter(onShelves(ovens)),
  ];
}

/** Its oven is back by the time its venting begins. */
function usableThen(ovens: DayFile["ovens"], load: PlanFile["loads"][number], { time }: Moment): boolean {
  const outUntil = ovens.find(({ id }) => id === load.oven)?.outUntil ?? null;
  return outUntil === null || time.millis(load.doorOpensAt) - load.ventMinutes * MINUTE >= time.millis(outUntil);
}

function onShelves(ovens: DayFile["ovens"]): (load: Held[number]) => boolean {
  return (load) => {
    const space = ovens.find(({ id }) => id === load.oven)?.space;
    if (space?.kind !== "shelves") return true;
    const usable = new Set(
      space.shelves.filter(({ clearHeightCm }) => clearHeightCm > OUT_OF_USE_CM).map(({ id }) => id),
    );
    return (load.pans ?? []).every(({ shelf }) => typeof shelf === "string" && usable.has(shelf));
  };
}
