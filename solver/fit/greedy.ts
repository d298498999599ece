/** Lays pans one by one, each on the touch point that a rule likes best; the quick way in and the search's starter. */
import { emptyLaid, isFree, lay, type Laid } from "./laid.ts";
import { canTurn, turnedOutline, type FloorSize, type Outline } from "./outline.ts";
import { touchPoints, type Points } from "./touch-points.ts";

/** Liking of a place: the lowest of `alongX` × far side in x + `alongY` × far side in y, or the nearest to a corner. */
export interface Rule {
  readonly alongX: number;
  readonly alongY: number;
  /** True: distances count from the nearest wall, so that pans gather in all four corners. */
  readonly anyCorner: boolean;
}

export const standardRules: readonly Rule[] = [
  { alongX: 0.001, alongY: 1, anyCorner: false },
  { alongX: 1, alongY: 0.001, anyCorner: false },
  { alongX: 1, alongY: 1, anyCorner: true },
  { alongX: 1, alongY: 1, anyCorner: false },
];

/** Centre in the floor's frame. */
export interface Centre {
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

const scratch: Points = { count: 0, x: [], y: [] };

/** The free touch point that the rule likes best for the outline, turned or not; undefined where there is none. */
export function bestSpot(laid: Laid, outline: Outline, rule: Rule): Centre | undefined {
  const straight = bestAsItLies(laid, outline, rule, Infinity);
  if (!canTurn(outline)) return straight.score < Infinity ? { x: straight.x, y: straight.y, turned: false } : undefined;
  const turned = bestAsItLies(laid, turnedOutline(outline), rule, straight.score);
  if (turned.score < straight.score) return { x: turned.x, y: turned.y, turned: true };
  return straight.score < Infinity ? { x: straight.x, y: straight.y, turned: false } : undefined;
}

interface Scored {
  score: number;
  x: number;
  y: number;
}

function bestAsItLies(laid: Laid, outline: Outline, rule: Rule, below: number): Scored {
  const best: Scored = { score: below, x: 0, y: 0 };
  const { width, depth, slack } = laid.floor;
  const reachX = outline.coreX + outline.round;
  const reachY = outline.coreY + outline.round;
  if (2 * reachX > width + slack || 2 * reachY > depth + slack) return { score: Infinity, x: 0, y: 0 };
  touchPoints(laid, outline, scratch);
  for (let i = 0; i < scratch.count; i++) {
    const x = scratch.x[i]!;
    const y = scratch.y[i]!;
    const alongX = rule.anyCorner ? Math.min(x - reachX, width - x - reachX) : x + reachX;
    const alongY = rule.anyCorner ? Math.min(y - reachY, depth - y - reachY) : y + reachY;
    const score = rule.alongX * alongX + rule.alongY * alongY;
    if (score < best.score - slack && isFree(laid, outline, x, y)) {
      best.score = score;
      best.x = x;
      best.y = y;
    }
  }
  return best;
}

/** The floor with these outlines on it, each at its centre. */
export function laidAt(floor: FloorSize, outlines: readonly Outline[], centres: readonly Centre[]): Laid {
  const laid = emptyLaid(floor);
  outlines.forEach((outline, at) => {
    const { x, y, turned } = centres[at]!;
    lay(laid, turned ? turnedOutline(outline) : outline, x, y);
  });
  return laid;
}

/** Lays all outlines in the given order; undefined as soon as one finds no place. Centres come in input order. */
export function layAll(
  floor: FloorSize,
  outlines: readonly Outline[],
  order: readonly number[],
  rule: Rule,
): Centre[] | undefined {
  const laid = emptyLaid(floor);
  const centres: Centre[] = [];
  for (const i of order) {
    const outline = outlines[i]!;
    const centre = bestSpot(laid, outline, rule);
    if (!centre) return undefined;
    lay(laid, centre.turned ? turnedOutline(outline) : outline, centre.x, centre.y);
    centres[i] = centre;
  }
  return centres;
}
