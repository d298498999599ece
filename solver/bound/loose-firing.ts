/**
 * What no legal firing of a load undercuts, whatever shelves its pans stand on and however warm the chamber is within a
 * bucket: every set-point, burner-off and unloading minute is looked at, the warm end of everything for what more heat
 * helps, the cool end for what less heat helps. Asked by the exact search.
 */
import type { DayModel } from "../day/day-model.ts";
import { burnRun, heatUp, LONGEST_MINUTES, newWorkspace } from "../heat/burn-run.ts";
import type { BurnRun } from "../heat/burn-run.ts";
import { chamberAfterDoor } from "../heat/chamber.ts";
import { rowAtUnload, talliesAtUnload } from "../heat/coast.ts";
import { minutesToHandle } from "../heat/cooling.ts";
import { peekMinute } from "../heat/glide.ts";
import type { LoadHeat } from "../heat/load-heat.ts";
import { loadHeat } from "../heat/load-heat.ts";
import type { Member } from "../heat/members.ts";
import { firstBurnerOff } from "../heat/quickest.ts";
import { peakAt, aboveLowAt } from "../heat/row.ts";
import type { ThermalCycle } from "../shop.ts";
import { gathered } from "./gathered.ts";
import type { Draft } from "./loose-drafts.ts";
import { draftsAt, HAIR_MINUTES } from "./loose-drafts.ts";

/** Minutes and gas from door closing to unloading; chamber °C when unloading is done. */
export interface LooseFiring {
  readonly setPointC: number;
  readonly closedMinutes: number;
  readonly gasKWh: number;
  /** The chamber is at most so warm, and at least so warm unless it is left to cool on purpose. */
  readonly hotC: number;
  readonly coolC: number;
  /** Per kind, in the order given: minutes from done to the hand. */
  readonly handMinutes: readonly number[];
  /** The same of whatever is left inside, however long, from the done of the first unloading; `hotC` is the chamber then. */
  readonly restMinutes: readonly number[];
}

/** A kind with the number of its pans in the load and the span of shelf offsets that it may stand on. */
export interface Standing {
  readonly kind: number;
  readonly count: number;
  readonly highestOffsetC: number;
  readonly lowestOffsetC: number;
}

const HAIR_K = 0.05;

export interface LooseFirings {
  readonly firings: readonly LooseFiring[];
  /** Something was ruled out as overbaked that a cooler chamber may do. */
  readonly refused: boolean;
  /** The highest set-point that anything is left of, °C; -Infinity where nothing is. */
  readonly hottestSetPointC: number;
}

/** Chambers at door opening, °C, and how many minutes and K of overbaking are forgiven; `alike` as in Grain. */
export interface ChamberRange {
  readonly coolC: number;
  readonly hotC: number;
  readonly grace: number;
  /**
   * From a cooler chamber the load may keep its windows at set-points up to this one, °C: the slower the chamber heats up, the
   * closer do light and heavy metal stay together. -Infinity where `grace` covers that.
   */
  readonly coolerUpToC: number;
  /** Lower set-points are not asked for, °C. */
  readonly leastSetPointC: number;
  readonly alike: number;
}

