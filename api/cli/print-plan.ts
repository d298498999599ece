/** A plan as text for the terminal: what to do next first, then who is late, the firings, bench, booth, tickets and gas. */
import type { Day } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";
import { order } from "./hands.ts";
import { figure, plural, wrap } from "./lines.ts";
import { plain } from "./paint.ts";
import type { Paint } from "./paint.ts";
import { printed } from "./plan-words.ts";
import type { Printed } from "./plan-words.ts";
import { costLine, gasLines, goodnessLine } from "./print-gas.ts";
import { benchLines, boothLines } from "./print-hands.ts";
import { loadLines } from "./print-loads.ts";
import { nextLines } from "./print-next.ts";
import { lateLines, leftOverLines, ticketLines } from "./print-tickets.ts";

/** Lines of at most 100 columns, safe in black and white. `plan` is a plan of `day`. */
export function printPlan(day: Day, plan: PlanFile, paint: Paint = plain): string[] {
  const all = printed(day, plan);
  const late = lateLines(all).map(paint.alarm);
  const left = leftOverLines(all).map(paint.alarm);
  return [
    ...headLines(all, paint),
    ...section(paint, "NEXT", nextLines(all)),
    ...section(paint, "LATE", late),
    ...section(paint, "LEFT OVER", left),
    ...section(paint, "MIND", mindLines(plan).map(paint.alarm)),
    ...section(
      paint,
      `FIRINGS${placesNote(all)}`,
      plan.loads.flatMap((load) => loadLines(all, load)),
    ),
    ...section(paint, "BENCH", benchLines(all)),
    ...section(paint, "BOOTH", boothLines(all)),
    ...section(paint, "TICKETS READY", ticketLines(all)),
    ...section(paint, "GAS", gasLines(all)),
    ...section(
      paint,
      "COST",
      [costLine(all), goodnessLine(all)].flatMap((text) => wrap(text, "  ", "    ")),
    ),
    ...section(
      paint,
      "CAUTIONS",
      plan.cautions.flatMap((text) => wrap(text, "  - ", "    ")),
    ),
  ];
}

function section(paint: Paint, heading: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ["", paint.heading(heading), ...lines];
}

function headLines(all: Printed, paint: Paint): string[] {
  const { day, clock } = all;
  const title = day.title === "" ? "Firing plan" : day.title;
  return [
    ...wrap(title).map(paint.heading),
    ...wrap(`${clock.firstDay}, from ${clock.time(all.from)}; times of ${day.timeZone}`),
    ...wrap(summary(all)),
  ];
}

function summary({ day, plan, clock }: Printed): string {
  const coats = plan.loads.reduce((sum, load) => sum + load.pans.length, 0);
  const pans = day.pans.reduce((sum, { quantity }) => sum + quantity, 0);
  const last = plan.loads
    .map(({ doneAt }) => doneAt)
    .toSorted(order)
    .at(-1);
  const out = last === undefined ? "" : `, the last out at ${clock.time(last)}`;
  const late = plan.tickets.filter(({ lateMinutes }) => lateMinutes > 0).length;
  const left = plan.leftOver.length;
  return [
    `${plural(pans, "pan")}, ${plural(coats, "coat")} baked in ${plural(plan.loads.length, "firing")}${out}.`,
    late === 0 ? "Nobody is late." : `${plural(late, "ticket")} late.`,
    ...(left > 0 ? [`${plural(left, "pan")} left over.`] : []),
    `Gas ${figure(plan.gas.kWh)} kWh = ${figure(plan.gas.units)} ${plan.gas.unit}.`,
  ].join(" ");
}

function mindLines(plan: PlanFile): string[] {
  return plan.warnings.flatMap(({ message }) => wrap(message, "  - ", "    "));
}

function placesNote({ plan }: Printed): string {
  const placed = plan.loads.some((load) => load.pans.some(({ xCm }) => xCm !== null));
  return placed ? " (warm shelf to cool; places in cm from the left and the front edge to the pan's middle)" : "";
}
