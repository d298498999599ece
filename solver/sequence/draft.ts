/** A sequence's loads while it is changed: which load each bake is in, and which it may go to. */
import type { DayModel } from "../day/day-model.ts";
import type { RecipeBook } from "../loads/recipe-book.ts";
import type { Random } from "../random.ts";
import type { PlannedLoad } from "./sequence.ts";

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

/** A small change to a sequence: new loads, or undefined where it finds nothing to do. */
export type Move = (draft: Draft, random: Random) => readonly PlannedLoad[] | undefined;

/** Loads that all of them may join. */
export function joinRange(draft: Draft, bakes: readonly number[]): { from: number; to: number } {
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
export function someAlike(draft: Draft, bake: number, random: Random): number[] {
  const group = draft.alike(bake);
  return random.below(3) === 0 ? group : sample(group, 1 + random.below(group.length), bake, random);
}

function sample(group: readonly number[], count: number, always: number, random: Random): number[] {
  const rest = group.filter((bake) => bake !== always);
  while (rest.length >= count) rest.splice(random.below(rest.length), 1);
  return [always, ...rest];
}

/** A bake may join the load at `at`. */
export function inRange(draft: Draft, bake: number, at: number): boolean {
  const { from, to } = draft.range(bake);
  return at >= from && at < to;
}