/** Firings from any chamber of the range, none of which another beats in everything. */
export function looseFirings(
  day: DayModel,
  cycle: ThermalCycle,
  standing: readonly Standing[],
  { coolC, hotC, grace, coolerUpToC, leastSetPointC, alike }: ChamberRange,
): LooseFirings {
  const { ambientC } = day.request;
  const hot = loadHeat(
    cycle,
    ambientC,
    standing.map((one) => warmMember(day, one)),
  );
  const cool = loadHeat(
    cycle,
    ambientC,
    standing.map((one) => coolMember(day, one)),
  );
  const up = heatUp(hot, hotC);
  const coolUp = heatUp(cool, coolC, coolEnd);
  const neededC = Math.max(...hot.guardedNode) + ambientC;
  const step = cycle.setPointStepC;
  const lowC = Math.max(leastSetPointC, hotC <= neededC ? Math.max(ambientC, neededC) : ambientC);
  const firings: LooseFiring[] = [];
  let refused = false;
  for (let at = Math.ceil(lowC / step - TINY); at * step <= cycle.setPointMaxC + TINY; at++) {
    const setPointC = at * step;
    const hotRun = burnRun(up, setPointC - ambientC, LONGEST_MINUTES);
    const first = firstBurnerOff(hotRun);
    if (first === undefined) continue;
    const drafts = draftsAt(hotRun, setPointC);
    if (drafts.length === 0) continue;
    const run = burnRun(coolUp, setPointC - ambientC, LONGEST_MINUTES);
    for (const draft of drafts) {
      if (overbaked(cool, run, draft, grace)) refused ||= run.startsAbove || setPointC <= coolerUpToC + TINY;
      else firings.push(...toldApart(finished(day, cool, standing, run, draft), alike));
    }
    // Full fire is the same for all, and higher set-points take longer to reach.
    if (!run.startsAbove && overbaked(cool, run, { burnerOff: first, unload: first }, grace)) break;
  }
  const hottestSetPointC = firings.at(-1)?.setPointC ?? -Infinity;
  return { firings: gathered(firings, alike), refused, hottestSetPointC };
}

/** The cool end is simulated beside the warm one. */
const coolEnd = newWorkspace();

function warmMember(day: DayModel, { kind, count, highestOffsetC, lowestOffsetC }: Standing): Member {
  const { body, coat } = day.kinds[kind]!;
  const { metalLowC, soakLeastMinutes } = coat.window!;
  const lowC = metalLowC - (highestOffsetC - lowestOffsetC);
  return { count, body, offsetC: lowestOffsetC, lowC, highC: Infinity, soakLeastMinutes, soakMostMinutes: Infinity };
}

function coolMember(day: DayModel, { kind, count, highestOffsetC, lowestOffsetC }: Standing): Member {
  const { body, coat, highC } = day.kinds[kind]!;
  const { metalLowC, soakLeastMinutes, soakMostMinutes } = coat.window!;
  const spread = highestOffsetC - lowestOffsetC;
  const lowC = metalLowC + spread;
  return { count, body, offsetC: highestOffsetC, lowC, highC: highC + spread, soakLeastMinutes, soakMostMinutes };
}

/** Too long or too hot even at the cool end, with the grace given. */
function overbaked(
  heat: LoadHeat,
  run: BurnRun,
  { burnerOff, unload }: Pick<Draft, "burnerOff" | "unload">,
  grace: number,
): boolean {
  const late = heat.cycle.slackMinutes;
  const rows = talliesAtUnload(run, burnerOff + late, unload + late);
  const n = heat.members.length;
  for (let member = 0; member < n; member++) {
    if (rows[peakAt(0, n, member)]! > heat.highNode[member]! + grace + HAIR_K) return true;
    if (rows[aboveLowAt(0, n, member)]! > heat.members[member]!.soakMostMinutes + grace + HAIR_MINUTES) return true;
  }
  return false;
}

/** From so coarse a grain on a pan left inside is not told from one that is not: labels of both would be many. */
const COARSE_ALIKE = 1;

function toldApart(firings: readonly LooseFiring[], alike: number): readonly LooseFiring[] {
  const [first] = firings;
  if (first === undefined || alike < COARSE_ALIKE) return firings;
  return [{ ...first, handMinutes: first.restMinutes }];
}

/**
 * Unloaded as soon as it can be, and, where a pan cools faster in a chamber that cools than in the room, from the first minute on
 * at which leaving it inside has gained something.
 */
