/** Small changes to a sequence that the search tries. Each answers new loads, or undefined where it finds nothing to do. */
import type { DayModel } from "../day/day-model.ts";
import { mayBurnBefore } from "../loads/mixing.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Random } from "../random.ts";
import type { PlannedLoad } from "./sequence.ts";
import { plainLoad } from "./sequence.ts";

/** Loads with, for each bake, the index of its load (-1: in none). */
export class Draft {
  readonly book: RecipeBook;
  readonly day: DayModel;
  readonly loads: readonly PlannedLoad[];
  readonly loadOf: Int32Array;

  constructor(book: RecipeBook, loads: readonly PlannedLoad[]) {
    this.book = book;
    this.day = book.day;
    this.loads = loads;
    this.loadOf = new Int32Array(this.day.bakes.length).fill(-1);
    loads.forEach((load, at) => {
      for (const bake of load.bakes) this.loadOf[bake] = at;
    });
  }

  /** Bakes in no load. */
  missing(): number[] {
    return [...this.day.bakes.keys()].filter((bake) => this.loadOf[bake] === -1);
  }

  /** Loads that a bake may join: after its pan's previous coat, before its next one. */
  range(bake: number): { from: number; to: number } {
    const { pan, step } = this.day.bakes[bake]!;
    const { due } = this.day.pans[pan]!;
    let from = 0;
    let to = this.loads.length;
    for (let at = step - 1; at >= 0; at--) {
      const other = due[at]!.bake;
      if (other !== null && this.loadOf[other]! >= 0) {
        from = this.loadOf[other]! + 1;
        break;
      }
    }
    for (let at = step + 1; at < due.length; at++) {
      const other = due[at]!.bake;
      if (other !== null && this.loadOf[other]! >= 0) {
        to = this.loadOf[other]!;
        break;
      }
    }
    return { from, to };
  }

  kindsOf(bakes: readonly number[]): number[] {
    return bakes.map((bake) => this.day.bakes[bake]!.kind).sort((a, b) => a - b);
  }

  fits(oven: number, bakes: readonly number[]): boolean {
    return this.book.fits(oven, this.kindsOf(bakes));
  }

  /** Bakes of the same load that are alike to this one and may go where it goes. */
  alike(bake: number): number[] {
    const load = this.loads[this.loadOf[bake]!]!;
    return load.bakes.filter((other) => this.day.bakes[other]!.kind === this.day.bakes[bake]!.kind);
  }
}

export type Move = (draft: Draft, random: Random) => readonly PlannedLoad[] | undefined;

export function newLoad(oven: number, bakes: readonly number[]): PlannedLoad {
  return { oven, bakes, setPointC: 0, preheat: "auto", delayMinutes: 0, coastMinutes: null };
}

export function withBakes(load: PlannedLoad, bakes: readonly number[]): PlannedLoad {
  const { setPointC: _, shelfSet: __, ...kept } = plainLoad(load);
  return { ...kept, bakes, setPointC: 0 };
}

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

/** Loads that all of them may join. */
function joinRange(draft: Draft, bakes: readonly number[]): { from: number; to: number } {
  let from = 0;
  let to = draft.loads.length;
  for (const bake of bakes) {
    const range = draft.range(bake);
    from = Math.max(from, range.from);
    to = Math.min(to, range.to);
  }
  return { from, to };
}

/** The bake, with some or all that are alike to it in its load. */
function someAlike(draft: Draft, bake: number, random: Random): number[] {
  const group = draft.alike(bake);
  return random.below(3) === 0 ? group : sample(group, 1 + random.below(group.length), bake, random);
}

function sample(group: readonly number[], count: number, always: number, random: Random): number[] {
  const rest = group.filter((bake) => bake !== always);
  while (rest.length >= count) rest.splice(random.below(rest.length), 1);
  return [always, ...rest];
}

/** Two bakes of different loads change places. */
export const swap: Move = (draft, random) => {
  const one = random.below(draft.day.bakes.length);
  const other = random.below(draft.day.bakes.length);
  const oneAt = draft.loadOf[one]!;
  const otherAt = draft.loadOf[other]!;
  if (oneAt < 0 || otherAt < 0 || oneAt === otherAt) return undefined;
  if (!inRange(draft, one, otherAt) || !inRange(draft, other, oneAt)) return undefined;
  const { loads } = draft;
  const oneLoad = [...loads[oneAt]!.bakes.filter((bake) => bake !== one), other];
  const otherLoad = [...loads[otherAt]!.bakes.filter((bake) => bake !== other), one];
  if (!draft.fits(loads[oneAt]!.oven, oneLoad) || !draft.fits(loads[otherAt]!.oven, otherLoad)) return undefined;
  const changed = [...loads];
  changed[oneAt] = withBakes(loads[oneAt]!, oneLoad);
  changed[otherAt] = withBakes(loads[otherAt]!, otherLoad);
  return changed;
};

/** Lots of alike bakes that a load may give away for one that it takes. */
const MOST_GIVEN = 3;

/** Alike bakes go to another load, full as it may be, and as many of its own as make room for them come back in their stead. */
export const trade: Move = (draft, random) => {
  const { loads } = draft;
  const bake = random.below(draft.day.bakes.length);
  const source = draft.loadOf[bake]!;
  if (source < 0) return undefined;
  const taken = someAlike(draft, bake, random);
  const { from, to } = joinRange(draft, taken);
  if (to <= from) return undefined;
  const target = from + random.below(to - from);
  if (target === source) return undefined;
  const [one, other] = [loads[source]!, loads[target]!];
  let left = other.bakes;
  for (let given = 0; given < MOST_GIVEN && left.length > 0; given++) {
    const next = someAlike(draft, left[random.below(left.length)]!, random);
    if (!next.every((back) => inRange(draft, back, source))) continue;
    left = left.filter((kept) => !next.includes(kept));
    const joined = [...left, ...taken];
    if (!draft.fits(other.oven, joined)) continue;
    const stays = one.bakes.filter((stay) => !taken.includes(stay));
    const back = [...stays, ...other.bakes.filter((gone) => !left.includes(gone))];
    return draft.fits(one.oven, back)
      ? loads.with(target, withBakes(other, joined)).with(source, withBakes(one, back))
      : undefined;
  }
  return undefined;
};

function inRange(draft: Draft, bake: number, at: number): boolean {
  const { from, to } = draft.range(bake);
  return at >= from && at < to;
}

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
