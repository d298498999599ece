/** The ways to fire one load after a label: at once, left to cool, or preheated; each no dearer or later than it must be. */
import { burntStarts, needsCleanLater } from "./burnt-oven.ts";
import type { Grain } from "./grain.ts";
import type { Label } from "./label.ts";
import type { LoadSet } from "./load-sets.ts";
import { CoolerChambers } from "./cooler-chambers.ts";
import type { LooseFiring } from "./loose-firing.ts";
import type { Door } from "./next-door.ts";
import type { Shut } from "./oven-start.ts";
import { cooledBy, coolestAt, hottestAt, keepsHot, preheatRanges, preheatsAttended, preheatTo } from "./oven-start.ts";
import type { ProofTask } from "./proof-task.ts";

const TINY = 1e-6;

/** When a load is fired and how, and what it leaves. */
export interface Way {
  readonly open: number;
  readonly done: number;
  readonly gasKWh: number;
  readonly firing: LooseFiring;
  /** A clean burn that the oven owed comes before it. */
  readonly isBurnt: boolean;
  /** Per kind: least minutes from done to the hand, of each firing that this stands for from its own done. */
  readonly restMinutes: readonly number[];
}

export interface Asked {
  readonly set: LoadSet;
  /** Everything is sprayed and flashed. What opens at the second or later is asked for besides the first. */
  readonly doors: readonly Door[];
  /** The door closes by then. */
  readonly closesBy: number;
}

export function waysToFire(task: ProofTask, label: Label, { set, doors, closesBy }: Asked): Way[] {
  const ways = doors.flatMap((door) => waysFrom(task, label, set, { door, closesBy }));
  return undominated(ways, task.sets.grain);
}

interface AskedFrom {
  readonly door: Door;
  readonly closesBy: number;
}

function waysFrom(task: ProofTask, label: Label, set: LoadSet, { door, closesBy }: AskedFrom): Way[] {
  const { request } = task.day;
  const { oven } = set;
  const { from: ready, shutMinutes } = door;
  const { cycle } = request.ovens[oven]!;
  const ways: Way[] = [];
  const shut: Shut = {
    free: label.free[oven]!,
    hotC: label.hotC[oven]!,
    coolC: label.coolC[oven]!,
    keepsHot: keepsHot(task, label, oven),
    shutMinutes,
    gasKWh: 0,
  };
  const isSoiled = label.soiled[oven] === 1;
  const owes = isSoiled && set.needsClean;
  if (cycle.kind === "fixed") {
    if (owes) return ways;
    const open = Math.max(ready, Math.ceil(shut.free - TINY));
    const start = { open, extraKWh: 0, lowSetPointC: 0, isBurnt: false, closesBy };
    addWays(task, set, task.sets.firings(set, 0, 1).firings, start, ways);
    return ways;
  }
  if (!owes) {
    const open = Math.max(ready, Math.ceil(shut.free - TINY));
    addFrom(task, set, { shut, open, isBurnt: false, closesBy }, ways);
  }
  // There may be time for it now, and none before the load that needs it.
  if (!owes && (!isSoiled || set.soils || !needsCleanLater(task, label, oven))) return ways;
  for (const { mayPreheat, ...start } of burntStarts(task, oven, cycle, shut, ready)) {
    const from = { ...start, isBurnt: true, closesBy };
    if (mayPreheat) addFrom(task, set, from, ways);
    else addUnheated(task, set, from, ways);
  }
  return ways;
}

interface ShutFrom {
  readonly shut: Shut;
  readonly open: number;
  readonly isBurnt: boolean;
  readonly closesBy: number;
}

/** As the chamber is by then, or left to cool. */
function addUnheated(task: ProofTask, set: LoadSet, { shut, open, isBurnt, closesBy }: ShutFrom, ways: Way[]): void {
  const { ambientC, ovens } = task.day.request;
  const { cycle } = ovens[set.oven]!;
  if (cycle.kind === "fixed") return;
  const { bucketK, coolerStride } = task.sets.grain;
  const hottest = Math.ceil(hottestAt(cycle, ambientC, shut, open) / bucketK - TINY);
  const coolest = task.sets.coolestBucket();
  let stride = 1;
  const cooler = new CoolerChambers(task.sets.grain);
  for (let bucket = hottest; bucket >= coolest; bucket -= stride) {
    if (bucket < hottest) stride = 1 + ((bucket - 1) % coolerStride);
    const table = task.sets.firings(set, bucket, stride);
    const by =
      task.isPart || bucket * bucketK >= coolestAt(cycle, ambientC, shut, open)
        ? open
        : Math.max(open, cooledBy(cycle, ambientC, shut, bucket * bucketK));
    if (by === Infinity || by > cooler.by) break;
    addWays(task, set, table.firings, { open: by, extraKWh: shut.gasKWh, lowSetPointC: 0, isBurnt, closesBy }, ways);
    if (!cooler.mayGain(table, by)) break;
  }
}

