/** What the plan says of each load and pan, held against what the checker's own integration finds. */
import type { DayView } from "./day-view.ts";
import { loadGasKWh } from "./cost.ts";
import { slackRange } from "./cure-window.ts";
import type { Report } from "./fault.ts";
import { apart, figure, gasTolerance, tolerance } from "./fault.ts";
import type { Trace } from "./firing.ts";
import type { Traces } from "./oven-history.ts";
import { coolingOf } from "./oven-history.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { checkCurve } from "./said-curve.ts";
import { checkNothingPredicted } from "./said-fixed.ts";
import { checkInstant, stateAt } from "./said-reached.ts";
import { massOf, solventOf } from "./space.ts";
import { loadName, pieceName } from "./words.ts";

export function checkSaid(day: DayView, plan: PlanView, traces: Traces, report: Report): void {
  for (const load of plan.loads) {
    const trace = traces.get(load);
    checkTotals(load, traces, report);
    load.pans.forEach((_, index) => checkCooled(day, load, index, traces, report));
    if (load.oven?.cycle.kind === "fixed") checkNothingPredicted(load, report);
    if (trace === undefined) continue;
    checkChamber(day, load, trace, report);
    load.pans.forEach((_, index) => checkMetal(day, load, index, trace, report));
    if (!load.isFact) checkSlack(load, trace, report);
    checkCurve(load, trace, report);
  }
}

interface Figure {
  readonly path: string;
  readonly name: string;
  readonly said: number | null;
  readonly found: number;
  readonly allowed: number;
}

function checkFigure({ path, name, said, found, allowed }: Figure, report: Report): void {
  if (said !== null && !apart(said, found, allowed)) return;
  const saidText = said === null ? "nothing" : figure(said);
  report({
    rule: "said",
    path,
    message: `${name} is said to be ${saidText}, found ${figure(found)}.`,
    said: said ?? "nothing",
    found,
  });
}

function checkTotals(load: Load, traces: Traces, report: Report): void {
  const { said, path } = load;
  const of = (what: string): string => `${what} of ${loadName(load)}`;
  const massKg = massOf(load.pans);
  const solvent = solventOf(load);
  const gasKWh = loadGasKWh(load, traces) ?? said.gasKWh;
  const figures: readonly Figure[] = [
    {
      path: `${path}.massKg`,
      name: of("Mass"),
      said: said.massKg,
      found: massKg,
      allowed: tolerance.massKg,
    },
    {
      path: `${path}.solventMl`,
      name: of("Solvent"),
      said: said.solventMl,
      found: solvent,
      allowed: tolerance.solventMl,
    },
    {
      path: `${path}.gasKWh`,
      name: of("Gas"),
      said: said.gasKWh,
      found: gasKWh,
      allowed: gasTolerance(gasKWh),
    },
  ];
  for (const one of figures) checkFigure(one, report);
}

function checkCooled(day: DayView, load: Load, index: number, traces: Traces, report: Report): void {
  const pan = load.pans[index];
  if (pan?.line === undefined) return;
  if (load.oven?.cycle.kind === "thermal" && !traces.has(load)) return;
  const cooling = coolingOf(day, load, index, traces);
  const found = load.done + cooling.minutes;
  const said = day.clock.minutes(pan.said.cooledAt);
  if (!apart(said, found, Math.max(cooling.leewayMinutes, tolerance.instantMinutes))) return;
  report({
    rule: "said",
    path: `${pan.path}.cooledAt`,
    message: `${pieceName(pan.key)} is said to be cool at ${day.clock.show(said)}, found ${day.clock.show(found)}.`,
    said: day.clock.show(said),
    found: day.clock.show(found),
  });
}

function checkChamber(day: DayView, load: Load, trace: Trace, report: Report): void {
  checkFigure(
    {
      path: `${load.path}.chamberStartC`,
      name: `Chamber at the door opening of ${loadName(load)}`,
      said: load.said.chamberStartC,
      found: trace.chamberStartC,
      allowed: tolerance.temperatureC,
    },
    report,
  );
  const { setPointC } = trace.times;
  const missC = setPointC - trace.burnerOnChamberC;
  const roseTo = missC > 0 ? trace.reachedMinute : null;
  const mayBeEither =
    Math.abs(missC) <= tolerance.temperatureC || Math.abs(trace.hottestBurningC - setPointC) <= tolerance.temperatureC;
  checkInstant(
    day,
    {
      path: `${load.path}.setPointAt`,
      name: `${loadName(load)}: the set-point`,
      said: load.said.setPointAt,
      found: roseTo,
      mayBeNull: missC <= tolerance.temperatureC || (mayBeEither && roseTo === null),
      origin: load.closes,
      stateAt: (minute) => stateAt(trace, 0, minute),
      level: setPointC,
    },
    report,
  );
}

function checkMetal(day: DayView, load: Load, index: number, trace: Trace, report: Report): void {
  const pan = load.pans[index];
  const cycle = load.oven?.cycle;
  if (pan?.line === undefined || pan.coat === undefined || cycle?.kind !== "thermal") return;
  const lowC = pan.coat.bake.metalLowC;
  if (lowC === null) return;
  const { said, path } = pan;
  const of = (what: string): string => `${what} of ${pieceName(pan.key)}`;
  const level = lowC + cycle.guardC;
  const soak = trace.nominal.guardedSoakMinutes[index] ?? 0;
  const peak = trace.nominal.peakC[index] ?? 0;
  const soakFigure = {
    path: `${path}.soakMinutes`,
    name: of("Soak"),
    said: said.soakMinutes,
    found: soak,
    allowed: tolerance.soakMinutes + minutesAlong(trace, index + 1, level),
  };
  checkFigure(soakFigure, report);
  const peakFigure = {
    path: `${path}.peakC`,
    name: of("Peak"),
    said: said.peakC,
    found: peak,
    allowed: tolerance.temperatureC,
  };
  checkFigure(peakFigure, report);
  checkInstant(
    day,
    {
      path: `${path}.inWindowAt`,
      name: `${pieceName(pan.key)}: the window`,
      said: said.inWindowAt,
      found: trace.inWindowMinutes[index] ?? null,
      mayBeNull: peak < level + tolerance.temperatureC,
      origin: load.closes,
      stateAt: (minute) => stateAt(trace, index + 1, minute),
      level,
    },
    report,
  );
}

/** Metal that comes down to its level without end, or creeps up to it, is above it or not by rounding alone, K. */
const alongK = 0.05;

function minutesAlong({ minuteStates }: Trace, index: number, level: number): number {
  return minuteStates.filter((state) => Math.abs((state[index] ?? Infinity) - level) <= alongK).length;
}

function checkSlack(load: Load, trace: Trace, report: Report): void {
  const said = load.said.slackMinutes;
  const cycle = load.oven?.cycle;
  if (cycle?.kind !== "thermal" || load.said.kind !== "bake") return;
  const { least, most } = slackRange(load, trace, cycle);
  if (said !== null && said >= least && said <= most) return;
  report({
    rule: "said",
    path: `${load.path}.slackMinutes`,
    message: `${loadName(load)} is said to leave ${said === null ? "no" : figure(said)} min of slack, found ${least} to ${most}.`,
    said: said ?? "nothing",
    found: most,
  });
}
