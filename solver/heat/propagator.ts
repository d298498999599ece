/**
 * Steps the chamber and its pans through time where the burner's heat is constant. The equations are linear, so one
 * step of fixed length is a matrix: exact, whatever the stiffness of a light pan, and a few dozen multiplications.
 *
 * State: chamber, then one node per member, in K above the room; a member's node is its metal less its shelf offset,
 * which takes the offset out of the equations. Time in minutes, heat in W.
 */

/** dx₀/dt = p·P − c·x₀ + Σ aᵢ·xᵢ and dxᵢ/dt = kᵢ·(x₀ − xᵢ). */
export interface Network {
  /** One per member: kᵢ, 1/min. */
  readonly memberRate: Float64Array;
  /** One per member: aᵢ, 1/min. */
  readonly chamberGain: Float64Array;
  /** c, 1/min. */
  readonly chamberLoss: number;
  /** p, K per W·min. */
  readonly kelvinPerWattMinute: number;
}

export interface Propagator {
  readonly network: Network;
  /** Row by row: state after one minute = minute · state + minuteHeat · P. */
  readonly minute: Float64Array;
  readonly minuteHeat: Float64Array;
  /** The same for one part, a minute over a power of two, short enough for cubic interpolation. */
  readonly part: Float64Array;
  readonly partHeat: Float64Array;
  readonly parts: number;
  /** Bound on the fastest rate of the network, 1/min. */
  readonly fastest: number;
}

/** Steps with rate·length up to this interpolate to about 1e-4 of a mode's size (cubic Hermite: x⁴/384). */
const RATE_TIMES_PART = 0.5;
/** Finer parts than this would follow metal thinner than any pan. */
const MOST_PARTS = 256;
/** Taylor terms for rate·length up to RATE_TIMES_PART: the first left out is below 1e-12. */
const TAYLOR_TERMS = 11;

export function makePropagator(network: Network): Propagator {
  const size = network.memberRate.length + 1;
  // The scaled matrix is symmetric and minus a sum of squares, which bounds its largest eigenvalue like this.
  const fastest = Math.max(network.chamberLoss, 0) + network.memberRate.reduce((most, rate) => Math.max(most, rate), 0);
  let parts = 1;
  while (fastest / parts > RATE_TIMES_PART && parts < MOST_PARTS) parts *= 2;
  let pieces = parts;
  while (fastest / pieces > RATE_TIMES_PART) pieces *= 2;
  reserve(size);
  taylorStep(network, 1 / pieces);
  for (; pieces > parts; pieces /= 2) double(size);
  const part = kept(size);
  for (; pieces > 1; pieces /= 2) double(size);
  const minute = parts === 1 ? part : kept(size);
  return {
    network,
    minute: minute.matrix,
    minuteHeat: minute.heat,
    part: part.matrix,
    partHeat: part.heat,
    parts,
    fastest,
  };
}

interface Step {
  readonly matrix: Float64Array;
  readonly heat: Float64Array;
}

/** One step of the matrix: the state at `from[offset…]` under `watts` of burner heat, into `to[toOffset…]`. */
export function stepBy(
  matrix: Float64Array,
  heat: Float64Array,
  watts: number,
  from: Float64Array,
  offset: number,
  to: Float64Array,
  toOffset: number,
): void {
  const size = heat.length;
  for (let row = 0, at = 0; row < size; row++) {
    let sum = heat[row]! * watts;
    for (let column = 0; column < size; column++) sum += matrix[at++]! * from[offset + column]!;
    to[toOffset + row] = sum;
  }
}

/** Any length of time up to a minute, by Taylor's series; slower than stepBy. */
export function stepFor(
  propagator: Propagator,
  minutes: number,
  watts: number,
  from: Float64Array,
  offset: number,
  to: Float64Array,
): void {
  const { network, fastest } = propagator;
  const size = network.memberRate.length + 1;
  const pieces = Math.max(1, Math.ceil((minutes * fastest) / RATE_TIMES_PART));
  const length = minutes / pieces;
  const term = new Float64Array(size);
  for (let node = 0; node < size; node++) to[node] = from[offset + node]!;
  for (let piece = 0; piece < pieces; piece++) {
    for (let node = 0; node < size; node++) term[node] = to[node]!;
    for (let order = 1; order <= TAYLOR_TERMS; order++) {
      differentiate(network, term, length / order);
      if (order === 1) term[0]! += network.kelvinPerWattMinute * watts * length;
      for (let node = 0; node < size; node++) to[node]! += term[node]!;
    }
  }
}

/** The step in the making, the one that it is doubled into, and a series' term: kept, because they are made by the thousand. */
let step: Step = { matrix: new Float64Array(64), heat: new Float64Array(8) };
let twice: Step = { matrix: new Float64Array(64), heat: new Float64Array(8) };
let term = new Float64Array(8);

function reserve(size: number): void {
  if (term.length === size) return;
  step = { matrix: new Float64Array(size * size), heat: new Float64Array(size) };
  twice = { matrix: new Float64Array(size * size), heat: new Float64Array(size) };
  term = new Float64Array(size);
}

/** Of its own, both in one piece of memory: thousands of loads keep theirs. */
function kept(size: number): Step {
  const numbers = new Float64Array(size * size + size);
  numbers.set(step.matrix);
  numbers.set(step.heat, size * size);
  return { matrix: numbers.subarray(0, size * size), heat: numbers.subarray(size * size) };
}

/** exp(A·t) and ∫exp(A·s)ds·p by Taylor's series, column by column. */
function taylorStep(network: Network, minutes: number): void {
  const { matrix, heat } = step;
  const size = heat.length;
  matrix.fill(0);
  for (let column = 0; column < size; column++) {
    term.fill(0);
    term[column] = 1;
    matrix[column * size + column] = 1;
    for (let order = 1; order <= TAYLOR_TERMS; order++) {
      differentiate(network, term, minutes / order);
      for (let row = 0; row < size; row++) matrix[row * size + column]! += term[row]!;
    }
  }
  heat.fill(0);
  term.fill(0);
  term[0] = network.kelvinPerWattMinute * minutes;
  for (let order = 2; order <= TAYLOR_TERMS + 1; order++) {
    for (let node = 0; node < size; node++) heat[node]! += term[node]!;
    differentiate(network, term, minutes / order);
  }
}

/** term = scale · A · term, in place. */
function differentiate(network: Network, term: Float64Array, scale: number): void {
  const { memberRate, chamberGain, chamberLoss } = network;
  const chamber = term[0]!;
  let sum = -chamberLoss * chamber;
  for (let node = 1; node < term.length; node++) {
    const metal = term[node]!;
    sum += chamberGain[node - 1]! * metal;
    term[node] = scale * memberRate[node - 1]! * (chamber - metal);
  }
  term[0] = scale * sum;
}

/** Twice the length: E·E, and E·φ + φ. */
function double(size: number): void {
  const { matrix, heat } = twice;
  matrix.fill(0);
  for (let row = 0; row < size; row++) {
    let sum = step.heat[row]!;
    for (let inner = 0; inner < size; inner++) {
      const factor = step.matrix[row * size + inner]!;
      sum += factor * step.heat[inner]!;
      for (let column = 0; column < size; column++)
        matrix[row * size + column]! += factor * step.matrix[inner * size + column]!;
    }
    heat[row] = sum;
  }
  [step, twice] = [twice, step];
}
