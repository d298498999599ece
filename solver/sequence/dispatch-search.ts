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
/** After so many a caller may stop it, and after so many it is told of a better sequence: timing one without rounding costs a few. */
const PAUSE = 64;
const NEWS = 256;
/** After so many cycles in a row without a better sequence it ends. */
const VAIN_CYCLES = 4;

/**
 * Yields the best sequence built first, then each better one in due course, at the latest when it ends; `undefined` between.
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
  let told = Infinity;
  for (let vain = 0; vain < VAIN_CYCLES && !spent();) {
    const before = best.cost;
    let keys: Keys = best.keys;
    let cost: number = best.cost;
    dispatcher.accept(dispatcher.build(keys)!);
    for (let round = 0; round < CYCLE && !spent(); round++) {
      if (round % PAUSE === 0) {
        const isNews: boolean = round % NEWS === 0 && best.cost < told;
        if (isNews) told = best.cost;
        yield isNews ? best.sequence : undefined;
      }
      const temperature = cost * HOTTEST * (COLDEST / HOTTEST) ** (round / CYCLE);
      const cutoff = cost - temperature * Math.log(1 - random.next());
      const next = changed(keys, groups, dispatcher.looksCloser, random);
      const built = dispatcher.build(next, cutoff);
      if (built === undefined || built.cost > cutoff) continue;
      dispatcher.accept(built);
      keys = next;
      cost = built.cost;
      if (cost < best.cost - TINY) best = { keys, ...built };
    }
    vain = best.cost < before ? 0 : vain + 1;
  }
  if (best.cost < told) yield best.sequence;
}

const TINY = 1e-9;
