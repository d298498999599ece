/**
 * The plain baseline, what a careful hand does without a tool: pans by ready time, the same coating and coat together,
 * fired when the oven is full or when nothing more can join within half an hour.
 */
import { firstFreeOven, readyFor } from "./ready.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";
import type { ShopState } from "./shop-state.ts";
import type { Timetable } from "./timetable.ts";

export const JOIN_WITHIN_MINUTES = 30;

/** The hand has no price of time or heat: the quickest sound firing that the gas bill forgives. */
export const PLAIN_TASTE: Taste = { haste: 1, heatCredit: 0 };

/** Loads in the order in which the hand would fire them from `state` on, which it moves on. */
export function carefulHand(timetable: Timetable, state: ShopState = timetable.startState()): PlannedLoad[] {
  const waiting = new Set(timetable.day.bakes.keys());
  const loads: PlannedLoad[] = [];
  for (;;) {
    const open = [...waiting].filter((bake) => timetable.isNext(state, bake));
    if (open.length === 0) return loads;
    const load = nextLoad(timetable, state, open);
    // What fits no oven, or no oven in the time left, the hand sets aside.
    const placed = load !== undefined && timetable.place(state, load, PLAIN_TASTE) !== undefined;
    if (placed) loads.push(load);
    for (const bake of load?.bakes ?? [earliest(timetable, state, open)]) waiting.delete(bake);
  }
}

function nextLoad(timetable: Timetable, state: ShopState, open: readonly number[]): PlannedLoad | undefined {
  const { day, book } = timetable;
  const first = earliest(timetable, state, open);
  const { coat } = day.kinds[day.bakes[first]!.kind]!;
  const alike = open
    .filter((bake) => day.kinds[day.bakes[bake]!.kind]!.coat === coat)
    .sort((a, b) => readyFor(day, state, a) - readyFor(day, state, b) || a - b);
  const oven = firstFreeOven(book, state, day.bakes[first]!.kind);
  if (oven === undefined) return undefined;
  const bakes = [first];
  let lastReady = readyFor(day, state, first);
  for (const bake of alike) {
    if (bake === first) continue;
    const ready = readyFor(day, state, bake);
    if (ready > lastReady + JOIN_WITHIN_MINUTES) break;
    const kinds = [...bakes, bake].map((one) => day.bakes[one]!.kind).sort((a, b) => a - b);
    if (book.recipe(oven, kinds) === undefined) continue;
    bakes.push(bake);
    lastReady = Math.max(lastReady, ready);
  }
  return { oven, bakes, setPointC: 0, preheat: "never", delayMinutes: 0, coastMinutes: null };
}

function earliest({ day }: Timetable, state: ShopState, open: readonly number[]): number {
  return open.reduce((best, bake) => (readyFor(day, state, bake) < readyFor(day, state, best) ? bake : best));
}
