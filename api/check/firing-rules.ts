/** Rule 5 for the firing itself: set-point, burner, vent and the heat at which a door may open. */
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { figure, tolerance } from "./fault.ts";
import type { Trace } from "./firing.ts";
import type { ThermalCycle } from "./oven.ts";
import type { Traces } from "./oven-history.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { loadsOfOven } from "./plan-view.ts";
import { loadName } from "./words.ts";

export function checkFirings(day: DayView, plan: PlanView, traces: Traces, report: Report): void {
  for (const oven of day.day.ovens) {
    const loads = loadsOfOven(plan, oven.id);
    loads.forEach((load, index) => {
      if (load.isFact) return;
      checkVent(load, loads[index - 1]?.done ?? day.planFrom, report);
      if (oven.cycle.kind !== "thermal") return;
      checkSetPoint(load, oven.cycle, report);
      const trace = traces.get(load);
      if (trace === undefined) return;
      checkReached(load, trace, report);
      if (load.said.kind === "bake") checkDoors(load, trace, oven.cycle, report);
    });
  }
}

/** The fan runs with the burner off, so only in the time the oven stands idle; an empty firing opens no door. */
function checkVent(load: Load, freeSince: number, report: Report): void {
  const { ventMinutes, kind } = load.said;
  const idle = Math.max(0, load.opens - freeSince);
  const room = kind === "bake" && load.oven?.cycle.kind === "thermal" ? idle : 0;
  if (ventMinutes <= room + tolerance.exactMinutes) return;
  report({
    rule: "5 firing",
    path: `${load.path}.ventMinutes`,
    message: `${loadName(load)} is vented for ${figure(ventMinutes)} min, there is room for ${figure(room)} min.`,
    said: ventMinutes,
    found: room,
  });
}

function checkSetPoint(load: Load, cycle: ThermalCycle, report: Report): void {
  const { setPointC } = load.said;
  if (setPointC === null) return;
  const steps = setPointC / cycle.setPointStepC;
  const offStep = Math.abs(steps - Math.round(steps)) > 1e-6;
  if (!offStep && setPointC <= cycle.setPointMaxC + 1e-6) return;
  report({
    rule: "5 firing",
    path: `${load.path}.setPointC`,
    message: `${loadName(load)} is set to ${figure(setPointC)} °C; the oven takes multiples of ${figure(cycle.setPointStepC)} up to ${figure(cycle.setPointMaxC)} °C.`,
    said: setPointC,
    found: cycle.setPointMaxC,
  });
}

/** One that starts above its set-point counts as having reached it. */
function checkReached(load: Load, trace: Trace, report: Report): void {
  const hottestC = Math.max(trace.burnerOnChamberC, trace.hottestBurningC);
  if (hottestC >= trace.times.setPointC - tolerance.temperatureC) return;
  report({
    rule: "5 firing",
    path: `${load.path}.burnerOffAt`,
    message: `${loadName(load)}: the chamber has reached ${figure(hottestC)} °C when the burner goes off, the set-point is ${figure(trace.times.setPointC)} °C.`,
    said: trace.times.setPointC,
    found: hottestC,
  });
}

function checkDoors(load: Load, trace: Trace, cycle: ThermalCycle, report: Report): void {
  const doors = [
    ["doorOpensAt", trace.chamberStartC],
    ["unloadAt", trace.nominal.unloadChamberC],
  ] as const;
  for (const [field, chamberC] of doors) {
    if (chamberC <= cycle.doorLimitC + tolerance.temperatureC) continue;
    report({
      rule: "5 firing",
      path: `${load.path}.${field}`,
      message: `${loadName(load)} opens its door with the chamber at ${figure(chamberC)} °C, the limit is ${figure(cycle.doorLimitC)} °C.`,
      said: cycle.doorLimitC,
      found: chamberC,
    });
  }
}
