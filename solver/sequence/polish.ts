/**
 * The last hand on a sequence: one load after another, its delay, shelves, set-point, coasting and pre-heat are changed by
 * little and by much for as long as that gains anything, timed without rounding. The loads themselves and their order stay.
 */
import type { DayModel } from "../day/day-model.ts";
import { shelfSets } from "../loads/place-load.ts";
import type { Evaluator } from "./evaluate.ts";
import { firingMet, LOOK_K } from "./firing-met.ts";
import { rearranged } from "./rearranged.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";
import { plainLoad } from "./sequence.ts";

export interface Polished {
  readonly sequence: Sequence;
  /** Money, without rounding of chamber temperatures. */
  readonly cost: number;
}

/** Minutes sooner and later. */
const DELAYS = [1, 2, 3, 5, 10, 20, 40];
/** Minutes of coasting, more and less. */
const COASTS = [0, 1, 3, 8];
/** Pre-heats tried where there is none of a given set-point, °C, and the steps up and down from one. */
const PREHEATS = { from: 60, by: 35 } as const;
const PREHEAT_STEPS = [1, 3, 7];
const TINY = 1e-9;

/**
 * Yields each improvement, until there is none or `spent` says so. `exact` must have accepted `start`, and has accepted what
 * was yielded last. `layouts`: where no load gains any more, layouts that differ in two kinds are looked at too, which takes
 * longest.
 */
export function* polish(exact: Evaluator, start: Polished, spent: () => boolean, layouts = false): Generator<Polished> {
  const { length } = start.sequence.loads;
  const rounds = layouts ? 2 : 1;
  let best = start;
  let since = 0;
  for (let at = 0; length > 0 && since < rounds * length;) {
    const better = improved(exact, best, { at, variants: since < length ? variants : rearranged }, spent);
    if (better === undefined) {
      if (spent()) return;
      since++;
      at = (at + 1) % length;
      continue;
    }
    since = 0;
    best = better;
    exact.accept(best.sequence);
    yield best;
  }
}

interface Change {
  readonly at: number;
  readonly variants: (exact: Evaluator, sequence: Sequence, at: number) => Generator<PlannedLoad>;
}

/** The first change of load `at` that gains something. */
function improved(
  exact: Evaluator,
  { sequence, cost }: Polished,
  { at, variants: changes }: Change,
  spent: () => boolean,
): Polished | undefined {
  for (const load of changes(exact, sequence, at)) {
    if (spent()) return undefined;
    const changed = { ...sequence, loads: sequence.loads.with(at, load) };
    const changedCost = exact.cost(changed, cost);
    if (changedCost < cost - TINY) return { sequence: changed, cost: changedCost };
  }
  return undefined;
}

function* variants(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const load = sequence.loads[at]!;
  for (const minutes of DELAYS)
    for (const delayMinutes of [load.delayMinutes - minutes, load.delayMinutes + minutes])
      if (delayMinutes >= 0) yield { ...load, delayMinutes };
  if (load.delayMinutes > 0) yield { ...load, delayMinutes: 0 };
  const { day } = exact.timetable;
  const { cycle, space } = day.request.ovens[load.oven]!;
  if (cycle.kind !== "thermal") return;
  if (space.kind === "shelves") yield* reshelved(day, load, shelfSets(space).length);
  const { coastMinutes } = load;
  if (coastMinutes !== null) yield { ...load, coastMinutes: null };
  for (const minutes of COASTS)
    for (const other of coastMinutes === null ? [minutes] : [coastMinutes - minutes, coastMinutes + minutes])
      if (other >= 0) yield { ...load, coastMinutes: other };
  for (const setPointC of setPoints(exact, sequence, at))
    if (setPointC !== load.setPointC) yield { ...load, setPointC };
  const { preheat } = load;
  const step = cycle.setPointStepC;
  const others: PlannedLoad["preheat"][] = ["auto", "never"];
  if (typeof preheat === "number")
    for (const by of PREHEAT_STEPS) others.push(preheat - by * step, preheat + by * step);
  else
    for (let setPointC = PREHEATS.from; setPointC <= cycle.setPointMaxC; setPointC += PREHEATS.by)
      others.push(Math.round(setPointC / step) * step);
  for (const other of others) {
    if (other === preheat || (typeof other === "number" && other > cycle.setPointMaxC)) continue;
    yield { ...load, preheat: other, setPointC: 0 };
    if (load.setPointC !== 0) yield { ...load, preheat: other };
  }
}

/** One kind on other shelves. */
function* reshelved(day: DayModel, load: PlannedLoad, sets: number): Generator<PlannedLoad> {
  const kinds = new Set(load.bakes.map((bake) => day.bakes[bake]!.kind));
  const now = load.shelfSet ?? Array.from(kinds, () => 0);
  for (let kind = 0; kind < kinds.size; kind++)
    for (let set = 0; set < sets; set++)
      if (set !== now[kind]) yield { ...plainLoad(load), shelfSet: now.with(kind, set), setPointC: 0 };
}

/** 0, which leaves the choice to the timetable, and every one that bakes the load from the chamber that it meets. */
function setPoints(exact: Evaluator, sequence: Sequence, at: number): Set<number> {
  const met = firingMet(exact, sequence, at);
  const options = met === undefined ? [] : exact.timetable.book.firings(met.recipe, met.chamberC, LOOK_K);
  return new Set([0, ...options.map(({ setPointC }) => setPointC)]);
}
