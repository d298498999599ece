/**
 * Turns a model into what the simplex library can be trusted with: minimise, every unknown at least 0, no bounds but
 * rows, numbers of similar size. Scale factors are powers of two, so scaling itself rounds nothing.
 */
import type { Box, LinearModel } from "./model.ts";

/** x[column] = base[column] + Σ over its parts of factor · part. Fixed columns have no part. */
export interface Part {
  readonly column: number;
  readonly factor: number;
  readonly cost: number;
}

/** One row of the tableau; `row` is the model's row it stands for, -1 for a bound. */
export interface TableauRow {
  readonly row: number;
  readonly kind: "<=" | ">=";
  readonly rhs: number;
  readonly parts: readonly number[];
  readonly values: readonly number[];
}

export interface StandardForm {
  readonly base: Float64Array;
  readonly parts: readonly Part[];
  /** Indices into `parts` of each column: none when fixed, two when free both ways. */
  readonly partsOf: readonly (readonly number[])[];
  readonly rows: readonly TableauRow[];
  /** Dual of a model row = dual of its tableau row · rowScale / costScale, in the minimising sense. */
  readonly rowScale: Float64Array;
  readonly costScale: number;
}

export function toStandardForm(model: LinearModel, box: Box): StandardForm {
  const scale = findScale(model, box);
  const sign = model.sense === "max" ? -1 : 1;
  const base = new Float64Array(model.columns.length);
  const parts: Part[] = [];
  const partsOf = model.columns.map((column, j) => {
    const { from, factors } = shiftOrSplit(box.low[j] ?? 0, box.high[j] ?? Infinity, scale.column[j] ?? 1);
    base[j] = from;
    return factors.map(
      (factor) => parts.push({ column: j, factor, cost: sign * scale.cost * column.cost * factor }) - 1,
    );
  });
  const rows = [...modelRows(model, scale.row, base, parts, partsOf), ...boundRows(box, parts, partsOf)];
  return { base, parts, partsOf, rows, rowScale: scale.row, costScale: scale.cost };
}

/** x of a point given by the values of the parts. */
export function toColumns(form: StandardForm, values: ArrayLike<number>): number[] {
  const x = Array.from(form.base);
  form.parts.forEach((part, k) => (x[part.column] = (x[part.column] ?? 0) + part.factor * (values[k] ?? 0)));
  return x;
}

function shiftOrSplit(low: number, high: number, size: number): { from: number; factors: readonly number[] } {
  if (low === high) return { from: low, factors: [] };
  if (low > -Infinity) return { from: low, factors: [size] };
  if (high < Infinity) return { from: high, factors: [-size] };
  return { from: 0, factors: [size, -size] };
}

function modelRows(
  model: LinearModel,
  rowScale: Float64Array,
  base: Float64Array,
  parts: readonly Part[],
  partsOf: readonly (readonly number[])[],
): TableauRow[] {
  return model.rows.flatMap((row, i) => {
    const size = rowScale[i] ?? 1;
    const at: number[] = [];
    const values: number[] = [];
    let rhs = row.rhs;
    row.columns.forEach((j, k) => {
      const value = row.values[k] ?? 0;
      rhs -= value * (base[j] ?? 0);
      for (const part of partsOf[j] ?? []) {
        at.push(part);
        values.push(value * (parts[part]?.factor ?? 0) * size);
      }
    });
    const kinds = row.kind === "=" ? (["<=", ">="] as const) : [row.kind];
    return kinds.map((kind) => ({ row: i, kind, rhs: rhs * size, parts: at, values }));
  });
}

function boundRows(box: Box, parts: readonly Part[], partsOf: readonly (readonly number[])[]): TableauRow[] {
  return partsOf.flatMap((own, j) => {
    const first = own[0];
    const span = (box.high[j] ?? Infinity) - (box.low[j] ?? 0);
    if (first === undefined || own.length > 1 || span === Infinity) return [];
    const rhs = span / Math.abs(parts[first]?.factor ?? 1);
    return [{ row: -1, kind: "<=" as const, rhs, parts: [first], values: [1] }];
  });
}

/** Two rounds of geometric-mean scaling (textbook method) of rows and of continuous columns, then of the costs. */
function findScale(model: LinearModel, box: Box): { row: Float64Array; column: Float64Array; cost: number } {
  const row = new Float64Array(model.rows.length).fill(1);
  const column = new Float64Array(model.columns.length).fill(1);
  for (let round = 0; round < 2; round++) {
    const small = new Float64Array(column.length).fill(Infinity);
    const large = new Float64Array(column.length);
    model.rows.forEach((r, i) => {
      row[i] = nearPowerOfTwo(spread(r.columns.map((j, k) => Math.abs(r.values[k] ?? 0) * (column[j] ?? 1))));
      r.columns.forEach((j, k) => {
        const value = Math.abs(r.values[k] ?? 0) * (row[i] ?? 1);
        if (value === 0) return;
        small[j] = Math.min(small[j] ?? value, value);
        large[j] = Math.max(large[j] ?? value, value);
      });
    });
    model.columns.forEach((c, j) => {
      if (!c.integer && large[j]) column[j] = nearPowerOfTwo(1 / Math.sqrt((small[j] ?? 1) * (large[j] ?? 1)));
    });
  }
  const dearest = model.columns.reduce(
    (most, c, j) => (box.low[j] === box.high[j] ? most : Math.max(most, Math.abs(c.cost) * (column[j] ?? 1))),
    0,
  );
  return { row, column, cost: dearest > 0 ? nearPowerOfTwo(100 / dearest) : 1 };
}

/** The factor that brings the smallest and the largest of the values equally far from 1. */
function spread(values: readonly number[]): number {
  const real = values.filter((v) => v > 0);
  return real.length === 0 ? 1 : 1 / Math.sqrt(Math.min(...real) * Math.max(...real));
}

function nearPowerOfTwo(value: number): number {
  return 2 ** Math.round(Math.log2(value));
}
