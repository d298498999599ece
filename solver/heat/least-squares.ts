/** Non-linear least squares for a handful of unknowns, by damped Gauss-Newton steps (Levenberg 1944, Marquardt 1963). */

export interface Fit {
  readonly values: readonly number[];
  readonly residuals: readonly number[];
  /** Standard error of each value where residuals have unit spread. */
  readonly standardErrors: readonly number[];
}

const MOST_STEPS = 60;
const SMALLEST_DAMPING = 1e-9;
const LARGEST_DAMPING = 1e12;

/** Least sum of squares of `residualsOf` from `start` on; at least as many residuals as unknowns, of full rank. */
export function leastSquares(residualsOf: (values: readonly number[]) => number[], start: readonly number[]): Fit {
  let values = [...start];
  let residuals = residualsOf(values);
  let damping = 1e-3;
  for (let step = 0; step < MOST_STEPS && damping < LARGEST_DAMPING; step++) {
    const slopes = jacobian(residualsOf, values, residuals);
    const normal = normalMatrix(slopes);
    const gradient = slopes.map((column) => dot(column, residuals));
    const before = dot(residuals, residuals);
    let improved = false;
    for (; !improved && damping < LARGEST_DAMPING; damping *= improved ? 0.2 : 5) {
      const damped = normal.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) : value)));
      const move = solve(damped, gradient);
      const moved = values.map((value, i) => value - move[i]!);
      const there = residualsOf(moved);
      const after = dot(there, there);
      if (!(after < before)) continue;
      improved = true;
      values = moved;
      residuals = there;
      if (before - after < 1e-10 * before) return fitted(residualsOf, values, residuals);
    }
    damping = Math.max(damping, SMALLEST_DAMPING);
  }
  return fitted(residualsOf, values, residuals);
}

function fitted(residualsOf: (values: readonly number[]) => number[], values: number[], residuals: number[]): Fit {
  const normal = normalMatrix(jacobian(residualsOf, values, residuals));
  const standardErrors = values.map((_, i) => {
    const unit = values.map((_value, j) => (i === j ? 1 : 0));
    return Math.sqrt(Math.max(0, solve(normal, unit)[i]!));
  });
  return { values, residuals, standardErrors };
}

const DIFFERENCE = 1e-5;

/** One column per unknown, by central differences. */
function jacobian(
  residualsOf: (values: readonly number[]) => number[],
  values: readonly number[],
  residuals: readonly number[],
): number[][] {
  return values.map((_, i) => {
    const at = (change: number): number[] => residualsOf(values.map((value, j) => (i === j ? value + change : value)));
    const [above, below] = [at(DIFFERENCE), at(-DIFFERENCE)];
    return residuals.map((_residual, k) => (above[k]! - below[k]!) / (2 * DIFFERENCE));
  });
}

function normalMatrix(columns: readonly (readonly number[])[]): number[][] {
  return columns.map((one) => columns.map((other) => dot(one, other)));
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * other[index]!, 0);
}

/** Gauss elimination with row pivots; `matrix` is square and regular. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const size = rows.length;
  for (let pivot = 0; pivot < size; pivot++) {
    let largest = pivot;
    for (let row = pivot + 1; row < size; row++)
      if (Math.abs(rows[row]![pivot]!) > Math.abs(rows[largest]![pivot]!)) largest = row;
    [rows[pivot], rows[largest]] = [rows[largest]!, rows[pivot]!];
    for (let row = pivot + 1; row < size; row++) {
      const factor = rows[row]![pivot]! / rows[pivot]![pivot]!;
      for (let column = pivot; column <= size; column++) rows[row]![column]! -= factor * rows[pivot]![column]!;
    }
  }
  const solution = Array.from({ length: size }, () => 0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = rows[row]![size]!;
    for (let column = row + 1; column < size; column++) sum -= rows[row]![column]! * solution[column]!;
    solution[row] = sum / rows[row]![row]!;
  }
  return solution;
}
