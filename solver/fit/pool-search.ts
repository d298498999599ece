/**
 * Empties the pool of pans that lie nowhere: takes one to three trays, offers their pans and some of the pool to them
 * anew, and keeps what leaves no more weight in the pool, now and then a little more. Pans that stay in the pool grow
 * heavier, so that the search leaves its dead ends (after L. Wei, W. Oon, W. Zhu and A. Lim, A goal-driven approach to
 * the 2D bin packing and variable-sized 2D bin packing problems, EJOR 224, 2013).
 */
import type { Budget } from "./budget.ts";
import { fillFloor } from "./fill-floor.ts";
import type { Filling } from "./filling.ts";
import type { Centre } from "./greedy.ts";
import { hopToFit } from "./hop.ts";
import { isDisc } from "./outline.ts";
import type { Rack, Tray } from "./rack.ts";
import { shuffle, type Dice } from "./seeded.ts";
import { outlinesCannotFit } from "./shelf-bounds.ts";

const mostFromPool = 12;
/** How much heavier a pan gets by each move that leaves it in the pool no lighter. */
const growth = 0.0005;
/** Largest share by which a move may make the pool heavier; seldom used to the full. */
const worsening = 0.3;

interface Search {
  readonly rack: Rack;
  readonly budget: Budget;
  readonly dice: Dice;
  /** What a pan weighs while it lies in the pool. */
  readonly weight: number[];
  /** Sets that a hop could not fit, with the effort spent on them. */
  readonly tried: Map<string, number>;
}

/** True where the pool was emptied; else the rack is left with the lightest pool found. */
export function emptyPool(rack: Rack, budget: Budget, dice: Dice): boolean {
  const search: Search = { rack, budget, dice, weight: [...rack.freight.area], tried: new Map() };
  let leastArea = areaOf(search, rack.pool);
  let best = { pool: rack.pool, trays: rack.trays.map((tray) => ({ ...tray })) };
  while (rack.pool.length > 0 && budget.left > 0) {
    budget.left -= 0.02;
    if (!offerAnew(search)) for (const i of rack.pool) search.weight[i]! *= 1 + growth;
    const area = areaOf(search, rack.pool);
    if (area >= leastArea) continue;
    leastArea = area;
    best = { pool: rack.pool, trays: rack.trays.map((tray) => ({ ...tray })) };
  }
  if (rack.pool.length === 0) return true;
  rack.pool = best.pool;
  rack.trays.forEach((tray, at) => Object.assign(tray, best.trays[at]!));
  return false;
}

function areaOf(search: Search, pans: readonly number[]): number {
  return pans.reduce((sum, i) => sum + search.rack.freight.area[i]!, 0);
}

function weightOf(search: Search, pans: readonly number[]): number {
  return pans.reduce((sum, i) => sum + search.weight[i]!, 0);
}

/** One move; true where the pool got lighter. */
function offerAnew(search: Search): boolean {
  const { rack, dice } = search;
  const drawn = drawPool(search);
  const chosen = drawTrays(search, drawn[0]!);
  let free = drawn.concat(...chosen.map((at) => rack.trays[at]!.members));
  const fillings: { at: number; members: number[]; centres: readonly Centre[] }[] = [];
  for (const at of shuffle(chosen, dice)) {
    const offered = free.filter((i) => rack.freight.allowed[i]!.includes(at));
    const filling = fillTray(search, rack.trays[at]!, offered);
    const members = filling.chosen.map((k) => offered[k]!);
    fillings.push({ at, members, centres: filling.centres });
    free = free.filter((i) => !members.includes(i));
  }
  const before = weightOf(search, drawn);
  const after = weightOf(search, free);
  if (after > before * (1 + 1e-9 + worsening * dice.next() ** 4)) return false;
  for (const { at, members, centres } of fillings) {
    rack.trays[at]!.members = members;
    rack.trays[at]!.centres = centres;
  }
  rack.pool = rack.pool.filter((i) => !drawn.includes(i)).concat(free);
  return after < before * (1 - 1e-9);
}

/** A pan of the pool and, where there are many, some others. */
function drawPool(search: Search): number[] {
  const pool = shuffle([...search.rack.pool], search.dice);
  return pool.slice(0, mostFromPool);
}

/** One tray that the pan may lie on and sometimes one or two more. */
function drawTrays(search: Search, pan: number): number[] {
  const { rack, dice } = search;
  const allowed = rack.freight.allowed[pan]!;
  const chosen = [allowed[dice.below(allowed.length)]!];
  const more = dice.next();
  for (let extra = more < 0.4 ? 0 : more < 0.85 ? 1 : 2; extra > 0; extra--) {
    const at = dice.below(rack.trays.length);
    if (!chosen.includes(at)) chosen.push(at);
  }
  return chosen;
}

function fillTray(search: Search, tray: Tray, offered: readonly number[]): Filling {
  const { rack, budget, dice, weight } = search;
  const goods = {
    outlines: offered.map((i) => rack.freight.outlines[i]!),
    value: offered.map((i) => weight[i]!),
    massKg: offered.map((i) => rack.freight.massKg[i]!),
    massLeftKg: tray.maxKg + 1e-9,
  };
  const discs = goods.outlines.some(isDisc);
  const part = { left: Math.min(budget.left, discs ? 2 + offered.length : 1 + 0.03 * offered.length) };
  const given = part.left;
  const filling = fillFloor(tray.floor, goods, part, dice);
  budget.left -= given - part.left;
  return discs ? oneMore(search, tray, offered, filling) : filling;
}

/** Tries to squeeze one more disc or rectangle in beside those chosen. */
function oneMore(search: Search, tray: Tray, offered: readonly number[], filling: Filling): Filling {
  const { rack, budget, dice, weight } = search;
  const { outlines, massKg } = rack.freight;
  const left = offered.map((_, k) => k).filter((k) => !filling.chosen.includes(k));
  if (left.length === 0) return filling;
  const extra = left[dice.below(left.length)]!;
  const wanted = [...filling.chosen, extra];
  const mass = wanted.reduce((sum, k) => sum + massKg[offered[k]!]!, 0);
  if (mass > tray.maxKg + 1e-9) return filling;
  const shapes = wanted.map((k) => outlines[offered[k]!]!);
  const key = keyOf(tray, shapes);
  const spent = search.tried.get(key) ?? 0;
  if (spent === Infinity) return filling;
  if (outlinesCannotFit(tray.floor, shapes)) {
    search.tried.set(key, Infinity);
    return filling;
  }
  const allowance = Math.min(budget.left, Math.max(10, spent));
  const part = { left: allowance };
  const centres = hopToFit(tray.floor, shapes, part, dice);
  budget.left -= allowance - part.left;
  if (!centres) {
    search.tried.set(key, spent + allowance);
    return filling;
  }
  return { chosen: wanted, centres, value: filling.value + weight[offered[extra]!]! };
}

function keyOf(tray: Tray, shapes: readonly { coreX: number; coreY: number; round: number }[]): string {
  const parts = shapes.map((shape) => `${shape.coreX},${shape.coreY},${shape.round}`).sort();
  return `${tray.floor.width}x${tray.floor.depth}:${parts.join(";")}`;
}
