/**
 * The plain baseline, what a careful hand does without a tool: pans by ready time, the same coating and coat together,
 * fired when the oven is full or when nothing more can join within half an hour.
 */
import type { RecipeBook } from "../loads/recipe.ts";
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
    .sort((a, b) => readyFor(timetable, state, a) - readyFor(timetable, state, b) || a - b);
  const oven = freeOven(book, state, day.bakes[first]!.kind);
  if (oven === undefined) return undefined;
  const bakes = [first];
  let lastReady = readyFor(timetable, state, first);
  for (const bake of alike) {
    if (bake === first) continue;
    const ready = readyFor(timetable, state, bake);
    if (ready > lastReady + JOIN_WITHIN_MINUTES) break;
    const kinds = [...bakes, bake].map((one) => day.bakes[one]!.kind).sort((a, b) => a - b);
    if (book.recipe(oven, kinds) === undefined) continue;
    bakes.push(bake);
    lastReady = Math.max(lastReady, ready);
  }
  return { oven, bakes, setPointC: 0, preheat: "never", delayMinutes: 0, coastMinutes: null };
}

function earliest(timetable: Timetable, state: ShopState, open: readonly number[]): number {
  return open.reduce((best, bake) =>
    readyFor(timetable, state, bake) < readyFor(timetable, state, best) ? bake : best,
  );
}

/** When a pan could be sprayed and flashed if bench and booth were free. */
function readyFor({ day }: Timetable, state: ShopState, bake: number): number {
  const { pan, step, kind } = day.bakes[bake]!;
  const line = day.request.lines[day.pans[pan]!.line]!;
  const { coat } = day.kinds[kind]!;
  const prep = step === 0 ? line.prepMinutes : 0;
  const spray = step === 0 && line.sprayed ? 0 : coat.sprayMinutes + coat.flashMinutes;
  return Math.max(state.panRelease[pan]!, day.request.planFromMinute) + prep + spray;
}

function freeOven(book: RecipeBook, state: ShopState, kind: number): number | undefined {
  const ovens = book.day.kinds[kind]!.ovens.filter((oven) => book.recipe(oven, [kind]) !== undefined);
  if (ovens.length === 0) return undefined;
  return ovens.reduce((best, oven) => (state.ovenFree[oven]! < state.ovenFree[best]! ? oven : best));
}
