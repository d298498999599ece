/**
 * The question of the timing LP for one timed sequence: how much later each door may open, which tasks of bench and
 * booth and which other doors that pushes, and what gas, crew and lateness come to. `lp-retime.ts` asks it.
 */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import { SEARCH_BUCKET_K } from "../loads/recipe-book.ts";
import type { Ending, Lateness, TimingTask } from "../lp-models/timing.ts";
import type { ThermalCycle } from "../shop.ts";
import type { Placed } from "./lp-placed.ts";
import type { ShopState } from "./shop-state.ts";
import type { Timetable } from "./timetable.ts";

/** `start` of activity `to` minus that of `from` is at least `minutes`. */
type Lag = readonly [from: number, to: number, minutes: number];

/** Activities: the loads in their order, then tasks of bench and booth. */
interface Activities {
  /** Start as timed. */
  readonly start: number[];
  /** Last start in the staffed interval it lies in. */
  readonly latest: number[];
  readonly benchOf: Map<number, number>;
  readonly boothOf: Map<number, number>;
}

/** Which activities of the whole the task asks about; the others stay where they are. */
export interface RetimeTask {
  readonly task: TimingTask;
  /** Per activity of the task: index into the placed loads, or -1 for a task of bench or booth. */
  readonly loadOf: readonly number[];
}

/** Undefined where no load gains by opening later, or no door can move. `reach`: nothing moves by more, minutes. */
export function retimeTask(timetable: Timetable, placed: Placed, reach: number): RetimeTask | undefined {
  const all = activitiesOf(timetable, placed);
  const lags = lagsOf(timetable, placed, all);
  const slope = gasSlopes(timetable, placed, reach);
  const free = movable(placed, all, lags, slope, reach);
  if (free.length === 0) return undefined;
  const indexOf = new Map(free.map((activity, index) => [activity, index]));
  const moves = (activity: number): boolean => indexOf.has(activity);
  const earliest = free.map((a) => all.start[a]! - (placed.loads[a]?.delayMinutes ?? 0));
  const latest = free.map((a) => Math.min(all.latest[a]!, all.start[a]! + reach));
  const least: Lag[] = [];
  for (const [from, to, minutes] of lags) {
    if (moves(from) && moves(to)) {
      least.push([indexOf.get(from)!, indexOf.get(to)!, Math.min(minutes, all.start[to]! - all.start[from]!)]);
    } else if (moves(from)) {
      const own = indexOf.get(from)!;
      latest[own] = Math.max(all.start[from]!, Math.min(latest[own]!, all.start[to]! - minutes));
    } else if (moves(to)) {
      const own = indexOf.get(to)!;
      earliest[own] = Math.min(all.start[to]!, Math.max(earliest[own]!, all.start[from]! + minutes));
    }
  }
  const task = {
    earliest,
    latest,
    least,
    lateness: [...latenessOf(timetable, placed, indexOf), ...crewOf(timetable, placed, indexOf)],
    finishRate: 0,
    finish: [],
    slope: free.map((a) => slope[a] ?? 0),
  };
  return { task, loadOf: free.map((a) => (a < placed.loads.length ? a : -1)) };
}

function activitiesOf({ day, staffed }: Timetable, { state, loads }: Placed): Activities {
  const start = loads.map(({ slot }) => slot.doorOpens);
  const endOf = (minute: number): number => staffed.intervals.find(({ to }) => minute < to)?.to ?? Infinity;
  const latest = loads.map(({ slot, doneBy }) => {
    const loaded = endOf(slot.doorOpens) - (slot.doorCloses - slot.doorOpens);
    const length = slot.done - slot.doorOpens;
    return Math.min(loaded, endOf(slot.done - 1) - length, doneBy - length);
  });
  const add = (from: number, to: number): number => {
    latest.push(endOf(from) - (to - from));
    return start.push(from) - 1;
  };
  const benchOf = new Map(state.bench.tasks().map(({ owner, from, to }) => [owner, add(from, to)]));
  // Held loads' coats stay where they are.
  const own = state.booth.tasks().filter(({ owner }) => owner < day.bakes.length);
  const boothOf = new Map(own.map(({ owner, from, to }) => [owner, add(from, to)]));
  return { start, latest, benchOf, boothOf };
}

