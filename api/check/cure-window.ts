/** Rule 5 for the pans: soak and peak of every pan with the burner off early and late, and how much later it could be. */
import type { DayCoat } from "../contract/day.ts";
import type { Line } from "./day-view.ts";
import type { Fault, Report } from "./fault.ts";
import { figure, tolerance } from "./fault.ts";
import type { Outcome, Trace } from "./firing.ts";
import type { ThermalCycle } from "./oven.ts";
import type { Traces } from "./oven-history.ts";
import type { Load, LoadPan, PlanView } from "./plan-view.ts";
import { pieceName } from "./words.ts";

/** What the metal of one pan must meet. */
export interface Window {
  /** The metal must get there at least, °C: metalLowC + guardC. */
  readonly arriveC: number;
  readonly soakLeastMinutes: number;
  readonly soakMostMinutes: number;
  /** min(metalHighC, metalLimitC) − guardC. */
  readonly peakMostC: number;
}

/** What need not soak must be in its window for a moment. */
export const arrivalMinutes = 0.05;

/** Undefined where the coat names no metal window, so that it may go only into a fixed cycle. */
export function windowOf(line: Line, coat: DayCoat, cycle: ThermalCycle): Window | undefined {
  const { metalLowC, metalHighC, soakLeastMinutes, soakMostMinutes } = coat.bake;
  if (metalLowC === null || metalHighC === null || soakLeastMinutes === null || soakMostMinutes === null)
    return undefined;
  const peakMostC = Math.min(metalHighC, line.pan.metalLimitC ?? Infinity) - cycle.guardC;
  return { arriveC: metalLowC + cycle.guardC, soakLeastMinutes, soakMostMinutes, peakMostC };
}

export function checkCureWindows(plan: PlanView, traces: Traces, report: Report): void {
  for (const load of plan.loads) {
    if (load.isFact || load.oven === undefined || load.said.kind !== "bake") continue;
    const { cycle } = load.oven;
    for (const [index, pan] of load.pans.entries()) {
      checkCoatOven(load, pan, report);
      if (cycle.kind === "thermal") checkPan(pan, index, cycle, traces.get(load), report);
    }
  }
}

function checkCoatOven(load: Load, pan: LoadPan, report: Report): void {
  const { coat, path, key } = pan;
  if (coat === undefined) return;
  const only = coat.ovens;
  if (only !== null && !only.includes(load.said.oven))
    report({
      rule: "5 window",
      path,
      message: `${pieceName(key)} goes into oven ${load.said.oven}; this coat is baked only in ${only.join(", ")}.`,
      said: load.said.oven,
      found: only.join(", "),
    });
  if (load.oven?.cycle.kind === "fixed" && coat.bake.cycleMinutes === null)
    report({ rule: "5 window", path, message: `${pieceName(key)}: this coat has no cycle time for a fixed cycle.` });
}

function checkPan(pan: LoadPan, index: number, cycle: ThermalCycle, trace: Trace | undefined, report: Report): void {
  if (pan.line === undefined || pan.coat === undefined) return;
  const window = windowOf(pan.line, pan.coat, cycle);
  if (window === undefined) {
    report({
      rule: "5 window",
      path: pan.path,
      message: `${pieceName(pan.key)}: this coat has no metal window for a burner.`,
    });
    return;
  }
  if (trace === undefined) return;
  const early = trace.shifted(-cycle.earlyMinutes);
  const late = trace.shifted(cycle.slackMinutes);
  checkEarlyEnd(
    pan,
    { soak: early.guardedSoakMinutes[index] ?? 0, peakC: early.peakC[index] ?? -Infinity },
    window,
    report,
  );
  checkLateEnd(pan, { soak: late.soakMinutes[index] ?? 0, peakC: late.peakC[index] ?? -Infinity }, window, report);
}

/** What one pan went through: minutes of soak, and its hottest, °C. */
interface Went {
  readonly soak: number;
  readonly peakC: number;
}

function checkEarlyEnd(pan: LoadPan, { soak, peakC }: Went, window: Window, report: Report): void {
  const { arriveC, soakLeastMinutes } = window;
  if (soak < soakLeastMinutes - tolerance.soakMinutes) {
    const words = `soaks ${figure(soak)} min with the burner off early, ${figure(soakLeastMinutes)} min are the least.`;
    report(missed(pan, "soakMinutes", words, soakLeastMinutes, soak));
  } else if (peakC < arriveC - tolerance.temperatureC) {
    const words = `only reaches ${figure(peakC)} °C with the burner off early, ${figure(arriveC)} °C is the least.`;
    report(missed(pan, "peakC", words, arriveC, peakC));
  }
}

function checkLateEnd(pan: LoadPan, { soak, peakC }: Went, window: Window, report: Report): void {
  const { soakMostMinutes, peakMostC } = window;
  if (soak > soakMostMinutes + tolerance.soakMinutes) {
    const words = `soaks ${figure(soak)} min with the burner off late, ${figure(soakMostMinutes)} min are the most.`;
    report(missed(pan, "soakMinutes", words, soakMostMinutes, soak));
  }
  if (peakC > peakMostC + tolerance.temperatureC) {
    const words = `reaches ${figure(peakC)} °C with the burner off late, ${figure(peakMostC)} °C is the most.`;
    report(missed(pan, "peakC", words, peakMostC, peakC));
  }
}

function missed({ path, key }: LoadPan, field: string, words: string, said: number, found: number): Fault {
  return { rule: "5 window", path: `${path}.${field}`, message: `${pieceName(key)} ${words}`, said, found };
}

/** True where no pan has soaked too long or grown too hot, each limit moved by so much. */
function keepsLateEnd(
  outcome: Outcome,
  windows: readonly (Window | undefined)[],
  moved: { readonly minutes: number; readonly degreesC: number },
): boolean {
  return windows.every(
    (window, index) =>
      window === undefined ||
      ((outcome.soakMinutes[index] ?? 0) <= window.soakMostMinutes + moved.minutes &&
        (outcome.peakC[index] ?? 0) <= window.peakMostC + moved.degreesC),
  );
}

/**
 * The fewest and the most whole minutes of slack another integrator may find: how much later the burner could still go
 * off with every window kept, with the limits drawn in and pushed out by what two integrations may differ.
 */
export function slackRange(load: Load, trace: Trace, cycle: ThermalCycle): { least: number; most: number } {
  const windows = load.pans.map(({ line, coat }) => line && coat && windowOf(line, coat, cycle));
  const { soakMinutes, temperatureC } = tolerance;
  const tight = { minutes: -soakMinutes, degreesC: -temperatureC };
  const loose = { minutes: soakMinutes, degreesC: temperatureC };
  let least = 0;
  let most = 0;
  for (let later = 1; later <= longestSlackMinutes; later++) {
    const outcome = trace.shifted(later);
    if (!keepsLateEnd(outcome, windows, loose)) break;
    most = later;
    if (least === later - 1 && keepsLateEnd(outcome, windows, tight)) least = later;
  }
  return { least, most: most === longestSlackMinutes ? Infinity : most };
}

/** More makes no difference to anyone, so a plan may stop counting there. */
const longestSlackMinutes = 60;
