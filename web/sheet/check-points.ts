/** When the metal is measured with the infrared thermometer, where to aim, and what it should show. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { millisOf } from "../parts/clock.ts";
import { coatOf, ovenOf } from "../parts/day-lookup.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { movedBy } from "../parts/zone.ts";

export interface CheckPoint {
  readonly what: "slowest" | "fastest";
  /** Whole minute. */
  readonly at: string;
  readonly pan: PlanLoad["pans"][number];
  readonly leastC: number;
  readonly mostC: number;
  /** By the plan, °C. */
  readonly expectedC: number;
}

/**
 * Two looks: at the pan that is in its window last, as soon as it should be; at the pan that gets hottest, when the burner
 * goes off. Empty where the oven has a fixed cycle or the load holds no pan with a window.
 */
export function checkPoints({ day }: Planned, load: PlanLoad): CheckPoint[] {
  const { cycle } = ovenOf(day, load.oven) ?? {};
  if (cycle?.kind !== "thermal" || load.burnerOffAt === null) return [];
  const guardC = cycle.guardC ?? 5;
  const baked = load.pans.flatMap((pan) => {
    const bake = coatOf(day, pan)?.bake;
    const [lowC, highC] = [bake?.metalLowC ?? null, bake?.metalHighC ?? null];
    return pan.inWindowAt === null || lowC === null || highC === null
      ? []
      : [{ pan, at: millisOf(pan.inWindowAt), leastC: lowC + guardC, mostC: highC }];
  });
  const slowest = baked.toSorted((a, b) => b.at - a.at)[0];
  const fastest = baked.toSorted((a, b) => (b.pan.peakC ?? 0) - (a.pan.peakC ?? 0))[0];
  if (slowest === undefined || fastest === undefined) return [];
  const closes = millisOf(load.doorClosesAt);
  const reached = Math.ceil((slowest.at - closes) / 60_000);
  const off = Math.round((millisOf(load.burnerOffAt) - closes) / 60_000);
  const curveAt = (minute: number) => load.curve.find((one) => one.minute === minute);
  const point = ({ pan, leastC, mostC }: (typeof baked)[number]) => ({ pan, leastC, mostC });
  return [
    {
      what: "slowest",
      at: movedBy(day.timeZone, load.doorClosesAt, reached),
      ...point(slowest),
      expectedC: curveAt(reached)?.slowestC ?? slowest.leastC,
    },
    { what: "fastest", at: load.burnerOffAt, ...point(fastest), expectedC: curveAt(off)?.fastestC ?? fastest.mostC },
  ];
}
