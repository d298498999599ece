/** Rule 4: firings of one oven follow each other, their durations are exact, and a preheat stands before its bake. */
import type { DayView } from "./day-view.ts";
import type { Fault, Report } from "./fault.ts";
import { apart, figure, tolerance } from "./fault.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { loadsOfOven } from "./plan-view.ts";
import { loadName } from "./words.ts";

export function checkOvensInTime(day: DayView, plan: PlanView, report: Report): void {
  for (const load of plan.loads) {
    if (load.isFact) continue;
    checkKind(load, report);
    checkDurations(day, load, report);
    checkInUse(day, load, report);
  }
  for (const oven of day.day.ovens) {
    const loads = loadsOfOven(plan, oven.id);
    loads.forEach((load, index) => {
      checkAfter(day, load, loads[index - 1], report);
      if (load.said.kind === "preheat" && !load.isFact) checkPreheat(load, loads[index + 1], report);
    });
  }
}

function checkKind(load: Load, report: Report): void {
  const { kind, pans } = load.said;
  if (kind === "bake" && pans.length === 0)
    report({ rule: "4 oven", path: `${load.path}.pans`, message: `${loadName(load)} bakes no pans.` });
  if (kind !== "bake" && pans.length > 0)
    report({
      rule: "4 oven",
      path: `${load.path}.pans`,
      message: `${loadName(load)} holds ${pans.length} pans, it is fired empty.`,
      found: pans.length,
    });
  if (kind === "preheat" && load.oven?.cycle.kind === "fixed")
    report({ rule: "4 oven", path: load.path, message: `${loadName(load)}: a fixed cycle has no preheat.` });
}

/** The fan that vents before the door opens is a use of the oven too. */
function checkInUse(day: DayView, load: Load, report: Report): void {
  const outUntil = load.oven?.outUntil ?? null;
  if (outUntil === null) return;
  const from = day.clock.minutes(outUntil);
  if (!(load.opens - load.said.ventMinutes < from - tolerance.exactMinutes)) return;
  report({
    rule: "4 oven",
    path: `${load.path}.doorOpensAt`,
    message: `${loadName(load)} uses oven ${load.said.oven}, which is out of use until ${day.clock.show(from)}.`,
    said: day.clock.show(load.opens - load.said.ventMinutes),
    found: day.clock.show(from),
  });
}

function checkDurations(day: DayView, load: Load, report: Report): void {
  const cycle = load.oven?.cycle;
  if (cycle === undefined) return;
  const isBake = load.said.kind === "bake";
  const span = (field: keyof Load["said"], from: number | null, to: number | null, minutes: number): void => {
    const fault = spanFault(day, load, { field, from, to, minutes });
    if (fault !== undefined) report(fault);
  };
  span("doorClosesAt", load.opens, load.closes, isBake ? cycle.loadMinutes : 0);
  span("doneAt", load.unload, load.done, isBake ? cycle.unloadMinutes : 0);
  if (cycle.kind === "thermal") {
    span("burnerOnAt", load.closes, load.burnerOn, cycle.purgeMinutes);
    if (!isBake) span("unloadAt", load.burnerOff, load.unload, 0);
  } else if (isBake && load.pans.length > 0) {
    const longest = Math.max(...load.pans.map(({ coat }) => coat?.bake.cycleMinutes ?? 0));
    span("unloadAt", load.closes, load.unload, longest);
  }
}

function spanFault(
  day: DayView,
  load: Load,
  span: { field: keyof Load["said"]; from: number | null; to: number | null; minutes: number },
): Fault | undefined {
  const { field, from, to, minutes } = span;
  if (from === null || to === null)
    return to === null
      ? { rule: "4 oven", path: `${load.path}.${field}`, message: `${loadName(load)} says no ${field}.` }
      : undefined;
  if (!apart(to, from + minutes, tolerance.exactMinutes)) return undefined;
  return {
    rule: "4 oven",
    path: `${load.path}.${field}`,
    message: `${loadName(load)}: ${field} is ${day.clock.show(to)}, ${figure(minutes)} min after ${day.clock.show(from)} are due.`,
    said: to - from,
    found: minutes,
  };
}

/** A fact may not be moved, so only what is planned answers for an overlap with it. */
function checkAfter(day: DayView, load: Load, previous: Load | undefined, report: Report): void {
  if (previous === undefined || (load.isFact && previous.isFact)) return;
  if (!(load.opens < previous.done - tolerance.exactMinutes)) return;
  report({
    rule: "4 oven",
    path: `${load.path}.doorOpensAt`,
    message: `${loadName(load)} opens at ${day.clock.show(load.opens)}, while ${loadName(previous)} is done at ${day.clock.show(previous.done)}.`,
    said: day.clock.show(load.opens),
    found: day.clock.show(previous.done),
  });
}

function checkPreheat(load: Load, next: Load | undefined, report: Report): void {
  if (next?.said.kind !== "bake") {
    report({
      rule: "4 oven",
      path: load.path,
      message: `${loadName(load)} does not stand directly before a bake of oven ${load.said.oven}.`,
    });
    return;
  }
  const own = load.said.setPointC;
  const bake = next.said.setPointC;
  if (own !== null && bake !== null && own > bake + tolerance.exactMinutes)
    report({
      rule: "4 oven",
      path: `${load.path}.setPointC`,
      message: `${loadName(load)} heats to ${figure(own)} °C, its bake ${next.said.id} is set to ${figure(bake)} °C.`,
      said: own,
      found: bake,
    });
}
