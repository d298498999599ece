/** Stage 5 of plan.ts: the best sequence written out as a plan, with its cost, its tickets and what is left over. */
import type { DayModel } from "./day/day-model.ts";
import type { Cost, FiringPlan, LeftOver, Load, Proof, TicketReady } from "./firing-plan.ts";
import { savings } from "./gas/savings.ts";
import type { Reason } from "./reason.ts";
import { newLoad } from "./sequence/sequence.ts";
import type { Sequence } from "./sequence/sequence.ts";
import type { Timetable } from "./sequence/timetable.ts";
import type { Timed } from "./sequence/write-plan.ts";
import { timeSequence, writeBooth, writeLoads, writePrep } from "./sequence/write-plan.ts";

/** `timetable` without rounding of chamber temperatures. */
export function account(timetable: Timetable, sequence: Sequence, proof: Proof): FiringPlan {
  const { day, book } = timetable;
  const timed = timeSequence(timetable, sequence);
  const loads = writeLoads(day, timed);
  const gasKWh = loads.reduce((sum, load) => sum + load.gasKWh, 0);
  const tickets = ticketsReady(day, timed, loads);
  const leftOver = whatIsLeft(timetable, timed);
  const moved = timetable.movedPans(timed.state) * day.request.prices.movePerPan;
  const cost = costOf(timetable, { loads, tickets, leftOver, gasKWh, moved });
  return {
    proof: { ...proof, bestPossibleCost: Math.min(proof.bestPossibleCost, cost.total) },
    cost,
    gasKWh,
    loads,
    prep: writePrep(day, timed),
    booth: writeBooth(day, timed),
    tickets,
    leftOver,
    savings: savings(book.plain, loads, gasKWh),
  };
}

/** When each ticket is handed over: its last pan inspected and finished, or after the horizon where one is left over. */
function ticketsReady(day: DayModel, { state }: Timed, loads: readonly Load[]): TicketReady[] {
  const { request } = day;
  const inspected = new Map<string, number>();
  for (const load of loads)
    for (const pan of load.pans) {
      const { coat } = day.kinds[day.lineKinds[pan.line]![pan.coat - 1]!]!;
      const key = `${pan.line}/${pan.item}/${pan.coat}`;
      inspected.set(key, pan.cooled + coat.inspectMinutes);
    }
  return day.tickets.map((ticket) => {
    let ready = -Infinity;
    let open = false;
    for (const index of ticket.pans) {
      const { line, item, due } = day.pans[index]!;
      const last = inspected.get(`${line}/${item}/${due.at(-1)!.coat}`);
      if (last === undefined || state.panStep[index]! < due.length) open = true;
      else ready = Math.max(ready, last + request.finishMinutes);
    }
    if (open) ready = Math.max(ready, request.nextOpenMinute);
    const lateMinutes = ticket.promised === null ? 0 : Math.max(0, ready - ticket.promised);
    return { ticket: ticket.name, ready, promised: ticket.promised, lateMinutes };
  });
}

interface CostParts {
  readonly loads: readonly Load[];
  readonly tickets: readonly TicketReady[];
  readonly leftOver: readonly LeftOver[];
  readonly gasKWh: number;
  /** Money for moved pans. */
  readonly moved: number;
}

function costOf({ day, staffed }: Timetable, parts: CostParts): Cost {
  const { loads, tickets, leftOver, gasKWh, moved } = parts;
  const { request } = day;
  const lastDone = loads.reduce((last, load) => Math.max(last, load.done), request.planFromMinute);
  const gas = gasKWh * request.prices.gasPerKWh;
  const crew = (staffed.minutesBetween(request.planFromMinute, lastDone) * request.prices.crewPerHour) / 60;
  const late = tickets.reduce(
    (sum, { lateMinutes }, index) => sum + (lateMinutes * day.tickets[index]!.latePerHour) / 60,
    0,
  );
  const left = leftOver.reduce((sum, pan) => {
    const { nextCoat, leftOverCost, coating } = request.lines[pan.line]!;
    const last = request.coatings[coating]!.coats.length;
    return sum + (leftOverCost * (last - pan.coat + 1)) / (last - nextCoat + 1);
  }, 0);
  return { gas, crew, late, leftOver: left, moved, total: gas + crew + late + left + moved };
}

function whatIsLeft(timetable: Timetable, { state }: Timed): LeftOver[] {
  const { day } = timetable;
  return day.pans.flatMap(({ line, item, due }, index) => {
    const next = due[state.panStep[index]!];
    return next === undefined ? [] : [{ line, item, coat: next.coat, reason: whyLeft(timetable, state, next.bake) }];
  });
}

/** Left because nothing fits any more, or because baking it would cost more than leaving it. */
function whyLeft(timetable: Timetable, state: Timed["state"], bake: number | null): Reason {
  const { day } = timetable;
  const untilMinute = day.horizonEnd;
  if (bake !== null) {
    const trial = timetable.startState();
    for (const oven of day.kinds[day.bakes[bake]!.kind]!.ovens) {
      trial.copyFrom(state);
      if (timetable.place(trial, newLoad(oven, [bake]), { haste: 1, heatCredit: 0 }) !== undefined)
        return { code: "costs-more-than-leaving", numbers: { untilMinute } };
    }
  }
  return { code: "no-room-in-horizon", numbers: { untilMinute } };
}
