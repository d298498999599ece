/** Follows every oven through its firings, from its first known chamber temperature to its last door. */
import type { DayCoat } from "../contract/day.ts";
import type { DayView, Line } from "./day-view.ts";
import type { Report } from "./fault.ts";
import type { FiringTimes, Trace } from "./firing.ts";
import { decayed, firingCanBeFollowed, followFiring } from "./firing.ts";
import type { Metal, ThermalCycle } from "./oven.ts";
import type { Load, PlanView } from "./plan-view.ts";
import { loadsOfOven } from "./plan-view.ts";

/** What the checker found for the loads of ovens with a thermal cycle. */
export type Traces = ReadonlyMap<Load, Trace>;

/** Follows each oven; a load whose times make no firing is a fault, and the rest of its oven is left out. */
export function followOvens(day: DayView, plan: PlanView, report: Report): Traces {
  const traces = new Map<Load, Trace>();
  for (const oven of day.day.ovens) {
    if (oven.cycle.kind !== "thermal") continue;
    followOven({ day, cycle: oven.cycle, loads: loadsOfOven(plan, oven.id), traces, report });
  }
  return traces;
}

interface OvenToFollow {
  readonly day: DayView;
  readonly cycle: ThermalCycle;
  readonly loads: readonly Load[];
  readonly traces: Map<Load, Trace>;
  readonly report: Report;
}

function followOven({ day, cycle, loads, traces, report }: OvenToFollow): void {
  let chamberC = cycle.startC ?? day.day.ambientC;
  let free = loads[0]?.isFact ? loads[0].opens : day.planFrom;
  for (const load of loads) {
    const times = firingTimes(load, cycle);
    if (times === undefined || !firingCanBeFollowed(times)) {
      report({
        rule: "5 firing",
        path: load.path,
        message: `Load ${load.said.id} cannot be followed: it needs a set-point, a burner on and off, and instants in order.`,
      });
      return;
    }
    const startC = chamberAtOpening(day, cycle, { chamberC, free, opens: load.opens, vent: load.said.ventMinutes });
    const oven = { cycle, ambientC: day.day.ambientC, stepSeconds: day.stepSeconds };
    const trace = followFiring(oven, metalsOf(load, cycle), times, startC);
    traces.set(load, trace);
    chamberC = trace.chamberDoneC;
    free = load.done;
  }
}

/** Wall loss only, and the fan as well in the last `vent` minutes. */
function chamberAtOpening(
  day: DayView,
  cycle: ThermalCycle,
  idle: { readonly chamberC: number; readonly free: number; readonly opens: number; readonly vent: number },
): number {
  const { ambientC } = day.day;
  const minutes = Math.max(0, idle.opens - idle.free);
  const vent = Math.min(Math.max(0, idle.vent), minutes);
  const fall = (fromC: number, span: number, wattPerK: number): number =>
    decayed(ambientC, fromC, (span * 60 * wattPerK) / (cycle.heatCapacityKJPerK * 1000));
  const shutC = fall(idle.chamberC, minutes - vent, cycle.wallLossWPerK);
  return fall(shutC, vent, cycle.wallLossWPerK + cycle.coastExhaustWPerK);
}

function firingTimes(load: Load, cycle: ThermalCycle): FiringTimes | undefined {
  const { setPointC, kind } = load.said;
  if (setPointC === null || load.burnerOn === null || load.burnerOff === null) return undefined;
  return {
    loadMinutes: kind === "bake" ? cycle.loadMinutes : 0,
    burnerOnMinute: load.burnerOn - load.closes,
    burnerOffMinute: load.burnerOff - load.closes,
    unloadMinute: load.unload - load.closes,
    unloadMinutes: kind === "bake" ? cycle.unloadMinutes : 0,
    setPointC,
  };
}

/** The metals of a load; pans the day does not know carry no heat. */
function metalsOf(load: Load, cycle: ThermalCycle): Metal[] {
  return load.pans.map((pan) => {
    const shelves = load.oven?.space.kind === "shelves" ? load.oven.space.shelves : [];
    const offsetC = shelves.find(({ id }) => id === pan.said.shelf)?.offsetC ?? 0;
    return metalOf(pan.line, pan.coat, cycle, offsetC);
  });
}

/** A pan in one coat on a shelf of that offset. Exchange area is the coated area of both sides. */
export function metalOf(
  line: Line | undefined,
  coat: DayCoat | undefined,
  cycle: ThermalCycle,
  offsetC: number,
): Metal {
  const lowC = coat?.bake.metalLowC ?? Infinity;
  const heatJPerK = line?.heatJPerK ?? Number.NaN;
  const known = heatJPerK > 0;
  return {
    filmWPerK: known ? cycle.filmWPerM2K * 2 * (line?.coatedM2 ?? 0) : 0,
    heatJPerK: known ? heatJPerK : 1,
    offsetC,
    guardedLowC: lowC + cycle.guardC,
    lowC,
  };
}

/** Minutes from `doneAt` until a pan may be handled, and how far two integrations may differ in it. */
export interface Cooling {
  readonly minutes: number;
  readonly leewayMinutes: number;
}

/** t = m·cp/(hc·A) · ln((T − Tr)/(handleAtC − Tr)), not below 0; none in a fixed cycle. */
export function coolingOf(day: DayView, load: Load, panIndex: number, traces: Traces): Cooling {
  const none = { minutes: 0, leewayMinutes: 0 };
  const line = load.pans[panIndex]?.line;
  const metalC = traces.get(load)?.nominal.unloadMetalC[panIndex];
  if (line === undefined || metalC === undefined) return none;
  const { handleAtC, coolFilmWPerM2K } = day.day.booth;
  const { ambientC } = day.day;
  const tauMinutes = line.heatJPerK / (coolFilmWPerM2K * 2 * line.coatedM2) / 60;
  const minutesFrom = (fromC: number): number => {
    if (!(fromC > handleAtC)) return 0;
    return handleAtC > ambientC ? tauMinutes * Math.log((fromC - ambientC) / (handleAtC - ambientC)) : Infinity;
  };
  const minutes = minutesFrom(metalC);
  const leewayMinutes = 0.25 + Math.max(0, minutesFrom(metalC + 0.5) - minutes || 0);
  return { minutes, leewayMinutes };
}
