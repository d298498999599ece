/**
 * Stage 5 of plan.ts: a timed sequence written out in full. Every oven is fired once more from its first chamber
 * temperature, load after load, so that the figures of the plan hang together to the last digit.
 */
import type { DayModel } from "../day/day-model.ts";
import { chamberAfterIdle, chamberAfterVent } from "../heat/chamber.ts";
import { minutesToHandle } from "../heat/cooling.ts";
import { firingCurve, simulateFiring, windowsKept } from "../heat/firing.ts";
import type { Member } from "../heat/members.ts";
import type { BakedPan, BenchTask, BoothTask, Load } from "../firing-plan.ts";
import type { HeldLoad, HeldPan, ThermalCycle } from "../shop.ts";
import { heldKind, heldMembers } from "./held-loads.ts";
import { taskOf } from "./hand-tasks.ts";
import type { Sequence } from "./sequence.ts";
import type { ShopState } from "./shop-state.ts";
import type { TimedLoad, Timetable } from "./timetable.ts";

/** A sequence with its times, and the shop at the end of it. */
export interface Timed {
  readonly state: ShopState;
  readonly loads: readonly TimedLoad[];
}

/** A firing as it will stand in the plan, held or new. */
type Decided = Omit<HeldLoad, "id" | "state"> & { readonly heldId: string | null; readonly state: Load["state"] };

/** Times every load of a sequence; loads that find no place are left out. */
export function timeSequence(timetable: Timetable, sequence: Sequence): Timed {
  const state = timetable.startState();
  const loads = sequence.loads.flatMap((load) => timetable.place(state, load, sequence) ?? []);
  timetable.finish(state);
  return { state, loads };
}

/** All firings in order of door opening, then oven. */
export function writeLoads(day: DayModel, timed: Timed): Load[] {
  const decided = [...day.request.held.map(fromHeld), ...timed.loads.flatMap((load) => fromTimed(day, load))];
  const loads = day.request.ovens.flatMap((_, oven) => {
    const own = decided
      .filter((load) => load.oven === oven)
      .sort((a, b) => a.doorOpens - b.doorOpens || a.done - b.done);
    return runOven(day, oven, own);
  });
  return loads.sort((a, b) => a.doorOpens - b.doorOpens || a.done - b.done || a.oven - b.oven);
}

function fromHeld({ id, ...load }: HeldLoad): Decided {
  return { ...load, heldId: id };
}

function fromTimed(day: DayModel, { bakes, recipe, slot }: TimedLoad): Decided[] {
  const { oven } = recipe;
  const common = { oven, heldId: null, state: "planned" } as const;
  const empties = slot.before.map((empty): Decided => ({
    ...common,
    kind: empty.kind,
    setPointC: empty.setPointC,
    ventMinutes: 0,
    doorOpens: empty.from,
    doorCloses: empty.from,
    burnerOff: empty.to,
    unload: empty.to,
    done: empty.to,
    pans: [],
  }));
  const pans = bakes.map((bake, index): HeldPan => {
    const { pan, step } = day.bakes[bake]!;
    const { line, item, due } = day.pans[pan]!;
    const place = recipe.layout?.place(index);
    const { coat } = due[step]!;
    if (place === undefined) return { line, item, coat, shelf: null, xCm: null, yCm: null, turned: false };
    return { line, item, coat, shelf: place.shelf, xCm: place.xCm, yCm: place.yCm, turned: place.turned };
  });
  const { option, doorCloses, doorOpens, unload, done, ventMinutes } = slot;
  const burnerOff = option === null ? null : doorCloses + option.burnerOffMinutes;
  const setPointC = option?.setPointC ?? null;
  return [
    ...empties,
    { ...common, kind: "bake", setPointC, ventMinutes, doorOpens, doorCloses, burnerOff, unload, done, pans },
  ];
}

function runOven(day: DayModel, oven: number, decided: readonly Decided[]): Load[] {
  const { request } = day;
  const { cycle } = request.ovens[oven]!;
  if (cycle.kind === "fixed") return decided.map((load) => fixedLoad(day, cycle.gasKW, load));
  const first = decided[0];
  const isFact = first !== undefined && (first.state === "fired" || first.state === "firing");
  let free = isFact ? first.doorOpens : request.planFromMinute;
  let chamberC = cycle.startC;
  return decided.map((load) => {
    const idle = chamberAfterIdle(cycle, request.ambientC, chamberC, load.doorOpens - load.ventMinutes - free);
    const startC = load.ventMinutes === 0 ? idle : chamberAfterVent(cycle, request.ambientC, idle, load.ventMinutes);
    const { written, chamberAtDoneC } = thermalLoad(day, cycle, load, startC);
    free = load.done;
    chamberC = chamberAtDoneC;
    return written;
  });
}

