/** Words shared by the searches that choose from a pool what to lay on one floor. */
import type { Centre } from "./greedy.ts";
import type { Outline } from "./outline.ts";

/** What may be laid: outlines with their value and mass, and what the floor still bears. */
export interface Goods {
  readonly outlines: readonly Outline[];
  readonly value: readonly number[];
  readonly massKg: readonly number[];
  readonly massLeftKg: number;
}

/** Indices into the goods with their centres in the same order. */
export interface Filling {
  readonly chosen: readonly number[];
  readonly centres: readonly Centre[];
  readonly value: number;
}
