/** Chooses and lays boxes of largest total value: local search over the order in which the skyline takes them. */
import type { Budget } from "./budget.ts";
import { boxArea, type FloorSize, type Outline } from "./outline.ts";
import type { Dice } from "./seeded.ts";
import { stackBoxes, stackOf, type Boxes, type Choice, type Stack } from "./skyline.ts";
import type { Filling, Goods } from "./filling.ts";

/** Best filling found with rectangles only. At least one construction is made whatever the budget. */
export function fillBoxes(floor: FloorSize, goods: Goods, budget: Budget, dice: Dice): Filling {
  const boxes = boxesOf(goods);
  const best = stackOf(boxes.count);
  const total = goods.value.reduce((sum, value) => sum + value, 0);
  let choice: Choice = "closest";
  best.value = -1;
  do {
    climb(floor, boxes, goods, startOrder(goods.outlines, dice, best.value < 0), choice, best, budget, dice, total);
    choice = choice === "closest" ? "next" : "closest";
  } while (budget.left > 0 && best.value < total - 1e-9 && boxes.count > 1);
  return fillingOf(goods, boxes, best);
}

function boxesOf(goods: Goods): Boxes {
  const width = Float64Array.from(goods.outlines, (outline) => 2 * (outline.coreX + outline.round));
  const depth = Float64Array.from(goods.outlines, (outline) => 2 * (outline.coreY + outline.round));
  return {
    count: goods.outlines.length,
    width,
    depth,
    value: Float64Array.from(goods.value),
    mass: Float64Array.from(goods.massKg),
    leastSide: Math.min(...width, ...depth),
  };
}

/** Indices by area, largest first; later starts blur the areas. */
function startOrder(outlines: readonly Outline[], dice: Dice, plain: boolean): Int32Array {
  const key = outlines.map((outline) => boxArea(outline) * (plain ? 1 : 0.6 + 0.8 * dice.next()));
  return Int32Array.from(outlines.map((_, i) => i).sort((i, j) => key[j]! - key[i]! || i - j));
}

/** Trades two places in the order at a time, keeping what is no worse. */
function climb(
  floor: FloorSize,
  boxes: Boxes,
  goods: Goods,
  order: Int32Array,
  choice: Choice,
  best: Stack,
  budget: Budget,
  dice: Dice,
  total: number,
): void {
  const { count } = boxes;
  const stack = stackOf(count);
  const cost = 0.02 + count * 0.003 + count * count * 0.00012;
  let value = -1;
  let since = 0;
  const patience = 40 + 10 * count;
  while (since < patience) {
    const one = dice.below(count);
    const two = dice.below(count);
    if (value >= 0) swap(order, one, two);
    const found = stackBoxes(floor, boxes, order, choice, goods.massLeftKg, stack);
    budget.left -= cost;
    since = found > value + 1e-9 ? 0 : since + 1;
    if (found < value) swap(order, one, two);
    else value = found;
    if (found > best.value + 1e-9) keep(best, stack);
    if (budget.left <= 0 || best.value >= total - 1e-9 || count < 2) return;
  }
}

function swap(order: Int32Array, one: number, two: number): void {
  const held = order[one]!;
  order[one] = order[two]!;
  order[two] = held;
}

function keep(best: Stack, stack: Stack): void {
  best.value = stack.value;
  best.standing = stack.standing;
  best.stands.set(stack.stands);
  best.x.set(stack.x);
  best.y.set(stack.y);
  best.turned.set(stack.turned);
}

function fillingOf(goods: Goods, boxes: Boxes, stack: Stack): Filling {
  const chosen: number[] = [];
  const centres = [];
  for (let i = 0; i < boxes.count; i++) {
    if (stack.stands[i] === 0) continue;
    const turned = stack.turned[i] === 1;
    const width = turned ? boxes.depth[i]! : boxes.width[i]!;
    const depth = turned ? boxes.width[i]! : boxes.depth[i]!;
    chosen.push(i);
    centres.push({ x: stack.x[i]! + width / 2, y: stack.y[i]! + depth / 2, turned });
  }
  return { chosen, centres, value: Math.max(0, stack.value) };
}
