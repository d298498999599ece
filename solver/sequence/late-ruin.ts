/**
 * Destroy and repair for the sake of a late ticket: its bakes leave together with some of the loads fired before its
 * last one, and come back first, so that it finds room where the others stood.
 */
import type { Random } from "../random.ts";
import type { Draft } from "./draft.ts";
import type { Evaluator } from "./evaluate.ts";

export interface LateRuin {
  readonly bakes: readonly number[];
  readonly ticket: number;
}

/** Share of the earlier loads that leave with it: between these. */
const LEAST_SHARE = 0.15;
const MOST_SHARE = 0.65;

/** A late ticket of the sequence last accepted, drawn by what its lateness costs; undefined where none is late. */
export function chooseLateRuin(draft: Draft, evaluator: Evaluator, random: Random): LateRuin | undefined {
  const { day, loads } = draft;
  const ticket = drawLate(draft, evaluator, random);
  if (ticket === undefined) return undefined;
  const own = new Set(day.tickets[ticket]!.pans);
  let last = -1;
  loads.forEach(({ bakes }, at) => {
    if (bakes.some((bake) => own.has(day.bakes[bake]!.pan))) last = at;
  });
  const share = LEAST_SHARE + (MOST_SHARE - LEAST_SHARE) * random.next();
  const bakes = loads.flatMap((load, at) => {
    const leaves = at <= last && random.next() < share;
    return leaves ? load.bakes : load.bakes.filter((bake) => own.has(day.bakes[bake]!.pan));
  });
  return { bakes, ticket };
}

function drawLate({ day, loads }: Draft, evaluator: Evaluator, random: Random): number | undefined {
  const { ticketReady } = evaluator.before(loads.length);
  const costs = day.tickets.map(({ promised, latePerHour }, index) =>
    promised === null ? 0 : Math.max(0, ticketReady[index]! - promised) * latePerHour,
  );
  let lot = random.next() * costs.reduce((sum, cost) => sum + cost, 0);
  for (const [ticket, cost] of costs.entries()) {
    if (cost <= 0) continue;
    lot -= cost;
    if (lot <= 0) return ticket;
  }
  return undefined;
}
