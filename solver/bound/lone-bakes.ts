/** Firings of one pan alone, by spans of chamber temperature at door opening; spans are halved where somebody asks closer. Kept. */
import type { LoadSet, LoadSets } from "./load-sets.ts";
import type { LooseFiring } from "./loose-firing.ts";

/** Firings from chambers between the two, °C. */
export interface Span {
  readonly coolC: number;
  readonly hotC: number;
  readonly firings: readonly LooseFiring[];
}

/** Chambers looked at together, and those that nobody tells apart any more, K. */
export const STRIDE_K = 20;
const FINEST_K = 5;

export class LoneBakes {
  readonly sets: LoadSets;
  /** Kinds that the day bakes. */
  readonly kinds: readonly number[];
  readonly #spans = new Map<LoadSet, readonly Span[]>();
  readonly #halves = new Map<Span, readonly Span[]>();

  constructor(sets: LoadSets) {
    this.sets = sets;
    this.kinds = [...new Set(sets.day.bakes.map(({ kind }) => kind))];
  }

  /** From cool to hot, `STRIDE_K` wide; one of no width in an oven of fixed cycle, none where the kind is never baked there. */
  spans(kind: number, oven: number): readonly Span[] {
    const set = this.#set(kind, oven);
    if (set === undefined) return [];
    let spans = this.#spans.get(set);
    if (spans === undefined) this.#spans.set(set, (spans = this.#lookAt(set)));
    return spans;
  }

  /** Both halves of a span of that kind and oven; none where it is narrow. */
  halves(kind: number, oven: number, span: Span): readonly Span[] {
    const { coolC, hotC } = span;
    const set = this.#set(kind, oven);
    if (set === undefined || hotC - coolC <= FINEST_K) return [];
    let halves = this.#halves.get(span);
    if (halves === undefined) {
      const middleC = (coolC + hotC) / 2;
      halves = [this.#span(set, coolC, middleC), this.#span(set, middleC, hotC)];
      this.#halves.set(span, halves);
    }
    return halves;
  }

  #set(kind: number, oven: number): LoadSet | undefined {
    return this.sets.day.kinds[kind]!.ovens.includes(oven) ? this.sets.set(oven, [kind], [1]) : undefined;
  }

  #span(set: LoadSet, coolC: number, hotC: number): Span {
    return { coolC, hotC, firings: this.sets.wideFirings(set, coolC, hotC) };
  }

  #lookAt(set: LoadSet): Span[] {
    const { day, grain } = this.sets;
    const { cycle } = day.request.ovens[set.oven]!;
    if (cycle.kind === "fixed") return [{ coolC: 0, hotC: 0, firings: this.sets.firings(set, 0, 1).firings }];
    const found: Span[] = [];
    const hottestC = this.sets.hottestBucket(set.oven) * grain.bucketK;
    for (let hotC = this.sets.coolestBucket() * grain.bucketK; ; hotC = Math.min(hottestC, hotC + STRIDE_K)) {
      found.push(this.#span(set, hotC - STRIDE_K, hotC));
      if (hotC === hottestC) return found;
    }
  }
}
