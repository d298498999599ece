/**
 * A sequence of loads that are told in their order: its times as good as the last hand can make them. For the proof, whose finished
 * sequences have the loads of good plans and times that no plan has.
 */
import type { Evaluator } from "./evaluate.ts";
import { jointFirings } from "./joint-firings.ts";
import type { Polished } from "./polish.ts";
import { polish } from "./polish.ts";
import { newLoad } from "./sequence.ts";
import type { PlannedLoad, Taste } from "./sequence.ts";
import { studyLoads } from "./study-loads.ts";
import { TASTES } from "./taste.ts";
import type { Timetable } from "./timetable.ts";

/** What is dearer by this share is not polished, and what then is by this not joined: neither becomes the best. */
const MOST_DEARER = 0.25;
const MOST_DEARER_POLISHED = 0.01;
/** Its loads are looked at so closely: many of them fit no shelves, which takes long to find out. */
const MOST_EFFORT = 1000;
/** Sequences timed for one. */
const MOST_TIMED = 6000;

/** Answers the sequence where it costs less than `upper`, money; yields now and then, so that the caller can breathe. */
export function* timedLoads(
  exact: Evaluator,
  loads: readonly PlannedLoad[],
  upper: number,
): Generator<undefined, Polished | undefined> {
  studyLoads(exact.timetable, loads, MOST_EFFORT);
  const most = exact.timed + MOST_TIMED;
  const spent = (): boolean => exact.timed >= most;
  let best: Polished = { sequence: { ...TASTES[0]!, loads }, cost: Infinity };
  for (const taste of TASTES) {
    const sequence = { ...taste, loads: placeable(exact.timetable, loads, taste) };
    const cost = exact.cost(sequence);
    if (cost < best.cost) best = { sequence, cost };
  }
  if (best.cost > upper * (1 + MOST_DEARER)) return undefined;
  exact.accept(best.sequence);
  for (const better of polish(exact, best, spent, true)) {
    best = better;
    yield;
  }
  if (best.cost > upper * (1 + MOST_DEARER_POLISHED)) return undefined;
  for (const better of jointFirings(exact, best, spent)) {
    if (better !== undefined) best = better;
    yield;
  }
  return best.cost < upper ? best : undefined;
}

/** Loads that cannot be fired as told fall apart by kind, and what finds no place even so is left out. */
function placeable(timetable: Timetable, loads: readonly PlannedLoad[], taste: Taste): PlannedLoad[] {
  const state = timetable.startState();
  const finds = (load: PlannedLoad): boolean => timetable.place(state, load, taste) !== undefined;
  return loads.flatMap((load) => (finds(load) ? [load] : byKind(timetable, load).filter(finds)));
}

function byKind({ day }: Timetable, { oven, bakes }: PlannedLoad): PlannedLoad[] {
  const kindOf = (bake: number): number => day.bakes[bake]!.kind;
  const kinds = [...new Set(bakes.map(kindOf))];
  return kinds.map((kind) =>
    newLoad(
      oven,
      bakes.filter((bake) => kindOf(bake) === kind),
    ),
  );
}
