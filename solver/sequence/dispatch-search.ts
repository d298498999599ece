/** Simulated annealing over the ranks of a dispatcher: which tickets to serve first, what to wait for, what shares a firing. */
import type { Random } from "../random.ts";
import type { Built, Dispatcher } from "./dispatch.ts";
import type { Keys } from "./dispatch-keys.ts";
import { changed, firstKeys } from "./dispatch-keys.ts";
import type { Sequence } from "./sequence.ts";

/** The walk cools down over so many sequences, then starts again from the best. */
const CYCLE = 1000;
/** Temperatures, as a share of the cost. */
const HOTTEST = 0.03;
const COLDEST = 3e-4;
/** After so many cycles in a row without a better sequence it ends. */
const VAIN_CYCLES = 4;

/**
 * Yields the best sequence built first, then after each cycle the best one where it is better, else `undefined`.
 * `known`: a sequence whose order is one to start from. Ends where `spent` says so.
 */
export function* dispatchSearch(
  dispatcher: Dispatcher,
  known: Sequence,
  random: Random,
  spent: () => boolean,
): Generator<Sequence | undefined> {
  const { groups, timetable } = dispatcher;
  let best: (Built & { readonly keys: Keys }) | undefined;
  for (const keys of firstKeys(timetable.day, groups, known)) {
    if (spent()) break;
    const built = dispatcher.build(keys, best?.cost);
    if (built !== undefined && built.cost < (best?.cost ?? Infinity)) best = { keys, ...built };
  }
  if (best === undefined) return;
  yield best.sequence;
  for (let vain = 0; vain < VAIN_CYCLES && !spent();) {
    const before = best.cost;
    let keys: Keys = best.keys;
    let cost: number = best.cost;
    dispatcher.accept(dispatcher.build(keys)!);
    for (let round = 0; round < CYCLE && !spent(); round++) {
      const temperature = cost * HOTTEST * (COLDEST / HOTTEST) ** (round / CYCLE);
      const cutoff = cost - temperature * Math.log(1 - random.next());
      const next = changed(keys, groups, random);
      const built = dispatcher.build(next, cutoff);
      if (built === undefined || built.cost > cutoff) continue;
      dispatcher.accept(built);
      keys = next;
      cost = built.cost;
      if (cost < best.cost - TINY) best = { keys, ...built };
    }
    const isBetter = best.cost < before;
    vain = isBetter ? 0 : vain + 1;
    yield isBetter ? best.sequence : undefined;
  }
}

const TINY = 1e-9;
