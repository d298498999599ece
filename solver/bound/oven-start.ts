/** A chamber between two loads as the exact search sees it: how warm it can be at a door's opening, and what that takes. */
import { chamberAfterIdle, chamberAfterVent, minutesToFall } from "../heat/chamber.ts";
import { emptyFiring } from "../heat/empty-firing.ts";
import { cleanBurnSetPointC } from "../loads/mixing.ts";
import type { StaffedTime } from "../sequence/staffed-time.ts";
import type { Mixing, ThermalCycle } from "../shop.ts";
import type { Label } from "./label.ts";
import { latestEnd } from "./last-work.ts";
import type { ProofTask } from "./proof-task.ts";

/** Shut since `free`; `hotC` at most, and no cooler than `coolC` unless left to cool. */
export interface Shut {
  readonly free: number;
  readonly hotC: number;
  readonly coolC: number;
  /** What made it hot may have ended at any later minute: the chamber is then as hot whenever the door opens. */
  readonly keepsHot: boolean;
  /** It has stood so before the door opens for so many minutes in any case. */
  readonly shutMinutes: number;
  readonly gasKWh: number;
}

/**
 * A label has its loads as soon as may be, but a plan may fire one later, so that less of its heat is lost before the next. Only
 * the chamber that the day begins with falls in any case.
 */
export function keepsHot(task: ProofTask, { free }: Label, oven: number): boolean {
  return free[oven]! > firstFree(task, oven);
}

type DayAtStart = Pick<ProofTask, "start" | "day">;

/** When the first load may have the oven: its facts are over, the plan has begun, and it is in use. */
function firstFree({ start, day }: DayAtStart, oven: number): number {
  return Math.max(start.ovenFree[oven]!, day.request.ovens[oven]!.outUntilMinute ?? 0);
}

/** The oven that the first load meets; since its facts ended its chamber has stood shut, or been vented. */
export function atFirst(task: DayAtStart, oven: number): Pick<Shut, "free" | "hotC" | "coolC"> {
  const { start, day } = task;
  const { ambientC, ovens } = day.request;
  const { cycle } = ovens[oven]!;
  const free = firstFree(task, oven);
  const leftC = start.ovenChamberC[oven]!;
  if (cycle.kind === "fixed") return { free, hotC: leftC, coolC: leftC };
  const minutes = free - start.ovenFree[oven]!;
  return {
    free,
    hotC: chamberAfterIdle(cycle, ambientC, leftC, minutes),
    coolC: chamberAfterVent(cycle, ambientC, leftC, minutes),
  };
}

export function hottestAt(cycle: ThermalCycle, ambientC: number, shut: Shut, open: number): number {
  const minutes = shut.keepsHot ? shut.shutMinutes : open - shut.free;
  return Math.min(cycle.doorLimitC, chamberAfterIdle(cycle, ambientC, shut.hotC, minutes));
}

export function coolestAt(cycle: ThermalCycle, ambientC: number, shut: Shut, open: number): number {
  return chamberAfterVent(cycle, ambientC, shut.coolC, open - shut.free);
}

/** The first whole minute at which the chamber can be down to `limitC`. */
export function cooledBy(cycle: ThermalCycle, ambientC: number, shut: Shut, limitC: number): number {
  if (shut.coolC <= limitC) return shut.free;
  // The purge of a pre-heat to a cooler set-point may cool faster than the fan.
  const lossWPerK = cycle.wallLossWPerK + Math.max(cycle.coastExhaustWPerK, cycle.exhaustWPerK);
  return Math.ceil(shut.free + minutesToFall(cycle, ambientC, { fromC: shut.coolC, toC: limitC, lossWPerK }) - TINY);
}

/** After the clean burn that is owed, done as soon and as cheaply as can be. Undefined where this oven cannot do one. */
export function cleaned(cycle: ThermalCycle, ambientC: number, mixing: Mixing, shut: Shut): Shut | undefined {
  const setPointC = cleanBurnSetPointC(mixing, cycle);
  if (setPointC === undefined) return undefined;
  const run = emptyFiring(cycle, ambientC, shut.hotC, setPointC, mixing.cleanBurn!.holdMinutes);
  if (run === undefined) return undefined;
  return {
    free: shut.free + run.minutes,
    hotC: Math.max(setPointC, run.chamberAtDoneC),
    coolC: setPointC,
    keepsHot: true,
    shutMinutes: 0,
    gasKWh: run.gasKWh,
  };
}

/** Preheats looked at together, by the lowest and the highest set-point among them, °C. */
export interface PreheatRange {
  readonly lowC: number;
  readonly highC: number;
}

/**
 * All preheats that leave the chamber hotter than `aboveC`, `togetherK` of set-points at a time, lowest first. A preheat ends on a
 * set-point; what it is left with between two of them by the time the door opens took the higher one. Above the door's limit the
 * lowest stands for all.
 */
