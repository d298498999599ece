/** What a shelf can hold at most, as far as that is proven: loads that fit by area often do not as whole pans. */
import type { BakeKind } from "../day/day-model.ts";
import { massSlackKg } from "../fit/freight.ts";
import { packLoad } from "../fit/load-fit.ts";
import type { Footprint, PackPan } from "../fit/footprint.ts";
import type { Outline } from "../fit/outline.ts";
import { floorOf, outlineOf } from "../fit/outline.ts";
import { provenOverfull } from "../fit/overfull-proof.ts";
import { fitsFloor, outlinesCannotFit } from "../fit/shelf-bounds.ts";
import { fitShelf } from "../fit/shelf-fit.ts";
import { packPanOf } from "../loads/place-load.ts";
import type { Shelf, ShelfSpace } from "../shop.ts";

/** Pans of one kind and the shelves they may stand on. */
export interface Party {
  readonly kind: BakeKind;
  readonly count: number;
  readonly shelves: readonly number[];
}

/** More pans than this on one shelf are not asked for a proof by relative positions, only the largest of them. */
const MOST_PROVEN = 6;
/** Partial choices of one such proof, where it is one of many. */
export const PATIENCE = 500;
/** The same where a load hangs on it. */
export const CLOSE_PATIENCE = 10_000;
/** Partial choices of all close proofs together, some seconds; after that all are looked at as if they were one of many. */
const MOST_CLOSE = 300_000;
/** Ways to spread one load over its shelves. */
const MOST_SPREADS = 3_000;

/** Whether a shelf may hold some pans: sure, or as far as so many partial choices tell. */
interface Told {
  readonly may: boolean;
  readonly patience: number;
}

const SURE = Infinity;

const rooms = new WeakMap<ShelfSpace, ShelfRoom>();

/** What is known of an oven's shelves is kept as long as the request. */
export function roomOf(space: ShelfSpace): ShelfRoom {
  const known = rooms.get(space);
  if (known !== undefined) return known;
  const made = new ShelfRoom(space);
  rooms.set(space, made);
  return made;
}

export class ShelfRoom {
  readonly #space: ShelfSpace;
  readonly #known = new Map<string, Told>();
  #spreads = 0;
  #closeLeft = MOST_CLOSE;
  /** Partial choices that proofs have gone through so far, the measure of work. */
  looked = 0;

  constructor(space: ShelfSpace) {
    this.#space = space;
  }

  /** True only where no layout exists. */
  neverFits(parties: readonly Party[]): boolean {
    const bakes = parties.flatMap(({ kind, count, shelves }) =>
      Array.from({ length: count }, () => ({ kind, shelves })),
    );
    const fit = packLoad(
      this.#space,
      bakes.map(({ kind }) => packPanOf(kind)),
      bakes.map(({ shelves }) => shelves),
      0,
      1,
    );
    if (fit.places !== undefined) return false;
    if (fit.proven) return true;
    this.#spreads = MOST_SPREADS;
    const standing = this.#space.shelves.map((): PackPan[] => []);
    // The least free come first: they are soon told.
    const order = [...parties].sort((a, b) => a.shelves.length - b.shelves.length || areaOf(b) - areaOf(a));
    return !this.#maySpread(order, 0, standing);
  }

  /** Whether the parties from `at` on may stand beside those that stand already. */
  #maySpread(parties: readonly Party[], at: number, standing: readonly (readonly PackPan[])[]): boolean {
    const party = parties[at];
    if (party === undefined) return true;
    return this.#maySettle(parties, at, party.count, 0, standing);
  }

  /** The same with `left` pans of one party for its shelves from `shelfAt` on. */
  #maySettle(
    parties: readonly Party[],
    at: number,
    left: number,
    shelfAt: number,
    standing: readonly (readonly PackPan[])[],
  ): boolean {
    if (left === 0) return this.#maySpread(parties, at + 1, standing);
    const { kind, shelves } = parties[at]!;
    const shelf = shelves[shelfAt];
    if (shelf === undefined) return false;
    if (this.#spreads-- <= 0) return true;
    if (this.#maySettle(parties, at, left, shelfAt + 1, standing)) return true;
    const pans = [...standing[shelf]!];
    for (let here = 1; here <= left; here++) {
      pans.push(packPanOf(kind));
      if (!this.mayHold(shelf, pans, this.#closeLeft > 0 ? CLOSE_PATIENCE : PATIENCE)) return false;
      if (this.#maySettle(parties, at, left - here, shelfAt + 1, standing.with(shelf, [...pans]))) return true;
    }
    return false;
  }

  /** False only where that shelf is proven not to hold these pans together, in so many partial choices at most. */
  mayHold(at: number, pans: readonly PackPan[], patience = PATIENCE): boolean {
    const shelf = this.#space.shelves[at]!;
    const { maxKg, clearHeightCm, widthCm, depthCm } = shelf;
    if (pans.some(({ heightCm }) => heightCm > clearHeightCm)) return false;
    if (pans.reduce((sum, { massKg }) => sum + massKg, 0) > maxKg + massSlackKg * pans.length) return false;
    const key = `${widthCm}/${depthCm}/${pans
      .map(({ footprint }) => nameOf(footprint))
      .sort()
      .join()}`;
    const known = this.#known.get(key);
    if (known !== undefined && known.patience >= patience) return known.may;
    const told = this.#told(shelf, pans, patience);
    this.#known.set(key, told);
    return told.may;
  }

  #told({ widthCm, depthCm }: Shelf, pans: readonly PackPan[], most: number): Told {
    const { gapCm } = this.#space;
    const footprints = pans.map(({ footprint }) => footprint);
    const floor = floorOf(widthCm, depthCm, gapCm);
    const outlines = footprints.map((footprint) => outlineOf(footprint, gapCm));
    if (outlines.some((outline) => !fitsFloor(floor, outline)) || outlinesCannotFit(floor, outlines)) return NEVER;
    if (fitShelf(widthCm, depthCm, gapCm, footprints, 0, 1) !== undefined) return { may: true, patience: SURE };
    // Where the largest have no room, all have none.
    const largest = outlines.sort((a, b) => spanOf(b) - spanOf(a)).slice(0, MOST_PROVEN);
    const patience = { left: most };
    const overfull = provenOverfull(floor, largest, patience);
    this.looked += most - patience.left;
    if (most > PATIENCE) this.#closeLeft -= most - patience.left;
    return overfull ? NEVER : { may: true, patience: most };
  }
}

const NEVER: Told = { may: false, patience: SURE };

function spanOf({ coreX, coreY, round }: Outline): number {
  return (coreX + round) * (coreY + round);
}

function areaOf({ kind, count }: Party): number {
  return kind.areaDm2 * count;
}

function nameOf(footprint: Footprint): string {
  return footprint.kind === "disc" ? `${footprint.diameterCm}` : `${footprint.widthCm}x${footprint.depthCm}`;
}
