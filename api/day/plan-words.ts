/** What a plan has to say in words: why late, why left over, what to mind about the gas. Called by from-solver.ts. */
import type { PlanFile } from "../contract/plan.ts";
import { reasonSentence } from "../contract/words.ts";
import type { reasonSentences } from "../contract/words.ts";
import type { FiringPlan, PlanRequest, Reason, ReasonCode } from "../../solver/index.ts";
import type { DayClock } from "./origin.ts";

type Load = FiringPlan["loads"][number];

/** Instants among the numbers (`untilMinute`) gain a clock time under the same name without the unit (`until`). */
function sentence(reason: Reason, clock: DayClock): string {
  const times = Object.entries(reason.numbers).flatMap(([key, value]) =>
    key.endsWith("Minute") && typeof value === "number"
      ? [[key.slice(0, -"Minute".length), clockTime(value, clock)]]
      : [],
  );
  const said: { code: keyof typeof reasonSentences; numbers: Reason["numbers"] } = {
    code: reason.code satisfies ReasonCode,
    numbers: { ...reason.numbers, ...(Object.fromEntries(times) as Record<string, string>) },
  };
  return reasonSentence(said);
}

function clockTime(minute: number, clock: DayClock): string {
  const [date, time] = clock.toInstant(minute).split("T");
  const today = clock.toInstant(0).split("T")[0];
  const hour = time?.slice(0, 5) ?? "";
  return date === today ? hour : `${date} ${hour}`;
}

export function leftOverWords(reason: Reason, clock: DayClock): string {
  return sentence(reason, clock);
}

/** Null where the ticket is in time; else why a pan of it is left over, or what its last pan waits for. */
export function ticketWords(
  request: PlanRequest,
  plan: FiringPlan,
  ticket: FiringPlan["tickets"][number],
  ids: readonly string[],
  clock: DayClock,
): string | null {
  if (ticket.lateMinutes <= 0) return null;
  const lines = new Set(request.lines.flatMap((line, i) => (line.ticket === ticket.ticket ? [i] : [])));
  const left = plan.leftOver.find(({ line }) => lines.has(line));
  if (left) return `${request.lines[left.line]?.id} is left over: ${sentence(left.reason, clock)}`;
  if (ticket.promised !== null && ticket.promised < request.planFromMinute)
    return "the promise was over before planning started";
  const last = lastBake(plan.loads, lines);
  if (!last) return null;
  const until = clockTime(minuteUp(ticket.ready), clock);
  return `its last bake, ${ids[last.index]}, is out at ${clockTime(last.done, clock)}; cooling and the work after it last until ${until}`;
}

/** What is ready within a minute is ready when that minute is over; an instant is written to the second, as the page reads it. */
function minuteUp(minute: number): number {
  return Math.ceil(Math.round(minute * 60) / 60);
}

function lastBake(loads: readonly Load[], lines: ReadonlySet<number>): { index: number; done: number } | undefined {
  return loads
    .flatMap((load, index) => (load.pans.some(({ line }) => lines.has(line)) ? [{ index, done: load.done }] : []))
    .toSorted((a, b) => b.done - a.done)[0];
}

/** What the bottle can hold and give. Late tickets carry their reason themselves. */
export function warningsOf(
  request: PlanRequest,
  plan: FiringPlan,
  ids: readonly string[],
  clock: DayClock,
): PlanFile["warnings"] {
  const reasons = [bottleShort(request, plan, ids), drawOff(request, plan)].filter((one) => one !== undefined);
  return reasons.map((reason) => ({ code: reason.code, message: sentence(reason, clock) }));
}

/** Fired loads took their gas before the bottle was looked at. */
function bottleShort({ gas }: PlanRequest, { loads }: FiringPlan, ids: readonly string[]): Reason | undefined {
  if (gas.unitsLeft === null) return undefined;
  const leftKWh = gas.unitsLeft * gas.grossKWhPerUnit;
  let kWh = 0;
  let load: string | undefined;
  loads.forEach((one, i) => {
    if (one.state === "fired") return;
    kWh += one.gasKWh;
    if (kWh > leftKWh) load ??= ids[i];
  });
  return load === undefined ? undefined : { code: "bottle-short", numbers: { kWh, leftKWh, load } };
}

/** The most that burners lit at the same time can draw; a burner lit at all may have to give its full fire. */
function drawOff(request: PlanRequest, { loads }: FiringPlan): Reason | undefined {
  const { maxDrawKW } = request.gas;
  if (maxDrawKW === null) return undefined;
  const lit = loads.flatMap((load) => (load.state === "fired" ? [] : [burning(request, load)]));
  const drawn = lit.map(({ from }) => ({
    from,
    drawKW: lit.reduce((sum, one) => sum + (one.from <= from && from < one.to ? one.kW : 0), 0),
  }));
  const worst = drawn.toSorted((a, b) => b.drawKW - a.drawKW || a.from - b.from)[0];
  if (!worst || worst.drawKW <= maxDrawKW) return undefined;
  return { code: "draw-off", numbers: { drawKW: worst.drawKW, maxDrawKW, fromMinute: worst.from } };
}

function burning(
  request: PlanRequest,
  load: Load,
): { readonly from: number; readonly to: number; readonly kW: number } {
  const cycle = request.ovens[load.oven]?.cycle;
  const kW = cycle?.kind === "thermal" ? cycle.burnerKW : (cycle?.gasKW ?? 0);
  return { from: load.burnerOn ?? load.doorCloses, to: load.burnerOff ?? load.unload, kW };
}
