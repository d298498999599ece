/**
 * Stage 3 of plan.ts: sound sequences at once, on a re-plan first those that keep to the plan in force, then the careful
 * hand's, then those of loads the LP solver chose, then, where only their number counts, the fewest loads found.
 */
import { chooseFromPool } from "../loads/choose.ts";
import type { Lp } from "../lp/lp.ts";
import { carefulHand, PLAIN_TASTE } from "./careful-hand.ts";
import { fewestLoads, PACKING_EFFORTS } from "./fewest-loads.ts";
import { orderLoads } from "./order-loads.ts";
import { retimed } from "./retimed.ts";
import type { Sequence } from "./sequence.ts";
import { FIRST_TASTE } from "./taste.ts";
import type { Timetable } from "./timetable.ts";

/** Money per minute that oven time is worth at least when loads are chosen, as a multiple of the crew's minute. */
const MINUTE_SHARES = [1, 4];
const LEAST_MINUTE_PRICE = 0.02;

export function* firstSequences(timetable: Timetable, lp: Lp): Generator<Sequence> {
  yield* retimed(timetable, FIRST_TASTE);
  const plain = carefulHand(timetable);
  yield { ...PLAIN_TASTE, loads: plain };
  yield { ...FIRST_TASTE, loads: plain.map((load) => ({ ...load, preheat: "auto" as const })) };
  const crewPerMinute = timetable.day.request.prices.crewPerHour / 60;
  for (const share of MINUTE_SHARES) {
    const chosen = chooseFromPool(timetable.book, lp, Math.max(LEAST_MINUTE_PRICE, crewPerMinute * share));
    if (chosen !== undefined) yield { ...FIRST_TASTE, loads: orderLoads(timetable, chosen, FIRST_TASTE) };
  }
  for (const effort of PACKING_EFFORTS) {
    const packed = fewestLoads(timetable, effort);
    if (packed !== undefined) yield { ...PLAIN_TASTE, loads: packed };
  }
}
