/** Gas, what grouping saved against the two habits, what everything costs, and how good the plan is. */
import type { PlanFile } from "../contract/plan.ts";
import { unpricedText } from "../contract/words.ts";
import { duration, figure, money, plural, wrap } from "./lines.ts";
import type { Printed } from "./plan-words.ts";

export function gasLines({ day, plan }: Printed): string[] {
  const { gas, cost } = plan;
  const coats = plan.loads.reduce((sum, load) => sum + load.pans.length, 0);
  const perCoat = coats > 0 ? `; ${figure(gas.kWh / coats)} kWh per coat baked` : "";
  const own =
    `This plan: ${plural(plan.loads.length, "firing")}, ${figure(gas.kWh)} kWh = ${figure(gas.units)} ${gas.unit}, ` +
    `${money(cost.gas, day.currency)}, ${figure(gas.kgCO2e)} kg CO2e${perCoat}.`;
  return [own, ...gas.comparedWith.map((habit) => habitText(habit, { day, gas }))].flatMap((text) =>
    wrap(text, "  ", "    "),
  );
}

type Habit = PlanFile["gas"]["comparedWith"][number];

function habitText(
  habit: Habit,
  { day, gas }: { readonly day: Printed["day"]; readonly gas: PlanFile["gas"] },
): string {
  const { savedKWh, savedCost } = habit;
  const name = habit.habit === "ticket order" ? "Firing in ticket order" : "One pan per firing";
  const verb = savedKWh >= 0 ? "saved" : "this plan uses more by";
  const share = habit.kWh > 0 ? ` (${figure((100 * Math.abs(savedKWh)) / habit.kWh, 0)} %)` : "";
  const units = figure(Math.abs(savedKWh) / day.gas.grossKWhPerUnit);
  const kgCO2e = figure(Math.abs(savedKWh) * day.gas.kgCO2ePerKWh);
  return (
    `${name}: ${plural(habit.firings, "firing")}, ${figure(habit.kWh)} kWh; ${verb} ${figure(Math.abs(savedKWh))} kWh${share} = ` +
    `${units} ${gas.unit}, ${money(Math.abs(savedCost), day.currency)}, ${kgCO2e} kg CO2e.`
  );
}

export function costLine({ day, plan: { cost } }: Printed): string {
  const parts = (["gas", "crew", "late", "leftOver", "moved"] as const)
    .filter((part) => cost[part] > 0)
    .map((part) => `${part === "leftOver" ? "left over" : part} ${cost[part].toFixed(2)}`);
  const all = `Everything together costs ${money(cost.total, day.currency)}${parts.length > 0 ? `: ${parts.join(", ")}` : ""}.`;
  const unpriced = unpricedText(day);
  return unpriced === null ? all : `${all} ${unpriced}`;
}

const ends = {
  proven: "No plan that keeps the rules is cheaper by more than 0.1 %",
  good: "Stopped when good enough",
  time: "Best found in the time or steps given",
  stopped: "Stopped by you; best found until then",
} as const;

export function goodnessLine({ day, plan }: Printed): string {
  const { search, cost } = plan;
  const time = search.seconds < 60 ? `${figure(search.seconds)} s` : duration(search.seconds / 60);
  const took = `Searched ${time}, with ${plural(search.lpSolves, "linear program")} solved.`;
  if (search.bestPossibleCost <= 0 && cost.total > 0)
    return `${ends[search.status]}; how much cheaper a plan could be is not known. ${took}`;
  return (
    `${ends[search.status]}: at least ${money(search.bestPossibleCost, day.currency)} is unavoidable` +
    `${unavoidableParts(search)}, so at most ${figure(search.gapPercent, 2)} % could still be saved. ${took}`
  );
}

/** What of it is known by parts; the rest may fall on any of them. */
function unavoidableParts({ unavoidable }: PlanFile["search"]): string {
  if (unavoidable === null) return "";
  const parts = (["gas", "crew", "late"] as const)
    .filter((part) => unavoidable[part] >= 0.005)
    .map((part) => `${part} ${unavoidable[part].toFixed(2)}`);
  return parts.length === 0 ? "" : ` (of it ${parts.join(", ")})`;
}