function thermalLoad(
  day: DayModel,
  cycle: ThermalCycle,
  load: Decided,
  startC: number,
): { written: Load; chamberAtDoneC: number } {
  const { ambientC } = day.request;
  const used = load.kind === "bake" ? cycle : { ...cycle, loadMinutes: 0, unloadMinutes: 0 };
  const members = heldMembers(day, load);
  const decision = {
    setPointC: load.setPointC!,
    burnerOffMinutes: load.burnerOff! - load.doorCloses,
    unloadMinutes: load.unload - load.doorCloses,
  };
  const firing = simulateFiring(used, ambientC, members, startC, decision);
  const { doorCloses } = load;
  const pans = load.pans.map((pan, index): BakedPan => {
    const bake = firing.members[index]!;
    return {
      ...pan,
      inWindow: bake.inWindowMinutes === null ? null : doorCloses + bake.inWindowMinutes,
      soakMinutes: bake.soakMinutes,
      peakC: bake.peakC,
      cooled: load.done + toHandle(day, members[index]!, bake.metalAtUnloadC),
    };
  });
  const written: Load = {
    ...sums(day, load),
    ...load,
    burnerOn: doorCloses + cycle.purgeMinutes,
    setPointAt: firing.setPointAtMinutes === null ? null : doorCloses + firing.setPointAtMinutes,
    chamberStartC: startC,
    gasKWh: firing.gasKWh,
    pans,
    slackMinutes: load.kind === "bake" ? slackOf(cycle, ambientC, members, startC, decision) : 0,
    curve: firingCurve(used, ambientC, members, startC, decision),
  };
  return { written, chamberAtDoneC: firing.chamberAtDoneC };
}

/** Nobody waits longer than this at the oven door with a burner that could be off. */
const MOST_SLACK_MINUTES = 60;

function slackOf(
  cycle: ThermalCycle,
  ambientC: number,
  members: readonly Member[],
  startC: number,
  decision: Parameters<typeof simulateFiring>[4],
): number {
  let slack = 0;
  while (slack < MOST_SLACK_MINUTES && windowsKept(cycle, ambientC, members, startC, decision, slack + 1)) slack++;
  return slack;
}

function toHandle(day: DayModel, member: Member, metalC: number): number {
  const { ambientC, booth } = day.request;
  return minutesToHandle(member.body, metalC, ambientC, booth.handleAtC, booth.coolFilmWPerM2K);
}

function fixedLoad(day: DayModel, gasKW: number, load: Decided): Load {
  return {
    ...sums(day, load),
    ...load,
    burnerOn: null,
    setPointAt: null,
    chamberStartC: null,
    gasKWh: (gasKW * (load.unload - load.doorCloses)) / 60,
    pans: load.pans.map((pan) => ({ ...pan, inWindow: null, soakMinutes: null, peakC: null, cooled: load.done })),
    slackMinutes: null,
    curve: [],
  };
}

function sums(day: DayModel, load: Decided): { massKg: number; solventMl: number } {
  const kinds = load.pans.map((pan) => heldKind(day, pan.line, pan.coat));
  return {
    massKg: kinds.reduce((sum, kind) => sum + kind.line.massKg, 0),
    solventMl: kinds.reduce((sum, kind) => sum + kind.solventMl, 0),
  };
}

/** Bench tasks in time order. */
export function writePrep(day: DayModel, { state }: Timed): BenchTask[] {
  const tasks = state.bench.tasks().map(({ server, owner, from, to }) => {
    const { line, item } = day.pans[owner]!;
    return { line, item, bench: server + 1, from, to };
  });
  return tasks.sort((a, b) => a.from - b.from || a.bench - b.bench);
}

/** Booth tasks in time order. */
export function writeBooth(day: DayModel, { state }: Timed): BoothTask[] {
  const tasks = state.booth.tasks().map(({ server, owner, from, to }) => {
    const { pan, step } = taskOf(day, owner);
    const { line, item, due } = day.pans[pan]!;
    return { line, item, coat: due[step]!.coat, sprayer: server + 1, from, to };
  });
  return tasks.sort((a, b) => a.from - b.from || a.sprayer - b.sprayer);
}