function lagsOf(timetable: Timetable, placed: Placed, all: Activities): Lag[] {
  const { day } = timetable;
  const lags = [...ovenLags(placed), ...handLags(day, placed.state, all)];
  const lastOf = new Map<number, { readonly load: number; readonly release: number }>();
  placed.loads.forEach((load, index) => {
    const { slot, recipe } = load;
    const closes = slot.doorCloses - slot.doorOpens;
    load.bakes.forEach((bake, position) => {
      const { pan, step, kind } = day.bakes[bake]!;
      const { coat } = day.kinds[kind]!;
      const spray = all.boothOf.get(bake);
      const bench = step === 0 ? all.benchOf.get(pan) : undefined;
      const prep = day.request.lines[day.pans[pan]!.line]!.prepMinutes;
      const first = spray ?? index;
      if (spray !== undefined) {
        lags.push([spray, index, coat.sprayMinutes + coat.flashMinutes]);
        if (coat.maxWaitMinutes !== null) lags.push([index, spray, closes - coat.maxWaitMinutes - coat.sprayMinutes]);
      }
      if (bench !== undefined) lags.push([bench, first, prep]);
      const before = lastOf.get(pan);
      const handled = timetable.cooledAt(recipe, slot, position) - slot.doorOpens + coat.inspectMinutes;
      if (before !== undefined) lags.push([before.load, first, Math.ceil(before.release)]);
      lastOf.set(pan, { load: index, release: handled });
    });
  });
  return lags;
}

/** Loads of one oven in their order, each with the empty firing or the venting right before it. */
function ovenLags({ loads }: Placed): Lag[] {
  return loads.flatMap(({ recipe, slot }, index): Lag[] => {
    const before = loads.findLastIndex((other, at) => at < index && other.recipe.oven === recipe.oven);
    if (before < 0) return [];
    const own = loads[before]!.slot;
    const from = slot.before[0]?.from ?? slot.doorOpens - slot.ventMinutes;
    return [[before, index, own.done - own.doorOpens + slot.doorOpens - from]];
  });
}

/** Tasks of one bench or sprayer in their order, with the change-over between different paints. */
function handLags(day: DayModel, { bench, booth }: ShopState, all: Activities): Lag[] {
  const paint = (owner: number): number => day.kinds[day.bakes[owner]!.kind]!.paint;
  const change = (a: number, b: number): number => (paint(a) === paint(b) ? 0 : day.request.booth.changeoverMinutes);
  return [
    ...inOrder(bench.tasks(), all.benchOf, () => 0),
    ...inOrder(
      booth.tasks().filter(({ owner }) => owner < day.bakes.length),
      all.boothOf,
      change,
    ),
  ];
}

function inOrder(
  tasks: ReturnType<ShopState["bench"]["tasks"]>,
  activity: ReadonlyMap<number, number>,
  gap: (before: number, after: number) => number,
): Lag[] {
  return tasks.slice(1).flatMap((task, index): Lag[] => {
    const before = tasks[index]!;
    if (before.server !== task.server) return [];
    const minutes = before.to - before.from + gap(before.owner, task.owner);
    return [[activity.get(before.owner)!, activity.get(task.owner)!, minutes]];
  });
}

/**
 * Money per minute that each door opens later: its chamber cools meanwhile, the next load's chamber cools less. Over the
 * whole of the wait that can be saved, since the last minutes of a wait cost less than the first.
 */
function gasSlopes({ day, book }: Timetable, { loads }: Placed, reach: number): number[] {
  const slope = loads.map(() => 0);
  loads.forEach(({ recipe, slot }, index) => {
    const { cycle } = day.request.ovens[recipe.oven]!;
    if (cycle.kind !== "thermal" || slot.option === null || slot.before.length > 0) return;
    const { setPointC } = slot.option;
    const gasAt = (chamberC: number): number | undefined => {
      const low = Math.floor(chamberC / SEARCH_BUCKET_K) * SEARCH_BUCKET_K;
      const gas = [low, low + SEARCH_BUCKET_K].map((bucketC) => {
        const options = book.firings(recipe, bucketC, SEARCH_BUCKET_K);
        return options.reduce(
          (best, option) =>
            Math.abs(option.setPointC - setPointC) < Math.abs(best.setPointC - setPointC) ? option : best,
          options[0] ?? slot.option!,
        ).gasKWh;
      });
      return gas[0]! + ((gas[1]! - gas[0]!) * (chamberC - low)) / SEARCH_BUCKET_K;
    };
    const before = loads.findLastIndex((other, at) => at < index && other.recipe.oven === recipe.oven);
    const gap = before < 0 ? 0 : slot.doorOpens - slot.ventMinutes - loads[before]!.slot.done;
    const span = before < 0 ? -reach : Math.min(gap, reach);
    if (span === 0) return;
    const warmer = chamberEarlier(cycle, day.request.ambientC, slot.chamberStartC, span);
    const money = (((gasAt(slot.chamberStartC) ?? 0) - (gasAt(warmer) ?? 0)) / span) * day.request.prices.gasPerKWh;
    slope[index]! += money;
    if (before >= 0) slope[before]! -= money;
  });
  return slope;
}

