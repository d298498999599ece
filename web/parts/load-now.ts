/** The loads as they stand: planned, or with the instants that were reported. And in which phase a firing is. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { millisOf } from "./clock.ts";
import { ovenOf } from "./day-lookup.ts";
import type { LoadState } from "./load-state.ts";
import { movedBy } from "./zone.ts";
import type { DayFile } from "../../api/contract/day.ts";

/** A load of the shop, as GET /loads tells it. */
export interface LoadNow {
  readonly id: string;
  readonly state: LoadState;
  readonly note: string;
  readonly load: PlanLoad;
}

/** Nobody said otherwise, so the plan is believed: a load whose time has come is under way. */
export function isUnderWay({ load, state }: LoadNow, now: number): boolean {
  if (state === "firing") return true;
  return (
    (state === "planned" || state === "pinned") && millisOf(load.doorOpensAt) <= now && now < millisOf(load.doneAt)
  );
}

export function isToCome({ load, state }: LoadNow, now: number): boolean {
  return (state === "planned" || state === "pinned") && millisOf(load.doorOpensAt) > now;
}

export type PhaseName = "loading" | "purge" | "warm" | "soak" | "coast" | "unload";

export interface Phase {
  readonly name: PhaseName;
  readonly from: number;
  readonly to: number;
}

/**
 * What the firing goes through, in milliseconds. `warm` ends when the last pan is in its window; a firing without pans
 * or without windows warms until its set-point. Empty phases are left out.
 */
export function phasesOf(load: PlanLoad): Phase[] {
  const opens = millisOf(load.doorOpensAt);
  const closes = millisOf(load.doorClosesAt);
  const unloads = millisOf(load.unloadAt);
  const lit = load.burnerOnAt === null ? closes : millisOf(load.burnerOnAt);
  const off = load.burnerOffAt === null ? unloads : millisOf(load.burnerOffAt);
  const inWindow = load.pans.flatMap(({ inWindowAt }) => (inWindowAt === null ? [] : [millisOf(inWindowAt)]));
  const hot = inWindow.length > 0 ? Math.max(...inWindow) : load.setPointAt === null ? lit : millisOf(load.setPointAt);
  const soaks = Math.min(Math.max(hot, lit), unloads);
  const coasts = Math.max(off, soaks);
  const phases: Phase[] = [
    { name: "loading", from: opens, to: closes },
    { name: "purge", from: closes, to: lit },
    { name: "warm", from: lit, to: soaks },
    { name: "soak", from: soaks, to: coasts },
    { name: "coast", from: coasts, to: unloads },
    { name: "unload", from: unloads, to: millisOf(load.doneAt) },
  ];
  return phases.filter(({ from, to }) => to > from);
}

export interface BurnerOff {
  readonly earliest: string;
  readonly latest: string;
}

/** Between these the burner may go off with every window kept; an empty firing ends when its hold does. Null in a fixed cycle. */
export function burnerOffWindow(day: DayFile, load: PlanLoad): BurnerOff | null {
  const cycle = ovenOf(day, load.oven)?.cycle;
  if (load.burnerOffAt === null || cycle?.kind !== "thermal") return null;
  return {
    earliest: movedBy(day.timeZone, load.burnerOffAt, load.kind === "bake" ? -(cycle.earlyMinutes ?? 1) : 0),
    latest: movedBy(day.timeZone, load.burnerOffAt, load.slackMinutes ?? 0),
  };
}
