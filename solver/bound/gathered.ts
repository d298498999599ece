/** Few firings in place of many: what others beat is left out, and near ones become one that is as good as the best of both. */
import type { LooseFiring } from "./loose-firing.ts";

/** Firings so near each other are taken together as the best of both, where they are told apart with a grain of 1. */
const ALIKE_KWH = 0.05;
const ALIKE_K = 4;
const ALIKE_MINUTES = 0.25;

/** `alike`: as in Grain. */
export function gathered(firings: readonly LooseFiring[], alike: number): LooseFiring[] {
  const sorted = [...firings].sort((a, b) => a.closedMinutes - b.closedMinutes || a.gasKWh - b.gasKWh);
  const kept: LooseFiring[] = [];
  for (const firing of sorted) {
    const at = kept.findIndex((better) => nearlyBeats(better, firing, alike));
    if (at < 0) kept.push(firing);
    else kept[at] = bestOfBoth(kept[at]!, firing);
  }
  return kept;
}

function nearlyBeats(better: LooseFiring, firing: LooseFiring, alike: number): boolean {
  const later = firing.closedMinutes - better.closedMinutes;
  if (
    later < 0 ||
    better.gasKWh > firing.gasKWh + alike * ALIKE_KWH ||
    better.hotC < firing.hotC - alike * ALIKE_K ||
    better.coolC > firing.coolC + 4 * alike * ALIKE_K ||
    better.setPointC < firing.setPointC - 2 * alike * ALIKE_K
  )
    return false;
  const minutes = alike * ALIKE_MINUTES;
  for (let at = 0; at < firing.handMinutes.length; at++) {
    if (better.handMinutes[at]! > later + firing.handMinutes[at]! + minutes) return false;
    if (better.restMinutes[at]! > firing.restMinutes[at]! + minutes) return false;
  }
  return true;
}

/** `one` is unloaded no later. */
function bestOfBoth(one: LooseFiring, other: LooseFiring): LooseFiring {
  const later = other.closedMinutes - one.closedMinutes;
  return {
    setPointC: Math.max(one.setPointC, other.setPointC),
    closedMinutes: one.closedMinutes,
    gasKWh: Math.min(one.gasKWh, other.gasKWh),
    hotC: Math.max(one.hotC, other.hotC),
    coolC: Math.min(one.coolC, other.coolC),
    handMinutes: one.handMinutes.map((minutes, index) => Math.min(minutes, later + other.handMinutes[index]!)),
    restMinutes: one.restMinutes.map((minutes, index) => Math.min(minutes, other.restMinutes[index]!)),
  };
}
