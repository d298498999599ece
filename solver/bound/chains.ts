/** Each pan alone in the shop: the soonest every step of its chain can happen, and the least that follows it. */
import type { DayModel, Pan } from "../day/day-model.ts";
import { StaffedTime } from "../sequence/staffed-time.ts";
import type { BakeTimes } from "./bake-times.ts";
import { bakeTimes } from "./bake-times.ts";
import type { KindTimes } from "./kind-times.ts";
import type { LoneTables } from "./lone-tables.ts";
import type { Shares } from "./load-shares.ts";
import { loadShares } from "./load-shares.ts";

/** A task of the bench, the booth or an oven. Heads are instants, tails minutes from its end to the last `done` of its pan. */
export interface Task {
  readonly pan: number;
  readonly minutes: number;
  readonly head: number;
  readonly tail: number;
  /** From its end to the hand-over of its pan. */
  readonly readyTail: number;
  /** Paint of a booth task, kind of a bake. */
  readonly kind: number;
}

export interface Chain {
  /** Last `done` of the pan's own loads; Infinity where no staffed time is left for them. */
  readonly done: number;
  /** Its hand-over. */
  readonly ready: number;
}

export interface Chains {
  readonly chains: readonly Chain[];
  readonly bench: readonly Task[];
  readonly booth: readonly Task[];
  /** From door opening to done. */
  readonly bakes: readonly Task[];
  /** Per kind. */
  readonly shares: readonly Shares[];
}

/** What a closer look has found out that `bakeTimes` and areas alone do not say. */
export interface CloserLook extends LoneTables {
  readonly shares: readonly Shares[];
  /** The door opens for a bake of this kind in that oven no sooner. */
  readonly opensFrom: (kind: number, oven: number) => number;
}

export function chainsOf(day: DayModel, closer?: CloserLook): Chains {
  const staffed = new StaffedTime(day.request.staffed);
  const times = day.kinds.map((kind, index) =>
    kind.ovens.flatMap((oven): Alone[] => {
      const one = bakeTimes(day, kind, oven);
      if (one === undefined) return [];
      const opensFrom = closer?.opensFrom(index, oven) ?? -Infinity;
      return [{ ...one, ...closerTimes(one, closer?.times.get(index)?.[oven]), opensFrom }];
    }),
  );
  const known = new Map<string, Walk>();
  const bench: Task[] = [];
  const booth: Task[] = [];
  const bakes: Task[] = [];
  const chains = day.pans.map((pan, index) => {
    const alike = `${pan.line}/${pan.due.map((due) => (due.held === null ? "" : due.held.load.id)).join("/")}`;
    const walk = known.get(alike) ?? walkOf(day, pan, times, staffed);
    known.set(alike, walk);
    for (const task of walk.bench) bench.push({ ...task, pan: index });
    for (const task of walk.booth) booth.push({ ...task, pan: index });
    for (const task of walk.bakes) bakes.push({ ...task, pan: index });
    return walk.chain;
  });
  return { chains, bench, booth, bakes, shares: closer?.shares ?? loadShares(day) };
}

interface Alone extends BakeTimes {
  readonly opensFrom: number;
}

/** Either is a floor, so that the higher counts. */
function closerTimes(one: BakeTimes, own: KindTimes | undefined): Pick<BakeTimes, "closedMinutes" | "handleMinutes"> {
  if (own === undefined) return one;
  const { loadMinutes, unloadMinutes } = one;
  return {
    closedMinutes: Math.max(one.closedMinutes, own.doneMinutes - loadMinutes - unloadMinutes),
    handleMinutes: Math.max(one.handleMinutes, own.handMinutes - loadMinutes),
  };
}

interface Walk extends Omit<Chains, "chains" | "shares"> {
  readonly chain: Chain;
}

type Place = "bench" | "booth" | "bakes";
interface Stop {
  readonly place: Place;
  readonly kind: number;
  readonly minutes: number;
  readonly head: number;
  /** Least minutes between its end and the head of the next stop. */
  readonly rest: number;
}

