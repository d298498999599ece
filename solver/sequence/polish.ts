/**
 * The last hand on a sequence: one load after another, its delay, shelves, set-point, coasting and pre-heat are changed by
 * little and by much for as long as that gains anything, timed without rounding. The loads themselves and their order stay.
 */
import type { Evaluator } from "./evaluate.ts";
import { firingMet, setPointsFrom } from "./firing-met.ts";
import { mayBurnBefore } from "../loads/mixing.ts";
import { burntOtherwise } from "./moves.ts";
import { madeRoomFor, preheatedAnew, preheats } from "./preheats.ts";
import { rearranged, reshelved } from "./rearranged.ts";
import type { PlannedLoad, Sequence } from "./sequence.ts";

export interface Polished {
  readonly sequence: Sequence;
  /** Money, without rounding of chamber temperatures. */
  readonly cost: number;
}

/** Minutes sooner and later. */
const DELAYS = [1, 2, 3, 5, 10, 20, 40];
/** Minutes of coasting, more and less. */
const COASTS = [0, 1, 3, 8];
const TINY = 1e-9;

/**
 * Yields each improvement, until there is none or `spent` says so. `exact` must have accepted `start`, and has accepted what
 * was yielded last. `layouts`: where no load gains any more, pre-heats with every set-point after them and other layouts
 * of two kinds or more are looked at too, and then loads that make room for a pre-heat of the next, which takes longest.
 */
export function* polish(exact: Evaluator, start: Polished, spent: () => boolean, layouts = false): Generator<Polished> {
  const { length } = start.sequence.loads;
  const stages = layouts ? [variants, lastVariants, madeRoomFor] : [variants];
  let best = start;
  let since = 0;
  for (let at = 0; length > 0 && since < stages.length * length;) {
    const better = improved(exact, best, { at, variants: stages[Math.floor(since / length)]! }, spent);
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
  readonly variants: (exact: Evaluator, sequence: Sequence, at: number) => Generator<readonly PlannedLoad[]>;
}

/** The first change of load `at` that gains something. */
function improved(
  exact: Evaluator,
  { sequence, cost }: Polished,
  { at, variants: changes }: Change,
  spent: () => boolean,
): Polished | undefined {
  for (const loads of changes(exact, sequence, at)) {
    if (spent()) return undefined;
    const changed = { ...sequence, loads };
    const changedCost = exact.cost(changed, cost);
    if (changedCost < cost - TINY) return { sequence: changed, cost: changedCost };
  }
  return undefined;
}

function* variants(exact: Evaluator, sequence: Sequence, at: number): Generator<readonly PlannedLoad[]> {
  for (const load of variantsOf(exact, sequence, at)) yield sequence.loads.with(at, load);
}

function* variantsOf(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const load = sequence.loads[at]!;
  for (const minutes of DELAYS)
    for (const delayMinutes of [load.delayMinutes - minutes, load.delayMinutes + minutes])
      if (delayMinutes >= 0) yield { ...load, delayMinutes };
  if (load.delayMinutes > 0) yield { ...load, delayMinutes: 0 };
  const { day } = exact.timetable;
  const { cycle } = day.request.ovens[load.oven]!;
  if (cycle.kind !== "thermal") return;
  for (const moved of reshelved(day, load)) yield { ...moved, setPointC: 0 };
  const { coastMinutes } = load;
  if (coastMinutes !== null) yield { ...load, coastMinutes: null };
  for (const minutes of COASTS)
    for (const other of coastMinutes === null ? [minutes] : [coastMinutes - minutes, coastMinutes + minutes])
      if (other >= 0) yield { ...load, coastMinutes: other };
  const met = firingMet(exact, sequence, at);
  const setPointsC = met === undefined ? [] : setPointsFrom(exact.timetable.book, met.recipe, met.chamberC);
  for (const setPointC of [0, ...setPointsC]) if (setPointC !== load.setPointC) yield { ...load, setPointC };
  yield* burntFirst(exact, sequence, at);
  for (const preheat of preheats(cycle, load, met?.preheatC)) {
    yield { ...load, preheat, setPointC: 0 };
    if (load.setPointC !== 0) yield { ...load, preheat };
  }
}

/** The clean burn that the oven owes before a load that may do without, or no longer before it. */
function* burntFirst(exact: Evaluator, sequence: Sequence, at: number): Generator<PlannedLoad> {
  const load = sequence.loads[at]!;
  if (exact.before(at).ovenSoiled[load.oven] === 1 && mayBurnBefore(exact.timetable.day, load.bakes))
    yield { ...burntOtherwise(load), setPointC: 0 };
}

/** What takes too long to look at before nothing else gains. */
function* lastVariants(exact: Evaluator, sequence: Sequence, at: number): Generator<readonly PlannedLoad[]> {
  for (const load of preheatedAnew(exact, sequence, at)) yield sequence.loads.with(at, load);
  for (const load of rearranged(exact, sequence, at)) yield sequence.loads.with(at, load);
}
