/** Rule 6: doors are worked, and attended ovens fired, while people are at work; nothing starts before planning does. */
import type { DayView } from "./day-view.ts";
import { staffedThroughout } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { tolerance } from "./fault.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { loadName } from "./words.ts";

export function checkStaffed(day: DayView, plan: PlanView, report: Report): void {
  for (const load of plan.loads) if (!load.isFact) checkLoadStaffed(day, load, report);
}

function checkLoadStaffed(day: DayView, load: Load, report: Report): void {
  const need = (field: string, from: number, to: number, what: string): void => {
    if (staffedThroughout(day, from, to)) return;
    report({
      rule: "6 staffed",
      path: `${load.path}.${field}`,
      message: `${loadName(load)}: nobody is at work throughout its ${what}, ${day.clock.show(from)} to ${day.clock.show(to)}.`,
      said: day.clock.show(from),
    });
  };
  const starts = load.opens - load.said.ventMinutes;
  if (!(starts >= day.planFrom - tolerance.exactMinutes))
    report({
      rule: "6 staffed",
      path: `${load.path}.doorOpensAt`,
      message: `${loadName(load)} starts at ${day.clock.show(starts)}, before planning starts at ${day.clock.show(day.planFrom)}.`,
      said: day.clock.show(starts),
      found: day.clock.show(day.planFrom),
    });
  if (load.oven?.attended) need("doorOpensAt", load.opens, load.done, "firing");
  else if (load.said.kind === "bake") {
    need("doorOpensAt", load.opens, load.closes, "loading");
    need("unloadAt", load.unload, load.done, "unloading");
  } else if (!(load.done <= day.horizon + tolerance.exactMinutes))
    report({
      rule: "6 staffed",
      path: `${load.path}.doneAt`,
      message: `${loadName(load)} is done at ${day.clock.show(load.done)}, after the horizon ends at ${day.clock.show(day.horizon)}.`,
      said: day.clock.show(load.done),
      found: day.clock.show(day.horizon),
    });
}