/** The same, or preheated. */
function addFrom(task: ProofTask, set: LoadSet, from: ShutFrom, ways: Way[]): void {
  const { request } = task.day;
  const { ambientC } = request;
  const { cycle, attended } = request.ovens[set.oven]!;
  if (cycle.kind === "fixed") return;
  const { shut, open, isBurnt, closesBy } = from;
  addUnheated(task, set, from, ways);
  const { bucketK, preheatK } = task.sets.grain;
  const hottest = Math.ceil(hottestAt(cycle, ambientC, shut, open) / bucketK - TINY);
  const naturalC = Math.max(hottest, task.sets.coolestBucket()) * bucketK;
  for (const { lowC, highC } of preheatRanges(cycle, naturalC, preheatK)) {
    // Where other pans stand between these, their firing may have ended on any temperature of the range.
    const target = { targetC: task.isPart ? lowC - cycle.setPointStepC : lowC, isWhole: !task.isPart };
    const last = preheatTo(cycle, ambientC, shut, open, target);
    if (last === undefined) break;
    const preheats =
      attended && !task.isPart ? preheatsAttended(cycle, ambientC, shut, last, target, task.staffed) : [last];
    const leastC = lowC - cycle.setPointStepC;
    const widthK = Math.max(bucketK, preheatK);
    const coolerEnd = new CoolerChambers(task.sets.grain);
    for (let partC = highC; partC > leastC + TINY; partC -= widthK) {
      const lowSetPointC = task.isPart ? 0 : lowC;
      const table = task.sets.preheated(set, Math.max(leastC, partC - widthK), partC, lowSetPointC);
      for (const preheat of preheats) {
        const extraKWh = shut.gasKWh + preheat.gasKWh;
        addWays(task, set, table.firings, { open: preheat.open, extraKWh, lowSetPointC, isBurnt, closesBy }, ways);
      }
      if (!coolerEnd.mayGain(table, Infinity)) break;
    }
  }
}

interface Start {
  readonly open: number;
  readonly extraKWh: number;
  readonly lowSetPointC: number;
  readonly isBurnt: boolean;
  readonly closesBy: number;
}

/** Each firing in the first staffed interval that takes it. */
function addWays(
  task: ProofTask,
  set: LoadSet,
  firings: readonly LooseFiring[],
  { open, extraKWh, lowSetPointC, isBurnt, closesBy }: Start,
  ways: Way[],
): void {
  const { staffed, day } = task;
  const { cycle, attended } = day.request.ovens[set.oven]!;
  for (const firing of firings) {
    if (firing.setPointC < lowSetPointC - TINY) continue;
    const length = cycle.loadMinutes + firing.closedMinutes + cycle.unloadMinutes;
    const at = staffed.fit(open, attended ? length : cycle.loadMinutes);
    if (at < 0 || at + cycle.loadMinutes > closesBy + TINY) continue;
    // Where nobody is there to unload, pans cool down in the oven until somebody is.
    let leftMinutes = 0;
    if (!attended) {
      const could = at + cycle.loadMinutes + firing.closedMinutes;
      const unload = staffed.fit(could, cycle.unloadMinutes);
      if (unload < 0) continue;
      leftMinutes = unload - could;
    }
    const done = at + length + leftMinutes;
    ways.push({
      open: at,
      done,
      gasKWh: firing.gasKWh + extraKWh,
      firing: leftInside(firing, leftMinutes),
      isBurnt,
      restMinutes: firing.restMinutes,
    });
  }
}

/** Unloaded so many minutes later: in the hand no sooner than by `handMinutes` after the door that could have opened. */
function leftInside(firing: LooseFiring, minutes: number): LooseFiring {
  if (minutes === 0) return firing;
  return { ...firing, handMinutes: firing.handMinutes.map((hand) => Math.max(0, hand - minutes)) };
}

/** Ways that another beats but for a little are taken together with it, as the best of both in everything. */
function undominated(ways: Way[], grain: Grain): Way[] {
  ways.sort((a, b) => a.done - b.done || a.gasKWh - b.gasKWh);
  const kept: Way[] = [];
  for (const way of ways) {
    const at = kept.findIndex((better) => nearlyBeats(better, way, grain));
    if (at < 0) kept.push(way);
    else kept[at] = bestOfBoth(kept[at]!, way);
  }
  return kept;
}

function nearlyBeats(better: Way, way: Way, grain: Grain): boolean {
  if (
    better.isBurnt !== way.isBurnt ||
    better.open > way.open + grain.openMinutes ||
    better.done > way.done ||
    better.gasKWh > way.gasKWh + grain.kWh ||
    better.firing.hotC < way.firing.hotC - grain.hotK ||
    better.firing.coolC > way.firing.coolC + grain.coolK
  )
    return false;
  const hands = better.firing.handMinutes;
  for (let at = 0; at < hands.length; at++)
    if (better.done + hands[at]! > way.done + way.firing.handMinutes[at]! + grain.handMinutes) return false;
  return true;
}

function bestOfBoth(one: Way, other: Way): Way {
  const restMinutes = one.restMinutes.map((minutes, index) => Math.min(minutes, other.restMinutes[index]!));
  if (
    one.open <= other.open &&
    one.gasKWh <= other.gasKWh &&
    one.firing.hotC >= other.firing.hotC &&
    one.firing.coolC <= other.firing.coolC &&
    one.firing.handMinutes.every(
      (minutes, index) => one.done + minutes <= other.done + other.firing.handMinutes[index]!,
    )
  )
    return { ...one, restMinutes };
  const firing = {
    ...one.firing,
    hotC: Math.max(one.firing.hotC, other.firing.hotC),
    coolC: Math.min(one.firing.coolC, other.firing.coolC),
    handMinutes: one.firing.handMinutes.map((minutes, index) =>
      Math.min(minutes, other.done - one.done + other.firing.handMinutes[index]!),
    ),
  };
  const open = Math.min(one.open, other.open);
  return { ...one, open, gasKWh: Math.min(one.gasKWh, other.gasKWh), firing, restMinutes };
}
