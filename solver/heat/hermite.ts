/**
 * The cubic between two instants with known values and slopes (Hermite's interpolant, any text on numerical analysis),
 * on 0…1: where it turns and where it crosses a level.
 */

/** Slopes are per whole span. */
export function cubicAt(s: number, from: number, to: number, slopeFrom: number, slopeTo: number): number {
  const u = 1 - s;
  return u * u * (from * (1 + 2 * s) + slopeFrom * s) + s * s * (to * (3 - 2 * s) - slopeTo * u);
}

/** Where the cubic turns, for slopes of opposite sign at its ends. */
export function turningPoint(from: number, to: number, slopeFrom: number, slopeTo: number): number {
  // slope(s) = a·s² + b·s + slopeFrom has exactly one root in 0…1.
  const a = 3 * (slopeFrom + slopeTo) - 6 * (to - from);
  const b = 6 * (to - from) - 4 * slopeFrom - 2 * slopeTo;
  const root = Math.sqrt(Math.max(0, b * b - 4 * a * slopeFrom));
  const q = -0.5 * (b + (b < 0 ? -root : root));
  const first = q / a;
  if (first >= 0 && first <= 1) return first;
  const second = slopeFrom / q;
  return Math.min(1, Math.max(0, second));
}

/** Where in `low`…`high` the cubic crosses `level`, given that it lies on either side of it at the two ends. */
export function crossing(
  level: number,
  from: number,
  to: number,
  slopeFrom: number,
  slopeTo: number,
  low = 0,
  high = 1,
): number {
  // value(s) = ((a·s + b)·s + slopeFrom)·s + from
  const a = slopeFrom + slopeTo - 2 * (to - from);
  const b = 3 * (to - from) - 2 * slopeFrom - slopeTo;
  const below = from - level;
  const atLow = ((a * low + b) * low + slopeFrom) * low + below;
  const atHigh = ((a * high + b) * high + slopeFrom) * high + below;
  const rising = atHigh > atLow;
  let s = atHigh === atLow ? low : low - ((high - low) * atLow) / (atHigh - atLow);
  for (let round = 0; round < 60; round++) {
    const over = ((a * s + b) * s + slopeFrom) * s + below;
    if (over < 0 === rising) low = s;
    else high = s;
    const newton = s - over / ((3 * a * s + 2 * b) * s + slopeFrom);
    const next = newton >= low && newton <= high ? newton : 0.5 * (low + high);
    if (Math.abs(next - s) < CLOSE_ENOUGH) return next;
    s = next;
  }
  return s;
}

/** Of a span of a minute or less. */
const CLOSE_ENOUGH = 1e-7;
