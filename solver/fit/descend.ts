/** Limited-memory quasi-Newton descent (J. Nocedal and S. Wright, Numerical Optimization, 2nd ed., algorithm 7.4). */

const memory = 6;

/** Working arrays of one problem size, reused from descent to descent. */
export interface Descent {
  readonly size: number;
  readonly gradient: Float64Array;
  readonly trial: Float64Array;
  readonly trialGradient: Float64Array;
  readonly direction: Float64Array;
  readonly steps: Float64Array[];
  readonly turns: Float64Array[];
  readonly scales: Float64Array;
  readonly shares: Float64Array;
}

export function descentOf(size: number): Descent {
  const row = (): Float64Array => new Float64Array(size);
  return {
    size,
    gradient: row(),
    trial: row(),
    trialGradient: row(),
    direction: row(),
    steps: Array.from({ length: memory }, row),
    turns: Array.from({ length: memory }, row),
    scales: new Float64Array(memory),
    shares: new Float64Array(memory),
  };
}

/** Value at a point; writes the gradient. */
export type Evaluate = (point: Float64Array, gradient: Float64Array) => number;

export interface Descended {
  readonly value: number;
  readonly evaluations: number;
}

/** Moves `point` downhill until the value is at most `enough`, stops falling, or `most` evaluations are spent. */
export function descend(
  work: Descent,
  evaluate: Evaluate,
  point: Float64Array,
  enough: number,
  most: number,
): Descended {
  let value = evaluate(point, work.gradient);
  let evaluations = 1;
  let kept = 0;
  let slow = 0;
  for (let round = 0; evaluations < most && value > enough; round++) {
    if (!downhill(work, kept, round)) kept = 0;
    const searched = lineSearch(work, evaluate, point, value, most - evaluations);
    evaluations += searched.evaluations;
    if (!(searched.value < value)) {
      if (kept === 0) break;
      kept = 0;
      continue;
    }
    slow = searched.value > value * 0.9999 ? slow + 1 : 0;
    value = searched.value;
    kept = remember(work, point, round, kept);
    if (slow >= 3) break;
  }
  return { value, evaluations };
}

/** Writes the search direction; false where the memory had to be dropped for a plain gradient step. */
function downhill(work: Descent, kept: number, round: number): boolean {
  const { size, gradient, direction, steps, turns, scales, shares } = work;
  for (let k = 0; k < size; k++) direction[k] = -gradient[k]!;
  for (let back = 1; back <= kept; back++) {
    const slot = (round - back + memory * 1024) % memory;
    const share = scales[slot]! * dot(steps[slot]!, direction, size);
    shares[back - 1] = share;
    addTimes(direction, turns[slot]!, -share, size);
  }
  if (kept > 0) {
    const last = turns[(round - 1 + memory * 1024) % memory]!;
    const scale = 1 / (scales[(round - 1 + memory * 1024) % memory]! * dot(last, last, size));
    for (let k = 0; k < size; k++) direction[k] = direction[k]! * scale;
  } else {
    for (let k = 0; k < size; k++) direction[k] = direction[k]! * 0.25;
  }
  for (let back = kept; back >= 1; back--) {
    const slot = (round - back + memory * 1024) % memory;
    const share = shares[back - 1]! - scales[slot]! * dot(turns[slot]!, direction, size);
    addTimes(direction, steps[slot]!, share, size);
  }
  if (dot(direction, gradient, size) < 0) return true;
  for (let k = 0; k < size; k++) direction[k] = -0.25 * gradient[k]!;
  return false;
}

/** Backtracks until the value falls by a little of what the slope promises (Armijo's rule). */
function lineSearch(work: Descent, evaluate: Evaluate, point: Float64Array, value: number, most: number): Descended {
  const { size, gradient, direction, trial, trialGradient } = work;
  const slope = dot(direction, gradient, size);
  let length = 1;
  let evaluations = 0;
  while (evaluations < Math.min(most, 12)) {
    for (let k = 0; k < size; k++) trial[k] = point[k]! + length * direction[k]!;
    const found = evaluate(trial, trialGradient);
    evaluations++;
    if (found <= value + 1e-4 * length * slope) return { value: found, evaluations };
    const cut = (-0.5 * slope * length) / (found - value - slope * length);
    length *= Math.min(0.5, Math.max(0.1, cut));
  }
  return { value, evaluations };
}

/** Takes the trial point over and keeps its step for the next directions; says how many are kept now. */
function remember(work: Descent, point: Float64Array, round: number, kept: number): number {
  const { size, gradient, trial, trialGradient, steps, turns, scales } = work;
  const slot = round % memory;
  const step = steps[slot]!;
  const turn = turns[slot]!;
  for (let k = 0; k < size; k++) {
    step[k] = trial[k]! - point[k]!;
    turn[k] = trialGradient[k]! - gradient[k]!;
    point[k] = trial[k]!;
    gradient[k] = trialGradient[k]!;
  }
  const bend = dot(step, turn, size);
  if (bend <= 1e-12 * dot(turn, turn, size)) return 0;
  scales[slot] = 1 / bend;
  return Math.min(memory, kept + 1);
}

function dot(first: Float64Array, second: Float64Array, size: number): number {
  let sum = 0;
  for (let k = 0; k < size; k++) sum += first[k]! * second[k]!;
  return sum;
}

function addTimes(target: Float64Array, source: Float64Array, times: number, size: number): void {
  for (let k = 0; k < size; k++) target[k] = target[k]! + times * source[k]!;
}
