/** What the relaxations need from a simplex tableau; `lp.ts` gives it with the library. Numbers are those of the standard form. */
import type { TableauRow } from "./standard-form.ts";

export interface Tableau {
  /** Pivots from where it stands until the library stops; "stopped" when the effort allowed ran out first. */
  run(): Outcome;
  setCosts(costs: readonly number[]): void;
  /** Value of each part. */
  values(): readonly number[];
  /** What each row of the form weighs in a row of the tableau; row 0 is the cost row. */
  weights(tableauRow: number): readonly number[];
  /** The tableau row the library calls impossible. */
  impossibleRow(): number;
  /** Change of each part along the direction the library calls unbounded. */
  ray(): readonly number[];
  /** Least rise of the cost, by one dual pivot, when Σ factors · parts falls or rises by the given amounts. */
  penalty(parts: readonly number[], factors: readonly number[], fall: number, rise: number): Penalty;
  /** A copy with more rows, not yet run. */
  with(rows: readonly TableauRow[]): Tableau;
}

export type Outcome = "optimal" | "infeasible" | "unbounded" | "stopped";

export interface Penalty {
  readonly down: number;
  readonly up: number;
}

/** Counts linear programs; `work` is what is left of the pivots times tableau size allowed. */
export interface Meter {
  solves: number;
  work: number;
}
