/**
 * Which of the bakes that could go in do, first come, first served. Whether a load can share a firing is asked of many bakes at
 * once while it is likely to be roomy, then of one more at a time: what bakes together bakes without some of its pans as well.
 */
import type { RecipeBook } from "../loads/recipe-book.ts";

/** A load is likely to be roomy up to this share of what full ones held lately. */
const ROOMY_SHARE = 0.8;
/** How much of what full loads held lately is the last one. */
const LAST_SHARE = 0.1;

export class LoadFiller {
  readonly #book: RecipeBook;
  /** Per bake, as in the day. */
  readonly #kindOf: Int32Array;
  /** Per kind, dm². */
  readonly #areaDm2: Float64Array;
  /** Per oven: what full loads held lately, dm². */
  readonly #fullDm2: Float64Array;

  constructor(book: RecipeBook) {
    const { bakes, kinds, request } = book.day;
    this.#book = book;
    this.#kindOf = Int32Array.from(bakes, ({ kind }) => kind);
    this.#areaDm2 = Float64Array.from(kinds, ({ areaDm2 }) => areaDm2);
    this.#fullDm2 = new Float64Array(request.ovens.length);
  }

  /** Of `asked`, in their order, each that shares a firing with those taken before it. */
  fill(oven: number, asked: readonly number[]): number[] {
    const taken: number[] = [];
    const full = new Set<number>();
    let kinds: readonly number[] = [];
    let most = asked.length;
    for (let at = 0; at < asked.length;) {
      const { bakes, next } = this.#askedAtOnce(oven, asked, at, kinds, full, most);
      if (bakes.length === 0) break;
      const more = [...kinds, ...bakes.map((bake) => this.#kindOf[bake]!)].sort((a, b) => a - b);
      if (this.#book.fits(oven, more)) {
        taken.push(...bakes);
        kinds = more;
        most = asked.length;
      } else if (bakes.length > 1) {
        most = bakes.length >> 1;
        continue;
      } else full.add(this.#kindOf[bakes[0]!]!);
      at = next;
    }
    if (full.size > 0) this.#fullDm2[oven]! += LAST_SHARE * (this.#areaOf(kinds) - this.#fullDm2[oven]!);
    return taken;
  }

  /** Bakes from `at` on to ask about together, at least one where any may go in with `kinds`, and where those after them begin. */
  #askedAtOnce(
    oven: number,
    asked: readonly number[],
    at: number,
    kinds: readonly number[],
    full: ReadonlySet<number>,
    most: number,
  ): { readonly bakes: number[]; readonly next: number } {
    const roomyDm2 = ROOMY_SHARE * this.#fullDm2[oven]!;
    const bakes: number[] = [];
    const together = [...kinds];
    let area = this.#areaOf(kinds);
    let next = at;
    for (; next < asked.length && bakes.length < most; next++) {
      const kind = this.#kindOf[asked[next]!]!;
      if (full.has(kind) || !this.#book.company.mayJoin(oven, together, kind)) continue;
      area += this.#areaDm2[kind]!;
      if (bakes.length > 0 && area > roomyDm2) break;
      bakes.push(asked[next]!);
      together.push(kind);
    }
    return { bakes, next };
  }

  #areaOf(kinds: readonly number[]): number {
    let area = 0;
    for (const kind of kinds) area += this.#areaDm2[kind]!;
    return area;
  }
}
