/** Held loads stand in the plan as the day has them, and nothing else claims to be held. */
import type { DayHeldLoad } from "../contract/day.ts";
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { apart, tolerance } from "./fault.ts";
import type { Load, PlanView } from "./plan-view.ts";

export function checkHeld(day: DayView, plan: PlanView, report: Report): void {
  const planned = new Map(plan.loads.map((load) => [load.said.id, load]));
  const held = new Set<string>();
  for (const fact of day.day.held) {
    held.add(fact.id);
    const load = planned.get(fact.id);
    if (load === undefined)
      report({ rule: "held", path: "loads", message: `The held load ${fact.id} is missing.`, found: fact.id });
    else checkUnchanged(day, fact, load, report);
  }
  for (const { said, path } of plan.loads)
    if (said.state !== "planned" && !held.has(said.id))
      report({
        rule: "held",
        path: `${path}.state`,
        message: `Load ${said.id} is said to be ${said.state}, yet the day holds no such load.`,
        said: said.state,
      });
}

function checkUnchanged(day: DayView, fact: DayHeldLoad, load: Load, report: Report): void {
  const { said, path } = load;
  const same = (field: string, saidValue: number | string | null, factValue: number | string | null): void => {
    const equal =
      typeof saidValue === "number" && typeof factValue === "number"
        ? !apart(saidValue, factValue, tolerance.exactMinutes)
        : saidValue === factValue;
    if (!equal) report(changed(`${path}.${field}`, fact.id, saidValue, factValue));
  };
  const instants = ["doorOpensAt", "doorClosesAt", "burnerOffAt", "unloadAt", "doneAt"] as const;
  for (const field of ["oven", "kind", "state", "setPointC", "ventMinutes"] as const)
    same(field, said[field], fact[field]);
  for (const field of instants) {
    same(field, shown(day, said[field]), shown(day, fact[field]));
  }
  if (said.pans.length !== fact.pans.length) same("pans", said.pans.length, fact.pans.length);
  for (const pan of fact.pans) {
    const at = said.pans.findIndex(({ id, item }) => id === pan.id && item === pan.item);
    const own = said.pans[at];
    if (own === undefined) same("pans", "no place", `${pan.id} item ${pan.item}`);
    else
      for (const field of ["coat", "shelf", "turned", "xCm", "yCm"] as const)
        same(`pans[${at}].${field}`, plain(own[field]), plain(pan[field]));
  }
}

/** Instants are alike where they show alike, whatever offset they are written with. */
function shown(day: DayView, text: string | null): string | null {
  return text === null ? null : day.clock.show(day.clock.minutes(text));
}

function plain(value: number | string | boolean | null): number | string | null {
  return typeof value === "boolean" ? String(value) : value;
}

function changed(
  path: string,
  id: string,
  said: number | string | null,
  fact: number | string | null,
): Parameters<Report>[0] {
  return {
    rule: "held",
    path,
    message: `The held load ${id} was changed here: ${said ?? "nothing"} in place of ${fact ?? "nothing"}.`,
    said: said ?? "nothing",
    found: fact ?? "nothing",
  };
}
