/**
 * Checks of what the simplex library says, against the model itself and not against the tableau: is a point feasible,
 * do these multipliers prove a bound, do these prove that no point exists, is this a ray of ever better points.
 * All are textbook duality (weak duality, Farkas' lemma) and cost one pass over the matrix.
 */
import type { Box, LinearModel, Row } from "./model.ts";

/** Largest allowed violation of a row, relative to the size of its terms, and of a bound. */
export const FEASIBLE = 1e-6;
/** What is taken for zero in multipliers, relative to the size of the terms they come from. */
const ZERO = 1e-9;

/** Does `x` keep every row, bound and (to 1e-6) integrality? */
export function isFeasible(model: LinearModel, box: Box, x: readonly number[]): boolean {
  const inBox = model.columns.every((column, j) => {
    const v = x[j] ?? NaN;
    const slack = FEASIBLE * Math.max(1, Math.abs(v));
    const whole = !column.integer || Math.abs(v - Math.round(v)) <= FEASIBLE;
    return whole && v >= (box.low[j] ?? 0) - slack && v <= (box.high[j] ?? Infinity) + slack;
  });
  return inBox && model.rows.every((row) => keepsRow(row, x, row.rhs));
}

/**
 * Is `ray` a direction along which rows and bounds stay kept for ever while the cost improves? With one feasible point
 * it proves that the model is unbounded.
 */
export function improvesForEver(model: LinearModel, box: Box, ray: readonly number[]): boolean {
  const size = Math.max(...ray.map(Math.abs));
  const d = ray.map((v) => (Math.abs(v) <= ZERO * size ? 0 : v / size));
  const staysInBox = d.every((v, j) => (v >= 0 || box.low[j] === -Infinity) && (v <= 0 || box.high[j] === Infinity));
  let gain = 0;
  let terms = 0;
  model.columns.forEach((column, j) => {
    gain += column.cost * (d[j] ?? 0);
    terms += Math.abs(column.cost * (d[j] ?? 0));
  });
  const better = model.sense === "max" ? gain : -gain;
  return size > 0 && staysInBox && better > 1e-7 * terms && model.rows.every((row) => keepsRow(row, d, 0));
}

/**
 * The bound that row multipliers `y` prove on the cost of any point in the box, as a least value of the minimised cost
 * (the negated cost when the sense is "max"): y·b + Σ least of (c − yA)·x over the box. -Infinity when they prove none.
 */
export function dualBound(model: LinearModel, box: Box, y: ArrayLike<number>): number {
  const sign = model.sense === "max" ? -1 : 1;
  const { weight, rhs, size } = combine(model, y);
  let bound = rhs;
  for (let j = 0; j < model.columns.length; j++) {
    const cost = sign * (model.columns[j]?.cost ?? 0);
    const reduced = cost - (weight[j] ?? 0);
    bound += leastOf(reduced, (size[j] ?? 0) + Math.abs(cost), box.low[j] ?? 0, box.high[j] ?? Infinity);
  }
  return bound;
}

/** Do the multipliers prove that no point of the box keeps all rows? True when y·A·x nowhere in the box reaches y·b. */
export function provesInfeasible(model: LinearModel, box: Box, y: ArrayLike<number>): boolean {
  const { weight, rhs, size } = combine(model, y);
  let gap = rhs;
  let terms = Math.abs(rhs);
  for (let j = 0; j < model.columns.length; j++) {
    const most = -leastOf(-(weight[j] ?? 0), size[j] ?? 0, box.low[j] ?? 0, box.high[j] ?? Infinity);
    gap -= most;
    terms += Math.abs(most);
  }
  return gap > 1e-8 * terms;
}

/** y·A per column, y·b, and the size of the terms of y·A; multipliers with the wrong sign for their row count as 0. */
function combine(model: LinearModel, y: ArrayLike<number>): { weight: Float64Array; rhs: number; size: Float64Array } {
  const weight = new Float64Array(model.columns.length);
  const size = new Float64Array(model.columns.length);
  let rhs = 0;
  model.rows.forEach((row, i) => {
    const given = y[i] ?? 0;
    const m = row.kind === "<=" ? Math.min(given, 0) : row.kind === ">=" ? Math.max(given, 0) : given;
    if (m === 0) return;
    rhs += m * row.rhs;
    row.columns.forEach((j, k) => {
      const term = m * (row.values[k] ?? 0);
      weight[j] = (weight[j] ?? 0) + term;
      size[j] = (size[j] ?? 0) + Math.abs(term);
    });
  });
  return { weight, rhs, size };
}

/** Least of reduced · x for low ≤ x ≤ high, taking a reduced cost lost in rounding for 0 where the bound is infinite. */
function leastOf(reduced: number, size: number, low: number, high: number): number {
  if (reduced === 0) return 0;
  const at = reduced > 0 ? low : high;
  if (Math.abs(at) < Infinity) return reduced * at;
  return Math.abs(reduced) <= 1e-7 * size ? 0 : -Infinity;
}

function keepsRow(row: Row, x: readonly number[], rhs: number): boolean {
  let sum = 0;
  let size = Math.max(1, Math.abs(rhs));
  row.columns.forEach((j, k) => {
    const term = (row.values[k] ?? 0) * (x[j] ?? 0);
    sum += term;
    size = Math.max(size, Math.abs(term));
  });
  const over = sum - rhs;
  return (row.kind === ">=" || over <= FEASIBLE * size) && (row.kind === "<=" || over >= -FEASIBLE * size);
}
