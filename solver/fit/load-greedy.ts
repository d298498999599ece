/** Lays the pans of a load one by one, each on the first shelf of its list that has room: the quick way in. */
import { massSlackKg } from "./freight.ts";
import { standardRules, type Rule } from "./greedy.ts";
import { centresOn, emptyShelf, laidNext, type GreedyShelf } from "./greedy-shelf.ts";
import type { Freight, Rack, Tray } from "./rack.ts";
import { usableArea } from "./shelf-bounds.ts";

interface Shelf {
  laid: GreedyShelf;
  readonly members: number[];
  massLeft: number;
  areaLeft: number;
}

/** The rack of the first order and rule that places all, else the one with the smallest pool. */
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
    laid: emptyShelf(tray.floor, rule),
    members: [],
    massLeft: tray.maxKg + massSlackKg,
    areaLeft: usableArea(tray.floor, leastRound) * (1 + 1e-9),
  }));
  const pool = order.filter((i) => {
    const allowed = freight.allowed[i]!;
    const list = fullest ? [...allowed].sort((a, b) => shelves[a]!.areaLeft - shelves[b]!.areaLeft || a - b) : allowed;
    return !list.some((at) => layOn(shelves[at]!, freight, i));
  });
  const filled = trays.map((tray, at) => {
    const { members, laid } = shelves[at]!;
    return { ...tray, members, centres: centresOn(laid) };
  });
  return { freight, trays: filled, pool };
}

function layOn(shelf: Shelf, freight: Freight, i: number): boolean {
  if (freight.massKg[i]! > shelf.massLeft || freight.area[i]! > shelf.areaLeft) return false;
  const after = laidNext(shelf.laid, freight.outlines[i]!);
  if (after === undefined) return false;
  shelf.laid = after;
  shelf.members.push(i);
  shelf.massLeft -= freight.massKg[i]!;
  shelf.areaLeft -= freight.area[i]!;
  return true;
}
