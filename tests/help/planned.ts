/** Plans a day file as the command line does: read, planned by steps, checked. Throws where any of that fails. */
import type { Day, DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { planDay } from "../../api/planning/plan-day.ts";
import type { DayProgress } from "../../api/planning/plan-day.ts";

export interface Planned {
  readonly day: Day;
  /** The checker found no fault in it. */
  readonly plan: PlanFile;
  /** Cost of each plan on the way, the careful hand's first. */
  readonly costs: readonly number[];
  readonly bounds: readonly number[];
}

export function validDay(file: DayFile): Day {
  const read = readDay(file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.day;
}

export async function planned(file: DayFile, steps: number, seed = 1): Promise<Planned> {
  const day = validDay(file);
  const seen: DayProgress[] = [];
  const still = { seed, steps, seconds: null, gapPercent: 0, clock: { now: () => 0 }, secondsNow: () => 0 };
  const { plan } = await planDay(day, still, (progress) => seen.push(progress));
  return { day, plan, costs: seen.map(({ cost }) => cost), bounds: seen.map(({ bound }) => bound) };
}
