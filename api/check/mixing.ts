/** Rule 3: which mix groups may share a firing, and the clean burn between two that may not follow each other. */
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { figure, tolerance } from "./fault.ts";
import type { Traces } from "./oven-history.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { loadsOfOven } from "./plan-view.ts";
import { loadName } from "./words.ts";

export function checkMixing(day: DayView, plan: PlanView, traces: Traces, report: Report): void {
  for (const load of plan.loads) {
    if (load.isFact) continue;
    checkTogether(day, load, report);
    if (load.said.kind === "clean burn") checkCleanBurn(day, load, traces, report);
  }
  for (const oven of day.day.ovens) checkSequence(day, loadsOfOven(plan, oven.id), oven.lastGroups, report);
}

function groupsOf(load: Load): string[] {
  return load.pans.flatMap(({ coat }) => (coat === undefined ? [] : [coat.mixGroup]));
}

function checkTogether(day: DayView, load: Load, report: Report): void {
  const { rule, neverTogether } = day.day.mixing;
  const groups = groupsOf(load);
  const kinds = [...new Set(groups)];
  if (rule === "same-group" && kinds.length > 1)
    report({
      rule: "3 mixing",
      path: `${load.path}.pans`,
      message: `${loadName(load)} holds the groups ${kinds.join(", ")}; this shop fires one group at a time.`,
      found: kinds.join(", "),
    });
  for (const [one, other] of neverTogether) {
    const alike = one === other && groups.filter((group) => group === one).length > 1;
    if (!alike && (one === other || !kinds.includes(one) || !kinds.includes(other))) continue;
    report({
      rule: "3 mixing",
      path: `${load.path}.pans`,
      message: `${loadName(load)} holds ${one} and ${other}, which may never share a firing.`,
      found: `${one}, ${other}`,
    });
  }
}

/** The set-point may be rounded up to the oven's next step, never down. */
function checkCleanBurn(day: DayView, load: Load, traces: Traces, report: Report): void {
  const wanted = day.day.mixing.cleanBurn;
  if (wanted === null) {
    report({ rule: "3 mixing", path: load.path, message: `${loadName(load)}: this shop has no clean burn.` });
    return;
  }
  const trace = traces.get(load);
  const heldMinutes = trace?.heldMinutes ?? load.unload - load.closes;
  if (heldMinutes < wanted.holdMinutes - tolerance.soakMinutes)
    report({
      rule: "3 mixing",
      path: `${load.path}.burnerOffAt`,
      message: `${loadName(load)} holds its heat for ${figure(heldMinutes)} min, ${figure(wanted.holdMinutes)} min are asked for.`,
      said: wanted.holdMinutes,
      found: heldMinutes,
    });
  const stepC = load.oven?.cycle.kind === "thermal" ? load.oven.cycle.setPointStepC : 0;
  const { setPointC } = load.said;
  if (setPointC === null || (setPointC >= wanted.setPointC && setPointC < wanted.setPointC + Math.max(stepC, 1e-9)))
    return;
  report({
    rule: "3 mixing",
    path: `${load.path}.setPointC`,
    message: `${loadName(load)} is set to ${figure(setPointC)} °C, a clean burn is held at ${figure(wanted.setPointC)} °C.`,
    said: setPointC,
    found: wanted.setPointC,
  });
}

/** Facts soil the oven like any load, but answer for nothing themselves. */
function checkSequence(day: DayView, loads: readonly Load[], lastGroups: readonly string[], report: Report): void {
  const rule = day.day.mixing.cleanBurn;
  if (rule === null) return;
  let soiledBy = lastGroups.find((group) => rule.after.includes(group));
  for (const load of loads) {
    const groups = groupsOf(load);
    const needsClean = groups.find((group) => rule.before.includes(group));
    if (soiledBy !== undefined && needsClean !== undefined && !load.isFact)
      report({
        rule: "3 mixing",
        path: load.path,
        message: `${loadName(load)} bakes ${needsClean} after ${soiledBy} in oven ${load.said.oven} with no clean burn between.`,
        found: soiledBy,
      });
    if (load.said.kind === "clean burn") soiledBy = undefined;
    soiledBy = groups.find((group) => rule.after.includes(group)) ?? soiledBy;
  }
}
