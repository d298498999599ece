/** What hopping works on: the layout hopped from and, while a hop is weighed, the shelves it changed. */
import { descend, descentOf, type Descent } from "./descend.ts";
import { turnedOutline } from "./outline.ts";
import { massOf, type Freight, type Tray } from "./rack.ts";
import { bodiesOf, squashOf, worstSquash, type Bodies } from "./squash.ts";

const mostEvaluations = 600;

/** One shelf at rest: its pans, how they lie, their centres (all x, then all y), its energy and each pan's share. */
export interface Rest {
  readonly pans: readonly number[];
  readonly turned: readonly boolean[];
  readonly point: Float64Array;
  readonly energy: number;
  readonly pain: Float64Array;
  readonly fits: boolean;
}

/** One shelf while a hop changes it. */
export interface Draft {
  readonly pans: number[];
  readonly turned: boolean[];
  readonly x: number[];
  readonly y: number[];
}

/** Working arrays by number of pans. */
export type Workshop = Map<number, Descent>;

export function draftOf(rest: Rest): Draft {
  const count = rest.pans.length;
  return {
    pans: rest.pans.slice(),
    turned: rest.turned.slice(),
    x: Array.from(rest.point.subarray(0, count)),
    y: Array.from(rest.point.subarray(count)),
  };
}

/** Lets a shelf fall to rest; returns it with the number of evaluations spent. */
export function settle(
  freight: Freight,
  tray: Tray,
  draft: Draft,
  workshop: Workshop,
): { readonly rest: Rest; readonly evaluations: number } {
  const count = draft.pans.length;
  const outlines = draft.pans.map((pan, at) => {
    const outline = freight.outlines[pan]!;
    return draft.turned[at]! ? turnedOutline(outline) : outline;
  });
  const bodies = bodiesOf(tray.floor, outlines);
  const point = new Float64Array(2 * count);
  point.set(draft.x);
  point.set(draft.y, count);
  const work = workshop.get(count) ?? descentOf(2 * count);
  workshop.set(count, work);
  const enough = 0.25 * tray.floor.slack * tray.floor.slack;
  const fallen = descend(work, (at, gradient) => squashOf(bodies, at, gradient), point, enough, mostEvaluations);
  return { rest: restOf(bodies, draft, point, work), evaluations: fallen.evaluations };
}

function restOf(bodies: Bodies, draft: Draft, point: Float64Array, work: Descent): Rest {
  const energy = squashOf(bodies, point, work.gradient);
  const fits = energy < 1e-6 && worstSquash(bodies, point) <= bodies.floor.slack;
  return { pans: draft.pans, turned: draft.turned, point, energy, pain: bodies.pain, fits };
}

/** Whether the shelf bears the pans. */
export function bears(freight: Freight, tray: Tray, pans: readonly number[]): boolean {
  return tray.maxKg === Infinity || massOf(freight, pans) <= tray.maxKg + 1e-9;
}
