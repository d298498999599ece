/** A linear or mixed-integer model in matrix form, without names: what `lp.ts` solves and what the models of `lp-models/` build. */

export interface LinearModel {
  readonly sense: "min" | "max";
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** One unknown. `low` is 0 and `high` is Infinity when absent; `low: -Infinity` makes it free downwards. */
export interface Column {
  readonly cost: number;
  readonly low?: number;
  readonly high?: number;
  readonly integer?: boolean;
}

/** Σ values[k] · x[columns[k]] compared with `rhs`; a column may appear once. */
export interface Row {
  readonly kind: "<=" | ">=" | "=";
  readonly rhs: number;
  readonly columns: readonly number[];
  readonly values: readonly number[];
}

/** Bounds of every column, the model's own or those of one branch of an integer search. */
export interface Box {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** The model's own bounds; those of integer columns are rounded inwards. */
export function boxOf(model: LinearModel): Box {
  const low = Float64Array.from(model.columns, (c) => (c.integer ? Math.ceil((c.low ?? 0) - 1e-9) : (c.low ?? 0)));
  const high = Float64Array.from(model.columns, (c) =>
    c.integer ? Math.floor((c.high ?? Infinity) + 1e-9) : (c.high ?? Infinity),
  );
  return { low, high };
}

/** The cost of a point, recomputed from the model. */
export function costOf(model: LinearModel, x: readonly number[]): number {
  let sum = 0;
  model.columns.forEach((column, j) => (sum += column.cost * (x[j] ?? 0)));
  return sum;
}
