/** What the plan says it saves against two habits. */
import type { DayView } from "./day-view.ts";
import type { Report } from "./fault.ts";
import { apart, figure, gasTolerance, moneyTolerance } from "./fault.ts";
import { areaWalk, coatKey, readyOrder } from "./habit-order.ts";
import type { PlanBake, Taken } from "./habits.ts";
import { onePanGas, planBakes } from "./habits.ts";
import type { Traces } from "./oven-history.ts";
import type { PlanView } from "./plan-view.ts";

type Saving = PlanView["file"]["gas"]["comparedWith"][number];

const habits = ["one pan per firing", "ticket order"] as const;

export function checkSavings(day: DayView, plan: PlanView, traces: Traces, report: Report): void {
  const bakes = planBakes(plan, traces);
  const { comparedWith, kWh } = plan.file.gas;
  for (const habit of habits) {
    const said = comparedWith.filter((one) => one.habit === habit);
    if (said.length !== 1)
      report({
        rule: "savings",
        path: "gas.comparedWith",
        message: `The habit "${habit}" is compared ${said.length} times, once is due.`,
        said: said.length,
        found: 1,
      });
  }
  for (const [index, saving] of comparedWith.entries()) {
    const path = `gas.comparedWith[${index}]`;
    checkArithmetic(day, saving, kWh, path, report);
    if (saving.habit === "one pan per firing") checkOnePan(day, { plan, traces, bakes, saving, path }, report);
    else checkTicketOrder(day, { bakes, saving, path }, report);
  }
}

function checkArithmetic(day: DayView, saving: Saving, planKWh: number, path: string, report: Report): void {
  const saved = saving.kWh - planKWh;
  if (apart(saving.savedKWh, saved, gasTolerance(saving.kWh)))
    report(fault(`${path}.savedKWh`, saving, "savedKWh", saving.savedKWh, saved));
  const worth = saving.savedKWh * day.day.prices.gasPerKWh;
  if (apart(saving.savedCost, worth, moneyTolerance(worth)))
    report(fault(`${path}.savedCost`, saving, "savedCost", saving.savedCost, worth));
}

function fault(path: string, saving: Saving, field: string, said: number, found: number): Parameters<Report>[0] {
  const message = `The habit "${saving.habit}" is said to have ${field} ${figure(said)}, found ${figure(found)}.`;
  return { rule: "savings", path, message, said, found };
}

interface OnePan {
  readonly plan: PlanView;
  readonly traces: Traces;
  readonly bakes: readonly PlanBake[];
  readonly saving: Saving;
  readonly path: string;
}

function checkOnePan(day: DayView, { plan, traces, bakes, saving, path }: OnePan, report: Report): void {
  if (saving.firings !== bakes.length)
    report(fault(`${path}.firings`, saving, "firings", saving.firings, bakes.length));
  const planned = { plan, traces, bakes };
  const spare = gasTolerance(saving.kWh) * habitShare + burnerMinuteKWh(day);
  let [least, most] = [Infinity, -Infinity];
  let first: number | undefined;
  for (const taken of waysTaken) {
    const { kWh, unsettledKWh } = onePanGas(day, planned, taken);
    first ??= kWh;
    least = Math.min(least, kWh - spare - unsettledKWh);
    most = Math.max(most, kWh + spare + unsettledKWh);
    if (saving.kWh >= least - 1e-9 && saving.kWh <= most + 1e-9) return;
  }
  report(fault(`${path}.kWh`, saving, "kWh", saving.kWh, first!));
}

/** The likeliest first: the others are worked out only where it is not what was said. */
const waysTaken: readonly Taken[] = (["as is", "easier", "harder"] as const).flatMap((reading) => [
  { preference: "least coasting", reading },
  { preference: "least gas", reading },
]);

/** Two integrations may settle a firing that is all but as quick on another minute, so a habit may be off by more. */
const habitShare = 2;

/** And on a day of few firings by such a minute at full fire, which is more than that share. */
function burnerMinuteKWh(day: DayView): number {
  return Math.max(0, ...day.day.ovens.map(({ cycle }) => (cycle.kind === "thermal" ? cycle.burnerKW / 60 : 0)));
}

/**
 * At least one firing for every oven and coat, and at most one per pan; and at least half the heat that its metal takes
 * up on the way into its window (the rest it may find in a warm chamber). Where only areas count the walk is exact.
 */
function checkTicketOrder(
  day: DayView,
  { bakes, saving, path }: { readonly bakes: readonly PlanBake[]; readonly saving: Saving; readonly path: string },
  report: Report,
): void {
  if (bakes.every(({ oven }) => oven.space.kind === "area")) {
    const found = areaWalk(readyOrder(bakes));
    if (saving.firings !== found.firings)
      report(fault(`${path}.firings`, saving, "firings", saving.firings, found.firings));
    if (apart(saving.kWh, found.kWh, gasTolerance(found.kWh)))
      report(fault(`${path}.kWh`, saving, "kWh", saving.kWh, found.kWh));
    return;
  }
  const least = new Set(bakes.map(coatKey)).size;
  if (!(saving.firings >= least && saving.firings <= bakes.length))
    report({
      rule: "savings",
      path: `${path}.firings`,
      message: `The habit "${saving.habit}" is said to take ${saving.firings} firings, it takes ${least} to ${bakes.length}.`,
      said: saving.firings,
      found: least,
    });
  const leastKWh = leastHabitKWh(day, bakes);
  if (!(saving.kWh >= leastKWh - gasTolerance(leastKWh)))
    report(fault(`${path}.kWh`, saving, "kWh, at the very least,", saving.kWh, leastKWh));
}

function leastHabitKWh(day: DayView, bakes: readonly PlanBake[]): number {
  const cycles = new Map<string, number>();
  let metalKWh = 0;
  for (const bake of bakes) {
    const { cycle } = bake.oven;
    if (cycle.kind === "fixed") cycles.set(coatKey(bake), (cycle.gasKW * (bake.coat.bake.cycleMinutes ?? 0)) / 60);
    else {
      const lowC = bake.coat.bake.metalLowC ?? day.day.ambientC;
      const riseC = Math.max(0, lowC + cycle.guardC - day.day.ambientC);
      metalKWh += (bake.line.heatJPerK * riseC) / cycle.efficiency / 3.6e6;
    }
  }
  return metalKWh / 2 + [...cycles.values()].reduce((sum, one) => sum + one, 0) * (1 - 1e-9);
}