/** The chamber that stands shut at `chamberC`, `minutes` before. */
function chamberEarlier(cycle: ThermalCycle, ambientC: number, chamberC: number, minutes: number): number {
  const timeConstants = (minutes * 60 * cycle.wallLossWPerK) / (cycle.heatCapacityKJPerK * 1000);
  return ambientC + (chamberC - ambientC) * Math.exp(timeConstants);
}

/** Loads that gain by opening later or have waited, and all that they can push within reach. */
function movable(
  { loads }: Placed,
  { start }: Activities,
  lags: readonly Lag[],
  slope: readonly number[],
  reach: number,
): number[] {
  const moved = new Set(loads.flatMap((load, at) => (slope[at]! < -GAIN || load.delayMinutes > 0 ? [at] : [])));
  for (const activity of moved)
    for (const [from, to, minutes] of lags)
      if (from === activity && start[to]! - start[from]! - minutes < reach) moved.add(to);
  return [...moved].sort((a, b) => a - b);
}

/** Less money per minute is no gain. */
const GAIN = 1e-7;

function latenessOf(timetable: Timetable, { state, loads }: Placed, indexOf: ReadonlyMap<number, number>): Lateness[] {
  const { day } = timetable;
  const { request } = day;
  const endings: Ending[][] = day.tickets.map(() => []);
  const held = timetable.startState();
  const surely = day.tickets.map((_, ticket) =>
    Math.max(held.ticketReady[ticket]!, state.ticketOpen[ticket] === 0 ? -Infinity : request.nextOpenMinute),
  );
  loads.forEach(({ bakes, recipe, slot }, at) => {
    bakes.forEach((bake, position) => {
      const { pan, step, kind } = day.bakes[bake]!;
      const { ticket, due } = day.pans[pan]!;
      if (step < due.length - 1) return;
      const { coat }: BakeKind = day.kinds[kind]!;
      const ready = timetable.cooledAt(recipe, slot, position) + coat.inspectMinutes + request.finishMinutes;
      const activity = indexOf.get(at);
      if (activity === undefined) surely[ticket] = Math.max(surely[ticket]!, ready);
      else endings[ticket]!.push({ activity, plus: ready - slot.doorOpens });
    });
  });
  return day.tickets.flatMap(({ promised, latePerHour }, ticket) => {
    const own = longestEach(endings[ticket]!);
    if (promised === null || own.length === 0) return [];
    return [{ endings: own, promised: Math.max(promised, surely[ticket]!), rate: latePerHour / 60 }];
  });
}

/** Of one activity's endings only the last counts. */
function longestEach(endings: readonly Ending[]): Ending[] {
  const last = new Map<number, Ending>();
  for (const ending of endings) {
    const known = last.get(ending.activity);
    if (known === undefined || known.plus < ending.plus) last.set(ending.activity, ending);
  }
  return [...last.values()];
}

/** The crew is paid until the last firing is done: late from when the last one that cannot move is. */
function crewOf({ day }: Timetable, { loads }: Placed, indexOf: ReadonlyMap<number, number>): Lateness[] {
  const { request } = day;
  const heldDone = request.held.reduce((last, load) => Math.max(last, load.done), request.planFromMinute);
  const stays = loads.filter((_, at) => !indexOf.has(at));
  const promised = stays.reduce((last, { slot }) => Math.max(last, slot.done), heldDone);
  const endings = loads.flatMap(({ slot }, at): Ending[] => {
    const activity = indexOf.get(at);
    return activity === undefined ? [] : [{ activity, plus: slot.done - slot.doorOpens }];
  });
  return [{ endings, promised, rate: request.prices.crewPerHour / 60 }];
}
