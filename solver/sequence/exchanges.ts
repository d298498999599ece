/** Changes that exchange bakes between loads, for the search. Each answers new loads, or undefined where it finds nothing to do. */
import type { Random } from "../random.ts";
import type { Draft, Move } from "./draft.ts";
import { inRange, joinRange, someAlike } from "./draft.ts";
import type { PlannedLoad } from "./sequence.ts";
import { withBakes } from "./sequence.ts";

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

/** Alike bakes go to another load, full as it may be, and what makes room for them comes back in their stead. */
export const trade: Move = (draft, random) => {
  const entered = enter(draft, random);
  if (entered === undefined) return undefined;
  const { changed, source, given } = entered;
  const back = given.flat();
  if (!back.every((bake) => inRange(draft, bake, source))) return undefined;
  return isPut(draft, changed, source, back) ? changed : undefined;
};

/** Loads tried for each lot that makes room. */
const EJECT_TRIES = 4;

/** As `trade`, but what makes room goes to other loads that have some (an ejection chain of two links; Glover 1996, from memory). */
export const eject: Move = (draft, random) => {
  const entered = enter(draft, random);
  if (entered === undefined) return undefined;
  const { changed, target, given } = entered;
  for (const lot of given) {
    const { from, to } = joinRange(draft, lot);
    if (to <= from) return undefined;
    const tries = Array.from({ length: EJECT_TRIES }, () => from + random.below(to - from));
    if (!tries.some((at) => at !== target && isPut(draft, changed, at, lot))) return undefined;
  }
  return changed.filter((load) => load.bakes.length > 0);
};

/** Lots of alike bakes that a load may give away for one that it takes. */
const MOST_GIVEN = 3;

interface Entered {
  /** The loads of the draft, the lot in its new one; the old one may be left without bakes. */
  readonly changed: PlannedLoad[];
  /** Loads that the lot came from and went to. */
  readonly source: number;
  readonly target: number;
  /** Lots that made room for it and are in no load now; one at least, whether there was room or not. */
  readonly given: readonly (readonly number[])[];
}

/** Alike bakes go to another load, and as many lots of its own leave as make room for them. */
function enter(draft: Draft, random: Random): Entered | undefined {
  const { loads } = draft;
  const bake = random.below(draft.day.bakes.length);
  const source = draft.loadOf[bake]!;
  if (source < 0) return undefined;
  const taken = someAlike(draft, bake, random);
  const { from, to } = joinRange(draft, taken);
  if (to <= from) return undefined;
  const target = from + random.below(to - from);
  if (target === source) return undefined;
  const given: number[][] = [];
  let left = loads[target]!.bakes;
  while (given.length < MOST_GIVEN && left.length > 0) {
    const lot = someAlike(draft, left[random.below(left.length)]!, random).filter((one) => left.includes(one));
    given.push(lot);
    left = left.filter((kept) => !lot.includes(kept));
    const joined = [...left, ...taken];
    if (!draft.fits(loads[target]!.oven, joined)) continue;
    const stays = loads[source]!.bakes.filter((stay) => !taken.includes(stay));
    const changed = loads
      .with(target, withBakes(loads[target]!, joined))
      .with(source, withBakes(loads[source]!, stays));
    return { changed, source, target, given };
  }
  return undefined;
}

/** Puts bakes into load `at` of `changed` where they fit; false where they do not. */
function isPut(draft: Draft, changed: PlannedLoad[], at: number, bakes: readonly number[]): boolean {
  const load = changed[at]!;
  const joined = [...load.bakes, ...bakes];
  if (!draft.fits(load.oven, joined)) return false;
  changed[at] = withBakes(load, joined);
  return true;
}
