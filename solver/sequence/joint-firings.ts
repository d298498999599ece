/**
 * For the last hand on a sequence: the firings of all its loads chosen together, from the first load on. What gains nothing alone
 * may pay with the next load's: an oven that is free a minute sooner, on more gas, has room for a pre-heat. A beam: of the ways to
 * fire the loads so far those go on that cost least with the rest as it was, and those that leave the oven sooner.
 */
import type { ThermalCycle } from "../shop.ts";
import type { Evaluator } from "./evaluate.ts";
import { firingMet, setPointsFrom } from "./firing-met.ts";
import type { Polished } from "./polish.ts";
import { allRearranged } from "./rearranged.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";

interface Found extends Polished {
  /** The load's oven is free from then on. */
  readonly done: number;
}

/** So many go on: of those that are free at the same minute no more than so many. */
const WIDTH = 12;
const PER_MINUTE = 2;
/** What costs more than the best by this share does not go on. */
const MOST_DEARER = 0.04;
/** Minutes that the door opens later than it could. */
const DELAYS = [0, 1, 2, 3, 5, 8];
/** Pre-heats looked at with every layout and set-point, the hottest that there is time for. */
const MOST_PREHEATS = 6;
const TINY = 1e-9;

/** Yields each that is cheaper than `start` and all before, and undefined in between; `exact` accepts others meanwhile. */
export function* jointFirings(
  exact: Evaluator,
  start: Polished,
  spent: () => boolean,
): Generator<Polished | undefined, void> {
  let best = start;
  let beam: readonly Polished[] = [start];
  for (let at = 0; at < start.sequence.loads.length; at++) {
    const found: Found[] = [];
    for (const { sequence } of beam) {
      const before = best;
      exact.accept(sequence);
      for (const one of fired(exact, sequence, at, spent)) {
        const cost = exact.cost(one.sequence, best.cost * (1 + MOST_DEARER));
        if (cost === Infinity) continue;
        found.push({ ...one, cost });
        if (cost < best.cost - TINY) best = { sequence: one.sequence, cost };
      }
      yield best === before ? undefined : best;
      if (spent()) return;
    }
    beam = goingOn(found);
  }
}

function goingOn(found: readonly Found[]): readonly Polished[] {
  const perMinute = new Map<number, number>();
  let soonest = Infinity;
  const sooner: Found[] = [];
  const others: Found[] = [];
  for (const one of [...found].sort((a, b) => a.cost - b.cost || a.done - b.done)) {
    const many = perMinute.get(one.done) ?? 0;
    perMinute.set(one.done, many + 1);
    if (one.done < soonest) sooner.push(one);
    else if (many < PER_MINUTE) others.push(one);
    soonest = Math.min(soonest, one.done);
  }
  return [...sooner, ...others].slice(0, WIDTH);
}

/** The sequence that `exact` accepted last with load `at` fired in every way that leaves its oven otherwise. */
function* fired(
  exact: Evaluator,
  sequence: Sequence,
  at: number,
  spent: () => boolean,
): Generator<Omit<Found, "cost">, void> {
  const seen = new Set<string>();
  for (const load of ways(exact, sequence, at)) {
    if (spent()) return;
    const state = exact.after(at, load, sequence);
    if (state === undefined) continue;
    const done = state.ovenFree[load.oven]!;
    const key = `${done}/${state.gasKWh.toFixed(3)}/${state.ovenChamberC[load.oven]!.toFixed(1)}`;
    if (seen.has(key)) continue;
    seen.add(key);
    yield { sequence: { ...sequence, loads: sequence.loads.with(at, load) }, done };
  }
}

function* ways(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const load = sequence.loads[at]!;
  yield load;
  const { book, day } = exact.timetable;
  const { cycle } = day.request.ovens[load.oven]!;
  for (const delayMinutes of DELAYS) yield { ...load, delayMinutes };
  const met = firingMet(exact, sequence, at);
  if (met === undefined || cycle.kind !== "thermal") return;
  const preheats = preheatsMet(exact, sequence, at, cycle);
  for (const layout of withLayouts(exact, sequence, at)) {
    const { shelfSet } = layout;
    const recipe = shelfSet === undefined ? met.recipe : book.recipeOn(load.oven, met.recipe.kinds, shelfSet);
    if (recipe === undefined) continue;
    for (const setPointC of setPointsFrom(book, recipe, met.chamberC))
      for (const preheat of preheats)
        if (preheat === "never" || Number(preheat) <= setPointC)
          yield { ...layout, setPointC, preheat, delayMinutes: 0 };
  }
}

function* withLayouts(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  yield sequence.loads[at]!;
  yield* allRearranged(exact, sequence, at);
}

/** None, and the hottest that there is time for before the load as it stands. */
function preheatsMet(
  exact: Evaluator,
  sequence: Sequence,
  at: number,
  cycle: ThermalCycle,
): readonly PlannedLoad["preheat"][] {
  const { timetable } = exact;
  const load = { ...sequence.loads[at]!, setPointC: 0, delayMinutes: 0 };
  const step = cycle.setPointStepC;
  const state = timetable.startState();
  const found: number[] = [];
  for (let up = Math.floor(cycle.setPointMaxC / step + TINY); up > 0 && found.length < MOST_PREHEATS; up--) {
    state.copyFrom(exact.before(at));
    const timed = timetable.place(state, { ...load, preheat: up * step }, sequence);
    if (timed?.slot.before.some(({ kind }) => kind === "preheat") === true) found.push(up * step);
  }
  return ["never", ...found];
}
