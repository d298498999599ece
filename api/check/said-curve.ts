/** The curve of a load: a point a minute, each near the checker's own chamber, coldest and hottest metal. */
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
  for (const [index, point] of curve.entries()) {
    const state = trace.minuteStates[index];
    if (state !== undefined) checkPoint(load, point, state, report);
  }
}

/** In an empty firing there is no metal, so nothing is asked of the metal's two figures. */
function checkPoint(load: Load, point: PlanLoad["curve"][number], state: Float64Array, report: Report): void {
  const metals = state.subarray(1);
  const found: readonly (readonly [keyof PlanLoad["curve"][number], number | undefined])[] = [
    ["chamberC", state[0]],
    ["slowestC", metals.length === 0 ? undefined : Math.min(...metals)],
    ["fastestC", metals.length === 0 ? undefined : Math.max(...metals)],
  ];
  for (const [field, value] of found) {
    if (value === undefined || !apart(point[field], value, tolerance.temperatureC)) continue;
    report({
      rule: "said",
      path: `${load.path}.curve[${point.minute}].${field}`,
      message: `${loadName(load)}, minute ${point.minute}: ${field} is said to be ${figure(point[field])} °C, found ${figure(value)} °C.`,
      said: point[field],
      found: value,
    });
  }
}