function finished(
  day: DayModel,
  heat: LoadHeat,
  standing: readonly Standing[],
  run: BurnRun,
  draft: Draft,
): LooseFiring[] {
  const { burnerOff, unload, setPointC, gasKWh, hotC } = draft;
  const { cycle, ambientC } = heat;
  const rows = rowAtUnload(run, burnerOff, unload);
  const coolC = chamberAfterDoor(cycle, ambientC, ambientC + rows[0]!, cycle.unloadMinutes);
  const handMinutes = standing.map((one, member) => toHand(day, one, rows[1 + member]!));
  const restMinutes = [...handMinutes];
  const firing = { setPointC, closedMinutes: unload, gasKWh, hotC, coolC, handMinutes, restMinutes };
  let left: { readonly minute: number; readonly coolC: number; readonly inHand: number[] } | undefined;
  const last = lastGain(day, cycle, standing, rows);
  let longest = Math.max(...restMinutes);
  // Whoever waits so long is in the hand no sooner, however cool by then.
  for (let minute = 1; minute < longest && (left !== undefined || minute <= last); minute++) {
    const next = peekMinute(heat.coast, rows, 0, 0);
    for (let node = 0; node <= standing.length; node++) rows[node] = next[node]!;
    for (let member = 0; member < standing.length; member++) {
      const waited = minute + toHand(day, standing[member]!, rows[1 + member]!);
      if (left !== undefined) left.inHand[member] = Math.min(left.inHand[member]!, waited);
      if (waited >= restMinutes[member]!) continue;
      restMinutes[member] = waited;
      longest = Math.max(...restMinutes);
      left ??= {
        minute,
        coolC: chamberAfterDoor(cycle, ambientC, ambientC + rows[0]!, cycle.unloadMinutes),
        inHand: standing.map((one, other) => minute + toHand(day, one, rows[1 + other]!)),
      };
    }
  }
  if (left === undefined) return [firing];
  const { minute, inHand } = left;
  // Who waits longer than was looked at is in the hand no sooner than the last of those who did not.
  const latest = Math.max(...restMinutes);
  const leftMinutes = inHand.map((minutes) => Math.min(minutes, latest) - minute);
  return [firing, { ...firing, closedMinutes: unload + minute, coolC: left.coolC, handMinutes: leftMinutes }];
}

function toHand(day: DayModel, { kind, lowestOffsetC }: Standing, metalK: number): number {
  const { ambientC, booth } = day.request;
  const metalC = ambientC + lowestOffsetC + metalK;
  return minutesToHandle(day.kinds[kind]!.body, metalC, ambientC, booth.handleAtC, booth.coolFilmWPerM2K);
}

/**
 * The last minute after unloading at which a pan left inside may be cooler than one in the room; 0: at none. While the chamber
 * coasts no node (K above the room) falls below the coolest of them times what an empty chamber keeps of its heat.
 */
function lastGain(day: DayModel, cycle: ThermalCycle, standing: readonly Standing[], rows: Float64Array): number {
  const { booth, ambientC } = day.request;
  let coolest = Infinity;
  for (let node = 0; node <= standing.length; node++) coolest = Math.min(coolest, rows[node]!);
  const lossPerMinute = (60 * (cycle.wallLossWPerK + cycle.coastExhaustWPerK)) / (1000 * cycle.heatCapacityKJPerK);
  let last = 0;
  standing.forEach(({ kind, lowestOffsetC }, member) => {
    const { heatJPerK, exchangeM2 } = day.kinds[kind]!.body;
    const outside = Math.exp((-60 * booth.coolFilmWPerM2K * exchangeM2) / heatJPerK);
    const inside = coolest > 0 ? Math.exp(-lossPerMinute) : 1;
    let roomK = lowestOffsetC + rows[1 + member]!;
    let airK = coolest;
    for (let minute = 1; ambientC + roomK > booth.handleAtC; minute++) {
      roomK *= outside;
      airK *= inside;
      if (lowestOffsetC + airK < roomK + TINY) last = Math.max(last, minute);
    }
  });
  return last;
}

const TINY = 1e-9;
