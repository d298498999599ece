/** The curve of a load: a point a minute, near the checker's own chamber, coldest and hottest metal. */
import type { PlanLoad } from "../contract/plan.ts";
import type { Report } from "./fault.ts";
import { apart, figure, tolerance } from "./fault.ts";
import type { Trace } from "./firing.ts";
import type { Load } from "./plan-view.ts";
import { loadName } from "./words.ts";

export function checkCurve(load: Load, trace: Trace, report: Report): void {
  const { curve } = load.said;
  const due = trace.minuteStates.length;
  const outOfStep = curve.findIndex((point, index) => point.minute !== index);
  if (curve.length !== due || outOfStep >= 0) {
    report({
      rule: "said",
      path: `${load.path}.curve`,
      message: `The curve of ${loadName(load)} has ${curve.length} points, one a minute makes ${due}${outOfStep >= 0 ? `; point ${outOfStep} is out of step` : ""}.`,
      said: curve.length,
      found: due,
    });
    return;
  }
  for (const field of ["chamberC", "slowestC", "fastestC"] as const) checkLine(load, trace, field, report);
}

type Line = Exclude<keyof PlanLoad["curve"][number], "minute">;

/** One fault a line, at its worst point. In an empty firing nothing is asked of the metal's two lines. */
function checkLine(load: Load, trace: Trace, field: Line, report: Report): void {
  let worst: { readonly minute: number; readonly said: number; readonly found: number } | undefined;
  for (const [minute, point] of load.said.curve.entries()) {
    const found = stateOf(trace.minuteStates[minute], field);
    if (found === undefined || !apart(point[field], found, tolerance.temperatureC)) continue;
    if (worst === undefined || Math.abs(point[field] - found) > Math.abs(worst.said - worst.found))
      worst = { minute, said: point[field], found };
  }
  if (worst === undefined) return;
  report({
    rule: "said",
    path: `${load.path}.curve[${worst.minute}].${field}`,
    message: `${loadName(load)}, minute ${worst.minute}: ${field} is said to be ${figure(worst.said)} °C, found ${figure(worst.found)} °C.`,
    said: worst.said,
    found: worst.found,
  });
}

function stateOf(state: Float64Array | undefined, field: Line): number | undefined {
  if (state === undefined || field === "chamberC") return state?.[0];
  const metals = state.subarray(1);
  if (metals.length === 0) return undefined;
  return field === "slowestC" ? Math.min(...metals) : Math.max(...metals);
}
