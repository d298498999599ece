/** Lays the pans of a load one by one, each on the first shelf of its list that has room: the quick way in. */
import { bestSpot, standardRules, type Centre, type Rule } from "./greedy.ts";
import { emptyLaid, lay, type Laid } from "./laid.ts";
import { canTurn, turnedOutline, type Outline } from "./outline.ts";
import { massSlackKg } from "./freight.ts";
import type { Freight, Rack, Tray } from "./rack.ts";
import { usableArea } from "./shelf-bounds.ts";

interface Shelf {
  readonly laid: Laid;
  readonly members: number[];
  readonly centres: Centre[];
  massLeft: number;
  areaLeft: number;
  /** Outlines that found no place; the shelf only gets fuller. */
  readonly failed: Outline[];
}

/** Tries a few orders and rules; the rack of the first that places all, else the one with the smallest pool. */
export function layGreedily(freight: Freight, trays: readonly Tray[]): Rack {
  let best: Rack | undefined;
  let leastArea = Infinity;
  for (const pass of passes) {
    const rack = onePass(freight, trays, pass.order(freight), pass.rule, pass.fullest);
    if (rack.pool.length === 0) return rack;
    const area = rack.pool.reduce((sum, i) => sum + freight.area[i]!, 0);
    if (area < leastArea) best = rack;
    leastArea = Math.min(leastArea, area);
  }
  return best!;
}

const bySize = (freight: Freight): number[] =>
  freight.area.map((_, i) => i).sort((i, j) => freight.area[j]! - freight.area[i]! || i - j);

/** Pans with the fewest shelves first, large before small. */
const byChoice = (freight: Freight): number[] =>
  bySize(freight).sort((i, j) => freight.allowed[i]!.length - freight.allowed[j]!.length);

/** Pans with the fewest shelves first, heavy before light. */
const byMass = (freight: Freight): number[] =>
  bySize(freight)
    .sort((i, j) => freight.massKg[j]! - freight.massKg[i]!)
    .sort((i, j) => freight.allowed[i]!.length - freight.allowed[j]!.length);

/** `fullest`: of the shelves in a pan's list, the fullest with room instead of the first. */
const passes = [
  { order: bySize, rule: standardRules[0]!, fullest: false },
  { order: byChoice, rule: standardRules[2]!, fullest: false },
  { order: byChoice, rule: standardRules[0]!, fullest: true },
  { order: byMass, rule: standardRules[1]!, fullest: false },
];

function onePass(
  freight: Freight,
  trays: readonly Tray[],
  order: readonly number[],
  rule: Rule,
  fullest: boolean,
): Rack {
  const leastRound = Math.min(...freight.outlines.map((outline) => outline.round));
  const shelves = trays.map((tray) => ({
    laid: emptyLaid(tray.floor),
    members: [],
    centres: [],
    massLeft: tray.maxKg + massSlackKg,
    areaLeft: usableArea(tray.floor, leastRound) * (1 + 1e-9),
    failed: [],
  }));
  const pool = order.filter((i) => {
    const allowed = freight.allowed[i]!;
    const list = fullest ? [...allowed].sort((a, b) => shelves[a]!.areaLeft - shelves[b]!.areaLeft || a - b) : allowed;
    return !list.some((at) => layOn(shelves[at]!, freight, i, rule));
  });
  const filled = trays.map((tray, at) => ({ ...tray, members: shelves[at]!.members, centres: shelves[at]!.centres }));
  return { freight, trays: filled, pool };
}

function layOn(shelf: Shelf, freight: Freight, i: number, rule: Rule): boolean {
  const outline = freight.outlines[i]!;
  if (freight.massKg[i]! > shelf.massLeft || freight.area[i]! > shelf.areaLeft) return false;
  if (shelf.failed.some((other) => covers(outline, other))) return false;
  const centre = bestSpot(shelf.laid, outline, rule);
  if (!centre) {
    shelf.failed.push(outline);
    return false;
  }
  lay(shelf.laid, centre.turned && canTurn(outline) ? turnedOutline(outline) : outline, centre.x, centre.y);
  shelf.members.push(i);
  shelf.centres.push(centre);
  shelf.massLeft -= freight.massKg[i]!;
  shelf.areaLeft -= freight.area[i]!;
  return true;
}

/** Whether the first outline needs at least the room of the second. */
function covers(first: Outline, second: Outline): boolean {
  return first.round >= second.round && first.coreX >= second.coreX && first.coreY >= second.coreY;
}
