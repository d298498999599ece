/** An oven's figures from firings of a day's pans as they were logged at it. */
import type { PlanRequest, ThermalCycle } from "../shop.ts";
import { bodyOf } from "./body.ts";
import type { Calibration, Residual } from "./calibrate.ts";
import { calibrate, residualsOf } from "./calibrate.ts";
import type { FiringDecision } from "./firing.ts";
import type { FiringLog, Reading } from "./firing-log.ts";
import type { Member } from "./members.ts";

export interface LoggedReading extends Reading {
  /** Whose metal was read: an index into the firing's pans; null where none was. */
  readonly pan: number | null;
}

/** Pans are indices of the request's lines, on shelves with those offsets. */
export interface LoggedFiring {
  readonly request: PlanRequest;
  readonly pans: readonly { readonly line: number; readonly offsetC: number }[];
  readonly chamberAtOpenC: number;
  readonly decision: FiringDecision;
  readonly readings: readonly LoggedReading[];
}

export interface OvenCalibration {
  readonly before: Residual;
  readonly after: Calibration;
}

export function calibrateOven(cycle: ThermalCycle, firings: readonly LoggedFiring[]): OvenCalibration {
  const logs = firings.flatMap(logsOf);
  return { before: residualsOf(cycle, logs), after: calibrate(cycle, logs) };
}

/** A log follows one piece: each further piece that was measured makes a log of its own, with nothing counted twice. */
function logsOf({ request, pans, chamberAtOpenC, decision, readings }: LoggedFiring): FiringLog[] {
  const keys = pans.map(({ line, offsetC }) => `${line}/${offsetC}`);
  const distinct = [...new Set(keys)];
  const members = distinct.map((key) =>
    memberOf(request, pans[keys.indexOf(key)]!, keys.filter((one) => one === key).length),
  );
  const memberRead = ({ pan }: LoggedReading): number | null => (pan === null ? null : distinct.indexOf(keys[pan]!));
  const followed = [...new Set(readings.flatMap((reading) => memberRead(reading) ?? []))];
  const base = { ambientC: request.ambientC, members, chamberAtOpenC, decision };
  const first = followed[0] ?? null;
  const whole = readings.map((one) => ({ ...one, metalC: memberRead(one) === first ? one.metalC : null }));
  const others = followed.slice(1).map((member) => ({
    ...base,
    followed: member,
    readings: readings
      .filter((one) => memberRead(one) === member)
      .map((one) => ({ ...one, chamberC: null, gasKWh: null })),
  }));
  return [{ ...base, followed: first, readings: whole }, ...others];
}

/** Windows say nothing about how an oven heats. */
function memberOf(request: PlanRequest, { line, offsetC }: LoggedFiring["pans"][number], count: number): Member {
  const window = { lowC: 0, highC: 10_000, soakLeastMinutes: 0, soakMostMinutes: 100_000 };
  return { count, body: bodyOf(request.lines[line]!), offsetC, ...window };
}
