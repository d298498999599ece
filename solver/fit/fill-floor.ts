/** The best filling of one floor from a pool, and the search for a layout of all: picks the method by the shapes. */
import { withShare, type Budget } from "./budget.ts";
import { exhaustBoxes } from "./exhaust-boxes.ts";
import { fillBoxes } from "./fill-boxes.ts";
import { fillMixed } from "./fill-mixed.ts";
import type { Filling, Goods } from "./filling.ts";
import { layAll, standardRules, type Centre } from "./greedy.ts";
import { hopToFit } from "./hop.ts";
import { boxArea, isDisc, type FloorSize, type Outline } from "./outline.ts";
import type { Dice } from "./seeded.ts";
import { outlinesCannotFit } from "./shelf-bounds.ts";

/** Largest total value found for one floor. */
export function fillFloor(floor: FloorSize, goods: Goods, budget: Budget, dice: Dice): Filling {
  if (goods.outlines.length === 0) return { chosen: [], centres: [], value: 0 };
  if (goods.outlines.some(isDisc)) return fillMixed(floor, goods, budget, dice);
  return fillBoxes(floor, goods, budget, dice);
}

/** Centres of all outlines on one floor, or undefined where none were found within the budget. */
export function fitFloor(
  floor: FloorSize,
  outlines: readonly Outline[],
  budget: Budget,
  dice: Dice,
): Centre[] | undefined {
  if (outlinesCannotFit(floor, outlines)) return undefined;
  if (!outlines.some(isDisc)) return fitBoxes(floor, outlines, budget, dice);
  const order = bySize(outlines);
  for (const rule of standardRules) {
    const centres = layAll(floor, outlines, order, rule);
    if (centres) return centres;
  }
  if (budget.left <= 0) return undefined;
  const shuffled = withShare(budget, 0.1, (part) => inOrder(fillMixed(floor, goodsOf(outlines), part, dice), outlines));
  return shuffled ?? hopToFit(floor, outlines, budget, dice);
}

/** Boxes up to this many are first laid out exhaustively; so many partial layouts are tried for free. */
const fewBoxes = 9;
const freeNodes = 120;
const mostNodes = 20000;

/** Rectangles as boxes with the gap around them; then by the true distance, which lets corners come a little closer. */
function fitBoxes(floor: FloorSize, outlines: readonly Outline[], budget: Budget, dice: Dice): Centre[] | undefined {
  const area = outlines.reduce((sum, outline) => sum + boxArea(outline), 0);
  if (area <= floor.width * floor.depth * (1 + 1e-9)) {
    const centres = fitBoxed(floor, outlines, budget, dice);
    if (centres) return centres;
  }
  const gapped = outlines.some((outline) => outline.round > 0);
  return gapped && budget.left > 0 ? hopToFit(floor, outlines, budget, dice) : undefined;
}

function fitBoxed(floor: FloorSize, outlines: readonly Outline[], budget: Budget, dice: Dice): Centre[] | undefined {
  const quick = inOrder(fillBoxes(floor, goodsOf(outlines), { left: 0 }, dice), outlines);
  if (quick) return quick;
  if (outlines.length <= fewBoxes) {
    const allowed = Math.max(freeNodes, Math.min(mostNodes, budget.left * 10));
    const exhausted = exhaustBoxes(floor, outlines, allowed);
    budget.left -= Math.max(0, exhausted.nodes - freeNodes) * 0.02;
    if (exhausted.centres || exhausted.complete) return exhausted.centres;
  }
  if (budget.left <= 0) return undefined;
  return withShare(budget, 0.8, (part) => inOrder(fillBoxes(floor, goodsOf(outlines), part, dice), outlines));
}

function goodsOf(outlines: readonly Outline[]): Goods {
  return { outlines, value: outlines.map(boxArea), massKg: outlines.map(() => 0), massLeftKg: Infinity };
}

/** Centres in the outlines' order where the filling holds them all. */
function inOrder(filling: Filling, outlines: readonly Outline[]): Centre[] | undefined {
  if (filling.chosen.length < outlines.length) return undefined;
  const centres: Centre[] = [];
  filling.chosen.forEach((i, at) => (centres[i] = filling.centres[at]!));
  return centres;
}

/** Indices by box area, largest first. */
export function bySize(outlines: readonly Outline[]): number[] {
  const areas = outlines.map(boxArea);
  return outlines.map((_, i) => i).sort((i, j) => areas[j]! - areas[i]! || i - j);
}
