/**
 * The habits that the plan's gas is compared with, fired afresh. Each bakes exactly the coats of the plan, each coat in
 * the oven that the plan gave it, back to back from the chamber of that oven's first door opening; it fires no clean
 * burns and no preheats. Only "one pan per firing" is worked out whole: how many pans "ticket order" finds room for is
 * left to whoever packs the shelves, so that habit is held between bounds.
 */
import type { DayCoat, DayOven } from "../contract/day.ts";
import { loadGasKWh } from "./cost.ts";
import type { DayView, Line } from "./day-view.ts";
import { coatedOrder } from "./habit-order.ts";
import type { ThermalCycle } from "./oven.ts";
import type { Traces } from "./oven-history.ts";
import type { Load, PlanView } from "./plan-view.ts";
import type { Preference, QuickFiring, Reading } from "./quickest.ts";
import { quickestFiring } from "./quickest.ts";

/** One pan in one coat, as the plan bakes it. */
export interface PlanBake {
  readonly line: Line;
  readonly item: number;
  readonly coatNumber: number;
  readonly coat: DayCoat;
  readonly oven: DayOven;
  /** Its share of its load's gas, for a fact that no sound firing repeats. */
  readonly shareKWh: number;
}

export function planBakes(plan: PlanView, traces: Traces): PlanBake[] {
  return plan.loads.flatMap((load) =>
    load.pans.flatMap(({ line, coat, said }) => {
      const { oven } = load;
      if (line === undefined || coat === undefined || oven === undefined) return [];
      const shareKWh = (loadGasKWh(load, traces) ?? load.said.gasKWh) / load.pans.length;
      return [{ line, item: said.item, coatNumber: said.coat, coat, oven, shareKWh }];
    }),
  );
}

/** Chamber temperatures this near share an answer, K; half of it is worth about 0.1 % of a firing's gas. */
const bucketK = 0.5;
/** A chamber too hot for any sound firing is let down in such steps, K; the definition of the habits does not say how far. */
const coolerK = 5;

export interface Planned {
  readonly plan: PlanView;
  readonly traces: Traces;
  readonly bakes: readonly PlanBake[];
}

export interface HabitGas {
  readonly kWh: number;
  /** Gas for the heat that a firing which had to wait for a cooler chamber may have left or not. */
  readonly unsettledKWh: number;
}

/** What the definition of the habits, and arithmetic, leave open. */
export interface Taken {
  readonly preference: Preference;
  readonly reading: Reading;
}

/** "One pan per firing": pan by pan in ticket order, coat by coat. */
export function onePanGas(day: DayView, { plan, traces, bakes }: Planned, taken: Taken): HabitGas {
  const chamberC = new Map(day.day.ovens.map(({ id }) => [id, firstChamberC(day, plan, id, traces)]));
  const known = new Map<string, QuickFiring | undefined>();
  let kWh = 0;
  let unsettledKWh = 0;
  for (const bake of coatedOrder(day, bakes)) {
    const { cycle, id } = bake.oven;
    if (cycle.kind === "fixed") {
      kWh += (cycle.gasKW * (bake.coat.bake.cycleMinutes ?? 0)) / 60;
      continue;
    }
    const startC = Math.min(chamberC.get(id) ?? day.day.ambientC, cycle.doorLimitC);
    const { fired, fromC } = quickFrom(day, { bake, cycle, startC, known, taken });
    kWh += fired?.gasKWh ?? bake.shareKWh;
    if (fromC < startC) unsettledKWh += unsettledBy(cycle, (fired?.chamberDoneC ?? startC) - day.day.ambientC);
    if (fired !== undefined) chamberC.set(id, fired.chamberDoneC);
  }
  return { kWh, unsettledKWh };
}

/**
 * A chamber that had to be let down may have been so a step more or less, and the pan then baked on what heat was left, in a way that
 * another planner need not have looked at: whatever chamber that leaves is heated up next.
 */
function unsettledBy({ heatCapacityKJPerK, efficiency }: ThermalCycle, leftK: number): number {
  return (heatCapacityKJPerK * Math.max(coolerK, leftK)) / efficiency / 3600;
}

function firstChamberC(day: DayView, plan: PlanView, oven: string, traces: Traces): number {
  const first = plan.loads
    .filter(({ said }) => said.oven === oven)
    .reduce<Load | undefined>((one, other) => (one === undefined || other.opens < one.opens ? other : one), undefined);
  return (first && traces.get(first)?.chamberStartC) ?? day.day.ambientC;
}

interface HabitFiring {
  readonly bake: PlanBake;
  readonly cycle: ThermalCycle;
  readonly startC: number;
  readonly known: Map<string, QuickFiring | undefined>;
  readonly taken: Taken;
}

/** The quickest firing from this chamber, or from the nearest cooler one that has any. */
function quickFrom(
  day: DayView,
  { bake, cycle, startC, known, taken }: HabitFiring,
): { readonly fired: QuickFiring | undefined; readonly fromC: number } {
  const { ambientC } = day.day;
  for (let fromC = startC; ; fromC = Math.max(ambientC, fromC - coolerK)) {
    const bucket = Math.round(fromC / bucketK);
    const key = [bucket, bake.oven.id, bake.coatNumber, likeness(bake.line)].join("|");
    if (!known.has(key)) {
      const pan = {
        cycle,
        ambientC,
        line: bake.line,
        coat: bake.coat,
        offsetsC: offsetsFor(bake.line, bake.oven),
        ofEquallyQuick: taken.preference,
        reading: taken.reading,
      };
      known.set(key, quickestFiring(pan, bucket * bucketK));
    }
    const fired = known.get(key);
    if (fired !== undefined || !(fromC > ambientC)) return { fired, fromC };
  }
}

/** Lines that are alike to an oven are fired alike. */
function likeness({ pan }: Line): string {
  const { coating, shape, heightCm, massKg, material, metalLimitC } = pan;
  return JSON.stringify([coating, shape, heightCm, massKg, material, metalLimitC]);
}

/** Offsets of the shelves that take the pan by height, mass and outline, °C. */
function offsetsFor(line: Line, oven: DayOven): number[] {
  const { space } = oven;
  if (space.kind === "area") return [0];
  const { shape, heightCm, massKg } = line.pan;
  if (shape.kind === "area") return [];
  const [width, depth] = shape.kind === "disc" ? [shape.diameterCm, shape.diameterCm] : [shape.widthCm, shape.depthCm];
  const gaps = 2 * space.gapCm - 0.01;
  return space.shelves
    .filter((shelf) => {
      const fits = (w: number, d: number): boolean => w + gaps <= shelf.widthCm && d + gaps <= shelf.depthCm;
      const stands = heightCm <= shelf.clearHeightCm + 0.01 && massKg <= (shelf.maxKg ?? Infinity);
      return stands && (fits(width, depth) || fits(depth, width));
    })
    .map(({ offsetC }) => offsetC);
}
