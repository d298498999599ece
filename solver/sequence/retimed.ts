/**
 * Stage 3 of plan.ts on a re-plan: the loads still to come of the plan in force, in their order, timed anew from how
 * the shop stands now. What that plan did not know, or what can no longer go where it was, is fired after them or put
 * in where it costs least.
 */
import { seededRandom } from "../random.ts";
import type { InForceLoad } from "../shop.ts";
import { carefulHand } from "./careful-hand.ts";
import { Evaluator } from "./evaluate.ts";
import { Draft } from "./draft.ts";
import { newLoad } from "./sequence.ts";
import { insertAll } from "./rebuild.ts";
import type { PlannedLoad, Sequence, Taste } from "./sequence.ts";
import type { ShopState } from "./shop-state.ts";
import type { TimedLoad, Timetable } from "./timetable.ts";

/** The first one holds every load back to the minute it was planned for; the second lets each go as soon as it can. */
export function* retimed(timetable: Timetable, taste: Taste): Generator<Sequence> {
  const inForce = timetable.day.request.inForceLoads ?? [];
  if (inForce.length === 0) return;
  for (const notSooner of [true, false]) {
    const state = timetable.startState();
    const loads = inForce.flatMap((load) => followed(timetable, state, load, { taste, notSooner }));
    yield { ...taste, loads: [...loads, ...carefulHand(timetable, state)] };
  }
  yield { ...taste, loads: withTheRest(timetable, inForce, taste) };
}

interface Following {
  readonly taste: Taste;
  readonly notSooner: boolean;
}

/** The load with those of its bakes whose turn it is, placed; nothing where it finds no sound place any more. */
function followed(timetable: Timetable, state: ShopState, was: InForceLoad, how: Following): PlannedLoad[] {
  const bakes = bakesOf(timetable, was).filter((bake) => timetable.isNext(state, bake));
  if (bakes.length === 0) return [];
  const asItWas = { ...newLoad(was.oven, bakes), setPointC: was.setPointC };
  for (const load of [asItWas, newLoad(was.oven, bakes)]) {
    const placed = placedLike(timetable, state, load, was.doorOpens, how);
    if (placed !== undefined) return [placed];
  }
  return [];
}

/** Rounds after which a door that still opens sooner than planned is let open. */
const DELAY_ROUNDS = 3;

function placedLike(
  timetable: Timetable,
  state: ShopState,
  asked: PlannedLoad,
  doorOpens: number,
  { taste, notSooner }: Following,
): PlannedLoad | undefined {
  const trial = timetable.startState();
  const tried = (load: PlannedLoad): TimedLoad | undefined => {
    trial.copyFrom(state);
    return timetable.place(trial, load, taste);
  };
  let load = asked;
  let timed = tried(load);
  if (timed === undefined) return undefined;
  for (let round = 0; notSooner && round < DELAY_ROUNDS && timed.slot.doorOpens < doorOpens; round++) {
    const delayMinutes: number = load.delayMinutes + doorOpens - timed.slot.doorOpens;
    const later: PlannedLoad = { ...asked, delayMinutes };
    const then = tried(later);
    if (then === undefined) break;
    [load, timed] = [later, then];
  }
  timetable.place(state, load, taste);
  return load;
}

/** All loads to come with all their bakes; bakes in none of them where they cost least. */
function withTheRest(timetable: Timetable, inForce: readonly InForceLoad[], taste: Taste): readonly PlannedLoad[] {
  const loads = inForce.flatMap((load) => {
    const bakes = bakesOf(timetable, load);
    return bakes.length === 0 ? [] : [{ ...newLoad(load.oven, bakes), setPointC: load.setPointC }];
  });
  const missing = new Draft(timetable.book, loads).missing();
  return insertAll(new Evaluator(timetable), loads, missing, taste, seededRandom(1));
}

function bakesOf({ day }: Timetable, { pans }: InForceLoad): number[] {
  return pans.flatMap(({ line, item, coat }) => {
    const pan = day.pans.find((one) => one.line === line && one.item === item);
    return pan?.due.find((due) => due.coat === coat)?.bake ?? [];
  });
}
