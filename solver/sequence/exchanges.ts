/** Changes that exchange bakes between loads, for the search. Each answers new loads, or undefined where it finds nothing to do. */
import type { Move } from "./draft.ts";
import { inRange, joinRange, someAlike } from "./draft.ts";
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
