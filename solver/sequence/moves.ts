/** Small changes to a sequence that the search tries. Each answers new loads, or undefined where it finds nothing to do. */
import type { DayModel } from "../day/day-model.ts";
import { mayBurnBefore } from "../loads/mixing.ts";
import type { Move } from "./draft.ts";
import { joinRange, someAlike } from "./draft.ts";
import type { PlannedLoad } from "./sequence.ts";
import { newLoad, withBakes } from "./sequence.ts";

/** Some alike bakes of one load go to another load, or to a new one. */
export const relocate: Move = (draft, random) => {
  const bake = random.below(draft.day.bakes.length);
  const source = draft.loadOf[bake]!;
  if (source < 0) return undefined;
  const taken = someAlike(draft, bake, random);
  const { from, to } = joinRange(draft, taken);
  if (from > to) return undefined;
  const { loads } = draft;
  const rest = loads[source]!.bakes.filter((other) => !taken.includes(other));
  if (random.below(5) > 0 && to > from) {
    const target = from + random.below(to - from);
    if (target === source) return undefined;
    const joined = [...loads[target]!.bakes, ...taken];
    if (!draft.fits(loads[target]!.oven, joined)) return undefined;
    const changed = [...loads];
    changed[target] = withBakes(loads[target]!, joined);
    changed[source] = withBakes(loads[source]!, rest);
    return changed.filter((load) => load.bakes.length > 0);
  }
  const ovens = draft.day.kinds[draft.day.bakes[bake]!.kind]!.ovens;
  const oven = ovens[random.below(ovens.length)]!;
  if (!draft.fits(oven, taken)) return undefined;
  const changed = [...loads];
  changed[source] = withBakes(loads[source]!, rest);
  changed.splice(from + random.below(to - from + 1), 0, newLoad(oven, taken));
  return changed.filter((load) => load.bakes.length > 0);
};

/** A load goes to another place in the order, or to another oven. */
export const shift: Move = (draft, random) => {
  const { loads, day } = draft;
  if (loads.length === 0) return undefined;
  const at = random.below(loads.length);
  const load = loads[at]!;
  if (day.request.ovens.length > 1 && random.below(3) === 0) {
    const oven = random.below(day.request.ovens.length);
    if (oven === load.oven || !draft.fits(oven, load.bakes)) return undefined;
    return loads.with(at, { ...newLoad(oven, load.bakes), preheat: load.preheat });
  }
  const { from, to } = joinRange(draft, load.bakes);
  if (to - from < 2) return undefined;
  const target = from + random.below(to - from);
  if (target === at) return undefined;
  const changed = loads.filter((_, index) => index !== at);
  changed.splice(target, 0, load);
  return changed;
};

/** Two or three loads in a row go to another place together, half of the time a near one (Or 1976, from memory). */
export const shiftRow: Move = ({ loads, day }, random) => {
  const length = 2 + random.below(2);
  if (loads.length <= length) return undefined;
  const at = random.below(loads.length - length + 1);
  const rest = loads.toSpliced(at, length);
  const near = at + random.below(2 * NEAR + 1) - NEAR;
  const isNear = random.below(2) === 0 && near >= 0 && near <= rest.length;
  const to = isNear ? near : random.below(rest.length + 1);
  if (to === at) return undefined;
  const changed = rest.toSpliced(to, 0, ...loads.slice(at, at + length));
  const passed = changed.slice(Math.min(at, to), Math.max(at, to) + length);
  return areCoatsInOrder(day, passed) ? changed : undefined;
};

/** Loads away. */
const NEAR = 4;

/** Of these loads none bakes a coat before one that it goes on. */
function areCoatsInOrder({ bakes, pans }: DayModel, loads: readonly PlannedLoad[]): boolean {
  const steps = new Int32Array(pans.length);
  return loads.every((load) =>
    load.bakes.every((bake) => {
      const { pan, step } = bakes[bake]!;
      const isLater = step >= steps[pan]!;
      steps[pan] = step;
      return isLater;
    }),
  );
}

/** Two loads become one. */
export const merge: Move = (draft, random) => {
  const { loads } = draft;
  if (loads.length < 2) return undefined;
  const one = random.below(loads.length);
  const other = random.below(loads.length);
  if (one === other) return undefined;
  const { from, to } = joinRange(draft, loads[one]!.bakes);
  if (other < from || other >= to) return undefined;
  const joined = [...loads[other]!.bakes, ...loads[one]!.bakes];
  if (!draft.fits(loads[other]!.oven, joined)) return undefined;
  return loads.with(other, withBakes(loads[other]!, joined)).filter((_, index) => index !== one);
};

/** A load becomes two, the second right after it or later, in the same oven or another. */
export const split: Move = (draft, random) => {
  const { loads } = draft;
  if (loads.length === 0) return undefined;
  const at = random.below(loads.length);
  const { bakes, oven } = loads[at]!;
  if (bakes.length < 2) return undefined;
  const moved = bakes.filter(() => random.below(2) === 0);
  if (moved.length === 0 || moved.length === bakes.length) return undefined;
  const kept = bakes.filter((bake) => !moved.includes(bake));
  const { from, to } = joinRange(draft, moved);
  const place = Math.max(from, Math.min(to, at + random.below(3)));
  const changed = loads.with(at, withBakes(loads[at]!, kept));
  if (!draft.fits(oven, moved) || !draft.fits(oven, kept)) return undefined;
  changed.splice(place, 0, newLoad(oven, moved));
  return changed;
};

/** A load's set-point, pre-heating or coasting is set by hand, or whether a clean burn that is owed comes before it. */
export const retune: Move = (draft, random) => {
  const { loads, day, book } = draft;
  if (loads.length === 0) return undefined;
  const at = random.below(loads.length);
  const load = loads[at]!;
  if (day.request.ovens[load.oven]!.cycle.kind !== "thermal") return undefined;
  if (mayBurnBefore(day, load.bakes) && random.below(4) === 0) return loads.with(at, burntOtherwise(load));
  if (random.below(2) === 0) return loads.with(at, { ...load, preheat: load.preheat === "auto" ? "never" : "auto" });
  if (random.below(3) === 0) return loads.with(at, { ...load, coastMinutes: load.coastMinutes === null ? 0 : null });
  if (load.setPointC !== 0) return loads.with(at, { ...load, setPointC: 0 });
  const recipe = book.recipe(load.oven, draft.kindsOf(load.bakes));
  const options = recipe === undefined ? [] : book.firings(recipe, day.request.ambientC, 2);
  if (options.length === 0) return undefined;
  return loads.with(at, { ...load, setPointC: options[random.below(options.length)]!.setPointC });
};

/** The load with a clean burn that is owed before it, or no longer before it. */
export function burntOtherwise(load: PlannedLoad): PlannedLoad {
  const { burnsFirst, ...later } = load;
  return burnsFirst === true ? later : { ...load, burnsFirst: true };
}

/** Delays tried, minutes. */
const DELAYS = [2, 5, 10, 15, 20, 30, 45, 60, 90, 120];

/** A load waits, waits otherwise, or no longer waits. */
export const delay: Move = ({ loads }, random) => {
  if (loads.length === 0) return undefined;
  const at = random.below(loads.length);
  const load = loads[at]!;
  const delayMinutes = load.delayMinutes > 0 && random.below(2) === 0 ? 0 : DELAYS[random.below(DELAYS.length)]!;
  return loads.with(at, { ...load, delayMinutes });
};
