/** Chooses and lays discs and rectangles of largest total value: search over orders and rules of greedy laying. */
import type { Budget } from "./budget.ts";
import type { Filling, Goods } from "./filling.ts";
import { bestSpot, standardRules, type Centre, type Rule } from "./greedy.ts";
import { emptyLaid, lay } from "./laid.ts";
import { boxArea, isDisc, turnedOutline, type FloorSize, type Outline } from "./outline.ts";
import type { Dice } from "./seeded.ts";

/** Best filling found. At least one construction is made whatever the budget. */
export function fillMixed(floor: FloorSize, goods: Goods, budget: Budget, dice: Dice): Filling {
  const total = goods.value.reduce((sum, value) => sum + value, 0);
  const order = sizeOrder(goods.outlines);
  let best: Filling = { chosen: [], centres: [], value: -1 };
  let base = -1;
  let since = 0;
  for (let round = 0; round === 0 || (budget.left > 0 && best.value < total - 1e-9); round++) {
    const rule = round < 4 ? standardRules[round]! : anyRule(dice);
    const one = dice.below(order.length);
    const two = dice.below(order.length);
    if (round >= 4) trade(order, one, two);
    const found = layMost(floor, goods, order, rule, budget);
    since = found.value > base + 1e-9 ? 0 : since + 1;
    if (found.value >= base) base = found.value;
    else if (round >= 4) trade(order, one, two);
    if (found.value > best.value + 1e-9) best = found;
    if (since > 20 + 4 * order.length) {
      const key = goods.outlines.map((outline) => boxArea(outline) * (0.6 + 0.8 * dice.next()));
      order.sort((i, j) => key[j]! - key[i]! || i - j);
      base = -1;
      since = 0;
    }
  }
  return best;
}

function sizeOrder(outlines: readonly Outline[]): number[] {
  const areas = outlines.map(boxArea);
  return outlines.map((_, i) => i).sort((i, j) => areas[j]! - areas[i]! || i - j);
}

function trade(order: number[], one: number, two: number): void {
  const held = order[one]!;
  order[one] = order[two]!;
  order[two] = held;
}

/** A standard rule, or towards a direction drawn by chance. */
function anyRule(dice: Dice): Rule {
  if (dice.next() < 0.5) return standardRules[dice.below(standardRules.length)]!;
  const angle = (dice.next() * Math.PI) / 2;
  return { alongX: Math.cos(angle), alongY: Math.sin(angle), anyCorner: dice.next() < 0.3 };
}

/** Lays what finds a place, in order. A size that found none is not tried again: the floor only gets fuller. */
export function layMost(floor: FloorSize, goods: Goods, order: readonly number[], rule: Rule, budget: Budget): Filling {
  const laid = emptyLaid(floor);
  const chosen: number[] = [];
  const centres: Centre[] = [];
  const failed: Outline[] = [];
  let value = 0;
  let mass = goods.massLeftKg;
  for (const i of order) {
    const outline = goods.outlines[i]!;
    if (goods.massKg[i]! > mass || failed.some((other) => covers(outline, other))) continue;
    budget.left -= 0.08 + 0.0016 * laid.count * laid.count + (isDisc(outline) ? 0 : 0.015 * laid.count);
    const centre = bestSpot(laid, outline, rule);
    if (!centre) {
      failed.push(outline);
      continue;
    }
    lay(laid, centre.turned ? turnedOutline(outline) : outline, centre.x, centre.y);
    chosen.push(i);
    centres.push(centre);
    value += goods.value[i]!;
    mass -= goods.massKg[i]!;
  }
  return { chosen, centres, value };
}

/** Whether the first outline needs at least the room of the second. */
function covers(first: Outline, second: Outline): boolean {
  return first.round >= second.round && first.coreX >= second.coreX && first.coreY >= second.coreY;
}
