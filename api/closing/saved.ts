/** Gas and money saved by grouping: what was fired against the named habits, and the sums of a week and a month. */
import { DateTime } from "luxon";
import type { Day, DayFile } from "../contract/day.ts";
import type { DaySummary, SavedSpans } from "../contract/closed-day.ts";
import { toRequest } from "../day/to-solver.ts";
import { writeInstant } from "../day/instants.ts";
import { firedSavings } from "../../solver/index.ts";
import type { Fired } from "./fired.ts";

type Saved = DaySummary["saved"][number];

/** A lost firing baked nothing, but its gas is gone all the same. */
export function savedBy(day: Day, fired: readonly Fired[]): Saved[] {
  const lines = new Map(day.pans.map((pan, index) => [pan.id, { index, coats: coatsOf(day, pan.coating) }]));
  const loads = fired.flatMap(({ load, state }) => {
    const oven = day.ovens.findIndex(({ id }) => id === load.oven);
    if (oven < 0 || state === "interrupted") return [];
    const pans = load.pans.flatMap(({ id, item, coat }) => {
      const line = lines.get(id);
      return line === undefined || coat > line.coats ? [] : [{ line: line.index, item, coat }];
    });
    return [{ oven, gasKWh: load.gasKWh, chamberStartC: load.chamberStartC, pans }];
  });
  if (loads.every(({ pans }) => pans.length === 0)) return [];
  const gasKWh = fired.reduce((sum, { load }) => sum + load.gasKWh, 0);
  return firedSavings(toRequest(day), loads, gasKWh).map(({ habit, kWh, savedKWh, savedCost }) => ({
    habit,
    habitKWh: kWh,
    savedKWh,
    savedMoney: savedCost,
  }));
}

function coatsOf(day: Day, coating: string): number {
  return day.coatings.find(({ id }) => id === coating)?.coats.length ?? 0;
}

/** A day that is closed, or about to be. */
export interface Counted {
  readonly day: Pick<DayFile, "planFrom" | "timeZone">;
  readonly summary: DaySummary;
}

/** The calendar week (from Monday) and month in which `today` was planned from, in its zone. */
export function savedSpans(today: Counted, before: readonly Counted[]): SavedSpans {
  const zone = today.day.timeZone;
  const startOf = ({ day }: Counted): DateTime => DateTime.fromISO(day.planFrom, { zone: day.timeZone });
  const at = startOf(today);
  const spanOf = (unit: "week" | "month"): SavedSpans["week"] => {
    const [from, to] = [at.startOf(unit), at.endOf(unit)];
    const inside = [...before, today].filter((one) => startOf(one) >= from && startOf(one) <= to);
    const habits = new Map<string, Saved>();
    for (const { summary } of inside)
      for (const saved of summary.saved) habits.set(saved.habit, plus(habits.get(saved.habit), saved));
    return {
      from: writeInstant(from.toMillis(), zone),
      to: writeInstant(Math.floor(to.toMillis() / 1000) * 1000, zone),
      days: inside.length,
      bakes: inside.reduce((sum, { summary }) => sum + summary.bakes, 0),
      gasKWh: inside.reduce((sum, { summary }) => sum + summary.gasKWh, 0),
      saved: [...habits.values()],
    };
  };
  return { week: spanOf("week"), month: spanOf("month") };
}

function plus(one: Saved | undefined, other: Saved): Saved {
  if (one === undefined) return other;
  return {
    habit: one.habit,
    habitKWh: one.habitKWh + other.habitKWh,
    savedKWh: one.savedKWh + other.savedKWh,
    savedMoney: one.savedMoney + other.savedMoney,
  };
}
