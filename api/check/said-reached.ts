/** Instants at which the plan says that a temperature is reached, held against the checker's own trace. */
import type { DayView } from "./day-view.ts";
import { apart, tolerance } from "./fault.ts";
import type { Report } from "./fault.ts";
import type { Trace } from "./firing.ts";

interface InstantSaid {
  readonly path: string;
  readonly name: string;
  readonly said: string | null;
  /** Minute from door closing; null where it is never reached. */
  readonly found: number | null;
  readonly mayBeNull: boolean;
  readonly origin: number;
  readonly stateAt: (minute: number) => number | undefined;
  readonly level: number;
}

/** An instant of reaching a temperature agrees where it lies near enough in time or the temperature is met near enough. */
export function checkInstant(day: DayView, one: InstantSaid, report: Report): void {
  if (one.said === null && (one.found === null || one.mayBeNull)) return;
  const minute = one.said === null ? null : day.clock.minutes(one.said) - one.origin;
  if (minute !== null) {
    if (one.found !== null && !apart(minute, one.found, tolerance.instantMinutes)) return;
    const metC = one.stateAt(minute);
    if (metC !== undefined && !apart(metC, one.level, tolerance.temperatureC)) return;
  }
  const show = (at: number | null): string => (at === null ? "never" : day.clock.show(one.origin + at));
  report({
    rule: "said",
    path: one.path,
    message: `${one.name} is said to be reached at ${show(minute)}, found ${show(one.found)}.`,
    said: show(minute),
    found: show(one.found),
  });
}

/** Temperature between the whole minutes of the trace; undefined outside it. */
export function stateAt(trace: Trace, index: number, minute: number): number | undefined {
  const before = trace.minuteStates[Math.floor(minute)]?.[index];
  const after = trace.minuteStates[Math.ceil(minute)]?.[index];
  if (before === undefined || after === undefined) return undefined;
  return before + (after - before) * (minute - Math.floor(minute));
}