function walkOf(day: DayModel, pan: Pan, times: readonly (readonly Alone[])[], staffed: StaffedTime): Walk {
  const { request } = day;
  const line = request.lines[pan.line]!;
  const stops: Stop[] = [];
  let release: number = line.readyMinute;
  let done = -Infinity;
  let doable = true;
  const work = (place: Place, kind: number, minutes: number, rest: number): void => {
    const hands = place === "bench" ? request.benches : request.booth.sprayers;
    const from = Math.max(request.planFromMinute, release);
    // Without a limit on hands the minutes pass whoever is at work.
    const start = hands > 0 ? staffed.fit(Math.ceil(from - TINY), minutes) : from;
    if (start < 0) doable = false;
    const head = start < 0 ? Infinity : start;
    stops.push({ place, kind, minutes, head, rest });
    release = head + minutes + rest;
  };
  pan.due.forEach((due, step) => {
    const kind = day.kinds[due.kind]!;
    const { coat } = kind;
    if (due.held !== null) {
      release = due.held.load.done + coat.inspectMinutes;
      return;
    }
    if (step === 0 && line.prepMinutes > 0) work("bench", 0, line.prepMinutes, 0);
    if (coat.sprayMinutes > 0 && !(step === 0 && line.sprayed)) {
      work("booth", kind.paint, coat.sprayMinutes, coat.flashMinutes);
    }
    const own = times[due.kind] ?? [];
    const clean = Math.min(...own.map(({ opensFrom }) => opensFrom));
    const open = Math.ceil(Math.max(request.planFromMinute, release, own.length === 0 ? -Infinity : clean) - TINY);
    const ends = own.map((one) => bakedAlone(one, open, staffed));
    done = Math.min(Infinity, ...ends.map((end) => end.done));
    const handled = Math.min(Infinity, ...ends.map((end) => end.handled));
    const minutes = Math.min(Infinity, ...own.map(lengthOf));
    const handleRest = Math.min(Infinity, ...own.map((one) => one.loadMinutes + one.handleMinutes - minutes));
    if (!Number.isFinite(done)) doable = false;
    stops.push({ place: "bakes", kind: due.kind, minutes, head: open, rest: handleRest + coat.inspectMinutes });
    release = handled + coat.inspectMinutes;
  });
  const ready = doable ? release + request.finishMinutes : Infinity;
  return { chain: { done: doable ? done : Infinity, ready }, ...tasksOf(stops, request.finishMinutes) };
}

function lengthOf(one: BakeTimes): number {
  return one.loadMinutes + one.closedMinutes + one.unloadMinutes;
}

/** Door work within staffed time, and the whole firing where it is attended. */
function bakedAlone(one: BakeTimes, open: number, staffed: StaffedTime): { done: number; handled: number } {
  const whole = lengthOf(one);
  const never = { done: Infinity, handled: Infinity };
  const start = staffed.fit(open, one.attended ? whole : one.loadMinutes);
  if (start < 0) return never;
  const closes = start + one.loadMinutes;
  const unload = one.attended ? closes + one.closedMinutes : staffed.fit(closes + one.closedMinutes, one.unloadMinutes);
  if (unload < 0) return never;
  const done = unload + one.unloadMinutes;
  return { done, handled: Math.max(done, closes + one.handleMinutes) };
}

/** Tails from the back; a stop in a held load ends the pan's own tail early, which only shortens it. */
function tasksOf(stops: readonly Stop[], finishMinutes: number): Pick<Walk, Place> {
  const tasks: Record<Place, Task[]> = { bench: [], booth: [], bakes: [] };
  let after = 0;
  let afterReady = finishMinutes;
  for (const { place, kind, minutes, head, rest } of [...stops].reverse()) {
    const last = place === "bakes" && after === 0;
    const tail = last ? 0 : rest + after;
    const readyTail = rest + afterReady;
    if (Number.isFinite(head) && Number.isFinite(minutes))
      tasks[place].push({ pan: 0, minutes, head, tail, readyTail, kind });
    after = tail + minutes;
    afterReady = readyTail + minutes;
  }
  return tasks;
}

const TINY = 1e-6;