export function* preheatRanges(cycle: ThermalCycle, aboveC: number, togetherK: number): Generator<PreheatRange> {
  const step = cycle.setPointStepC;
  const many = Math.max(1, Math.floor(togetherK / step + TINY));
  const last = Math.min(Math.floor(cycle.setPointMaxC / step + TINY), Math.ceil(cycle.doorLimitC / step - TINY));
  for (let low = Math.floor(aboveC / step + TINY) + 1; low <= last; low += many)
    yield { lowC: low * step, highC: Math.min(last, low + many - 1) * step };
}

/** A preheat before the door opens. */
export interface Preheat {
  /** Minute asked for, or later where there is no time for it before. */
  readonly open: number;
  /** It lasts so long at least. */
  readonly minutes: number;
  readonly gasKWh: number;
}

export interface PreheatTarget {
  readonly targetC: number;
  readonly isWhole: boolean;
}

/**
 * To `targetC`, ending as the door opens at minute `open`: the later the cheaper, for a warm chamber only loses heat. `isWhole`: ending on a
 * whole minute and held until then, as every preheat is, and the door may open on anything down to a set-point's step below; else
 * what the fire alone takes. Undefined where the burner does not get there.
 */
export function preheatTo(
  cycle: ThermalCycle,
  ambientC: number,
  shut: Shut,
  open: number,
  { targetC, isWhole }: PreheatTarget,
): Preheat | undefined {
  let minutes = cycle.purgeMinutes;
  let gasKWh = 0;
  const shutFor = shut.keepsHot ? shut.shutMinutes : open - shut.free;
  const chamberBefore = (sooner: number): number =>
    chamberAfterIdle(cycle, ambientC, shut.hotC, Math.max(0, shutFor - minutes - sooner));
  for (let round = 0; round < 3; round++) {
    // A minute later than it can have begun, so that the chamber is no cooler than it was.
    const startC = chamberBefore(1) + HAIR_K;
    const found = { latestC: chamberBefore(SOONER_MINUTES), hottestC: shut.hotC };
    const endC = isWhole ? Math.min(targetC, startC + leastHeatK(cycle, ambientC, found, targetC)) : targetC;
    const run = emptyFiring(cycle, ambientC, startC, endC, 0);
    if (run === undefined) return undefined;
    minutes = run.setPointAtMinutes ?? cycle.purgeMinutes;
    gasKWh = isWhole ? run.gasKWh : (cycle.burnerKW * (minutes - cycle.purgeMinutes)) / 60;
  }
  return { open: Math.max(open, Math.ceil(shut.free + minutes - TINY)), minutes, gasKWh };
}

/**
 * The same in an oven that must be attended: `last` lies inside one interval of `staffed`, right before a door that opens late enough for
 * that, or in the interval before, so much hotter that the chamber falls to `target` in the break.
 */
export function preheatsAttended(
  cycle: ThermalCycle,
  ambientC: number,
  shut: Shut,
  last: Preheat,
  { targetC, isWhole }: PreheatTarget,
  staffed: StaffedTime,
): readonly Preheat[] {
  const door = staffed.fit(last.open, cycle.loadMinutes);
  if (door < 0) return [];
  const minutes = Math.max(1, Math.ceil(last.minutes - TINY));
  const end = latestEnd(staffed.intervals, door, minutes);
  if (end >= door) return [{ ...last, open: door }];
  const found: Preheat[] = [];
  const later = staffed.fit(door - minutes, minutes);
  if (later >= 0) found.push({ ...last, open: later + minutes });
  const step = cycle.setPointStepC;
  // Backwards: what the chamber falls from.
  const leastC = chamberAfterIdle(cycle, ambientC, isWhole ? targetC - step : targetC, end - door);
  const beforeC = isWhole ? Math.ceil(leastC / step - TINY) * step : leastC;
  if (beforeC > cycle.setPointMaxC || end < shut.free) return found;
  const before = { ...shut, shutMinutes: Math.max(0, shut.shutMinutes - (door - end)) };
  const ended = preheatTo(cycle, ambientC, before, end, { targetC: beforeC, isWhole });
  if (ended !== undefined && ended.open <= end) found.push({ ...ended, open: door });
  return found;
}

/**
 * A preheat may have ended so long before the door that the chamber is down to anything above the set-point below `targetC`: it then
 * began on a chamber warmer in the same measure, though no warmer than it ever was, and heated it by so many K at least. A higher
 * set-point takes more.
 */
function leastHeatK(
  { setPointStepC }: ThermalCycle,
  ambientC: number,
  { latestC, hottestC }: { readonly latestC: number; readonly hottestC: number },
  targetC: number,
): number {
  const endK = targetC - ambientC;
  const leftK = endK - setPointStepC;
  if (leftK <= 0) return 0;
  const foundK = Math.min(hottestC - ambientC, ((latestC - ambientC) * endK) / leftK);
  return Math.max(0, endK - foundK);
}

/** It took longer than one that ends with the door, but no more than so many minutes. */
const SOONER_MINUTES = 5;
/** So near a whole minute a preheat may end on it in other arithmetic: a quarter of a second of full fire, about. */
const HAIR_K = 0.05;
const TINY = 1e-6;
