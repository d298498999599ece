/** The cost of the plan, part by part, and its gas in all units. */
import type { PieceBakes } from "./bakes.ts";
import type { DayView } from "./day-view.ts";
import { coatsDue, pieceKey, staffedMinutes } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { apart, figure, gasTolerance, moneyTolerance, tolerance } from "./fault.ts";
import type { Traces } from "./oven-history.ts";
import type { Load, PlanView } from "./plan-view.ts";
import type { Ticket } from "./tickets.ts";

/** Gas of one load, kWh gross; undefined where the load could not be followed. */
export function loadGasKWh(load: Load, traces: Traces): number | undefined {
  if (load.oven?.cycle.kind === "fixed") return (load.oven.cycle.gasKW * (load.unload - load.closes)) / 60;
  return traces.get(load)?.gasKWh;
}

export interface Found {
  readonly pieces: readonly PieceBakes[];
  readonly tickets: readonly Ticket[];
  readonly traces: Traces;
}

type Part = Exclude<keyof PlanView["file"]["cost"], "total">;

export function checkCost(day: DayView, plan: PlanView, found: Found, report: Report): void {
  const { cost, gas } = plan.file;
  const late = lateCost(found.tickets);
  const parts: Readonly<Record<Part, number>> = {
    gas: gas.kWh * day.day.prices.gasPerKWh,
    crew: crewCost(day, plan),
    late: late.cost,
    leftOver: leftOverCost(found.pieces),
    moved: movedCost(day, found.pieces),
  };
  const leeway: Partial<Record<Part, number>> = { late: late.leeway };
  const order: readonly Part[] = ["gas", "crew", "late", "leftOver", "moved"];
  for (const part of order) {
    if (!apart(cost[part], parts[part], moneyTolerance(parts[part]) + (leeway[part] ?? 0))) continue;
    report({
      rule: "cost",
      path: `cost.${part}`,
      message: `The plan says ${figure(cost[part])} for ${part}, found ${figure(parts[part])}.`,
      said: cost[part],
      found: parts[part],
    });
  }
  const sum = order.reduce((total, part) => total + cost[part], 0);
  if (apart(cost.total, sum, moneyTolerance(sum)))
    report({
      rule: "cost",
      path: "cost.total",
      message: `The plan says ${figure(cost.total)} in all, its parts make ${figure(sum)}.`,
      said: cost.total,
      found: sum,
    });
  checkGas(day, plan, found.traces, report);
}

/** The crew is paid for staffed time from `planFrom` to the last door shut. */
function crewCost(day: DayView, plan: PlanView): number {
  const lastDone = Math.max(day.planFrom, ...plan.loads.map(({ done }) => done));
  return (staffedMinutes(day, day.planFrom, lastDone) / 60) * day.day.prices.crewPerHour;
}

function lateCost(tickets: readonly Ticket[]): { cost: number; leeway: number } {
  let cost = 0;
  let leeway = 0;
  for (const ticket of tickets) {
    for (const { piece } of ticket.pieces) {
      const { promisedMinute, latePerHour } = piece.line;
      if (promisedMinute === null) continue;
      cost += (Math.max(0, ticket.ready - promisedMinute) / 60) * latePerHour;
      if (ticket.ready > promisedMinute - ticket.leewayMinutes) leeway += (ticket.leewayMinutes / 60) * latePerHour;
    }
  }
  return { cost, leeway };
}

function leftOverCost(pieces: readonly PieceBakes[]): number {
  return pieces.reduce((sum, { piece, missing }) => {
    const due = coatsDue(piece.line);
    return due === 0 ? sum : sum + (piece.line.leftOverCost * missing) / due;
  }, 0);
}

/** Moved: the door of its first bake not yet begun opens more than 15 minutes from before, or there is no such bake. */
const movedMinutes = 15;

function movedCost(day: DayView, pieces: readonly PieceBakes[]): number {
  const byKey = new Map(pieces.map((one) => [one.piece.key, one]));
  const moved = day.day.inForce.filter(({ id, item, doorOpensAt }) => {
    const one = byKey.get(pieceKey(id, item));
    if (one === undefined) return false;
    const first = one.bakes.find(({ load }) => !load.isFact);
    return first === undefined || Math.abs(first.load.opens - day.clock.minutes(doorOpensAt)) > movedMinutes;
  });
  return moved.length * day.day.prices.movePerPan;
}

function checkGas(day: DayView, plan: PlanView, traces: Traces, report: Report): void {
  const { gas } = plan.file;
  const found = plan.loads.reduce((sum, load) => sum + (loadGasKWh(load, traces) ?? load.said.gasKWh), 0);
  const { grossKWhPerUnit, kgCO2ePerKWh, unit } = day.day.gas;
  const figures = [
    ["kWh", gas.kWh, found, gasTolerance(found)],
    [
      "units",
      gas.units,
      gas.kWh / grossKWhPerUnit,
      tolerance.gasKWh + (tolerance.gasShare * gas.kWh) / grossKWhPerUnit,
    ],
    ["kgCO2e", gas.kgCO2e, gas.kWh * kgCO2ePerKWh, tolerance.gasKWh + tolerance.gasShare * gas.kWh * kgCO2ePerKWh],
  ] as const;
  for (const [field, said, value, allowed] of figures) {
    if (!apart(said, value, allowed)) continue;
    report({
      rule: "gas",
      path: `gas.${field}`,
      message: `The plan says ${figure(said)} ${field} of gas, found ${figure(value)}.`,
      said,
      found: value,
    });
  }
  if (gas.unit !== unit)
    report({
      rule: "gas",
      path: "gas.unit",
      message: `The plan counts gas in ${gas.unit}, the day in ${unit}.`,
      said: gas.unit,
      found: unit,
    });
}
