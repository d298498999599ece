/**
 * Alike pans are given all their coats anew, from one of them on: a heavy pan that is left over, or late for hours, gains nothing by
 * a first bake sooner and all by three, each of which alone only holds others up.
 */
import type { Random } from "../random.ts";
import type { Draft, Move } from "./draft.ts";
import { someAlike } from "./draft.ts";
import type { PlannedLoad } from "./sequence.ts";
import { newLoad, withBakes } from "./sequence.ts";

/** Of loads that could take a coat one in so many is passed over: the soonest may have to wait for it. */
const PASSED_OVER = 4;
/** The first coat opens a load of its own once in so many. */
const OPENS = 3;

/** See above; coats in no load are put into one with those that follow them. */
export const rechain: Move = (draft, random) => {
  const { day } = draft;
  const first = firstCoats(draft, random);
  const coats = coatsFrom(draft, first);
  const taken = new Set(coats.flat());
  const loads = draft.loads.map((load) => {
    const stays = load.bakes.filter((bake) => !taken.has(bake));
    return stays.length === load.bakes.length ? load : withBakes(load, stays);
  });
  let from = Math.max(...first.map((bake) => draft.range(bake).from));
  for (const [step, lot] of coats.entries()) {
    const { ovens } = day.kinds[day.bakes[lot[0]!]!.kind]!;
    const start = step === 0 ? from + random.below(loads.length - from + 1) : from;
    const opens = step === 0 && random.below(OPENS) === 0;
    let at = opens ? -1 : join(draft, loads, lot, start, random);
    if (at < 0) {
      const oven = ovens[random.below(ovens.length)]!;
      if (!draft.fits(oven, lot)) return undefined;
      at = step === 0 ? start : from + random.below(loads.length - from + 1);
      loads.splice(at, 0, newLoad(oven, lot));
    }
    from = at + 1;
  }
  return loads.filter((load) => load.bakes.length > 0);
};

/** Bakes of alike pans, in one load or in none: where some are in none, half of the time of such a pan; half of the time its first. */
function firstCoats(draft: Draft, random: Random): number[] {
  const { bakes, pans } = draft.day;
  const missing = draft.missing();
  const isMissing = missing.length > 0 && random.below(2) === 0;
  const drawn = isMissing ? missing[random.below(missing.length)]! : random.below(bakes.length);
  const { pan } = bakes[drawn]!;
  const first = random.below(2) === 0 ? drawn : pans[pan]!.due.find(({ bake }) => bake !== null)!.bake!;
  if (draft.loadOf[first]! >= 0) return someAlike(draft, first, random);
  const { kind, step } = bakes[first]!;
  const isAlike = (other: number): boolean =>
    bakes[other]!.kind === kind && bakes[other]!.step === step && pans[bakes[other]!.pan]!.ticket === pans[pan]!.ticket;
  return missing.filter(isAlike);
}

/** Those bakes and, coat by coat, the bakes of their pans that follow. */
function coatsFrom({ day }: Draft, first: readonly number[]): number[][] {
  const coats: number[][] = [];
  for (const bake of first) {
    const { pan, step } = day.bakes[bake]!;
    let coat = 0;
    for (const due of day.pans[pan]!.due.slice(step)) if (due.bake !== null) (coats[coat++] ??= []).push(due.bake);
  }
  return coats;
}

/** Puts bakes into the first load from `start` on that takes them and is not passed over, and answers it; -1 where none does. */
function join(draft: Draft, loads: PlannedLoad[], lot: readonly number[], start: number, random: Random): number {
  for (let at = start; at < loads.length; at++) {
    const load = loads[at]!;
    if (load.bakes.length === 0 || random.below(PASSED_OVER) === 0) continue;
    const joined = [...load.bakes, ...lot];
    if (!draft.fits(load.oven, joined)) continue;
    loads[at] = withBakes(load, joined);
    return at;
  }
  return -1;
}
