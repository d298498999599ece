/**
 * Writes the plan file for loads and tasks decided by hand. Physics comes from the reference integration at 1-second
 * steps in tests/help; nothing is taken from api/check, so that the checker meets a second opinion.
 */
import type { Day, DayFile, DayPan } from "../../../../api/contract/day.ts";
import { daySchema } from "../../../../api/contract/day.ts";
import type { PlanFile, PlanLoad } from "../../../../api/contract/plan.ts";
import { planSchema } from "../../../../api/contract/plan.ts";
import { bodyOf } from "../../../../solver/heat/body.ts";
import type { Member } from "../../../../solver/heat/members.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { DateTime } from "luxon";
import type { ReferenceFiring } from "../../../help/reference-oven.ts";
import { referenceFiring } from "../../../help/reference-oven.ts";

/** A load as decided: local times; minutes of burning and coasting from door closing and burner off. */
export interface Decision {
  readonly id: string;
  readonly oven: string;
  readonly kind: PlanLoad["kind"];
  readonly state: PlanLoad["state"];
  readonly setPointC: number;
  readonly ventMinutes: number;
  readonly opens: string;
  readonly burnMinutes: number;
  readonly coastMinutes: number;
  readonly pans: readonly Place[];
}

export interface Place {
  readonly id: string;
  readonly item: number;
  readonly coat: number;
  readonly shelf: string;
  readonly xCm: number;
  readonly yCm: number;
  readonly turned?: boolean;
}

export interface PlanDecisions {
  readonly loads: readonly Decision[];
  readonly prep: readonly {
    readonly id: string;
    readonly item: number;
    readonly bench: number;
    readonly from: string;
  }[];
  readonly booth: readonly {
    readonly id: string;
    readonly item: number;
    readonly coat: number;
    readonly sprayer: number;
    readonly from: string;
  }[];
  readonly leftOver: PlanFile["leftOver"];
  /** Worked out by hand; gas and the total follow. */
  readonly cost: { readonly crew: number; readonly leftOver: number; readonly moved: number };
  readonly savings: (day: Day, loads: readonly PlanLoad[], gasKWh: number) => PlanFile["gas"]["comparedWith"];
}

export interface DayAndPlan {
  readonly dayFile: DayFile;
  readonly day: Day;
  readonly plan: PlanFile;
}

/** Held loads are copied from the plan into the day, as the shop would. */
export function writePlan(file: DayFile, decisions: PlanDecisions): DayAndPlan {
  const draft = daySchema.parse(file);
  const loads = writeLoads(draft, decisions.loads);
  const held = loads.flatMap(({ state, ...load }) => (state === "planned" ? [] : [{ ...load, state }]));
  const dayFile = { ...file, held };
  const day = daySchema.parse(dayFile);
  const gasKWh = loads.reduce((sum, load) => sum + load.gasKWh, 0);
  const tickets = writeTickets(day, loads, decisions.leftOver);
  const late = tickets.reduce((sum, ticket) => {
    const pans = day.pans.filter((pan) => pan.ticket === ticket.ticket);
    return sum + pans.reduce((rates, pan) => rates + pan.quantity * lateRate(day, pan), 0) * (ticket.lateMinutes / 60);
  }, 0);
  const gas = gasKWh * day.prices.gasPerKWh;
  const total = gas + late + decisions.cost.crew + decisions.cost.leftOver + decisions.cost.moved;
  const plan: PlanFile = {
    formatVersion: 1,
    dayTitle: day.title,
    madeAt: "2026-03-27T07:50:03+00:00",
    search: {
      status: "good",
      seconds: 1.5,
      bestPossibleCost: total * 0.95,
      gapPercent: 5,
      lpSolves: 0,
      lpEngine: "javascript-lp-solver",
      steps: null,
      seed: null,
      unavoidable: null,
    },
    cost: { total, gas, late, ...decisions.cost },
    gas: {
      kWh: gasKWh,
      units: gasKWh / day.gas.grossKWhPerUnit,
      unit: day.gas.unit,
      kgCO2e: gasKWh * day.gas.kgCO2ePerKWh,
      comparedWith: decisions.savings(day, loads, gasKWh),
    },
    loads,
    prep: decisions.prep.map((task) => withEnd(day, task, panOf(day, task.id).prepMinutes)),
    booth: decisions.booth.map((task) => withEnd(day, task, coatOf(day, task).sprayMinutes)),
    tickets,
    leftOver: decisions.leftOver,
    warnings: [],
    cautions: [],
  };
  return { dayFile, day, plan: planSchema.parse(plan) };
}

function panOf(day: Day, id: string): DayPan {
  const pan = day.pans.find((one) => one.id === id);
  if (pan === undefined) throw new Error(`no pan ${id}`);
  return pan;
}

function coatOf(
  day: Day,
  of: { readonly id: string; readonly coat: number },
): Day["coatings"][number]["coats"][number] {
  const coat = day.coatings.find(({ id }) => id === panOf(day, of.id).coating)?.coats[of.coat - 1];
  if (coat === undefined) throw new Error(`no coat ${of.coat} of ${of.id}`);
  return coat;
}

function lateRate(day: Day, pan: DayPan): number {
  return pan.latePerHour ?? (pan.priority === "rush" ? day.prices.rushLatePerPanHour : day.prices.latePerPanHour);
}

/** The instant so many minutes after a local time, with the zone's offset. */
function instant(day: Day, local: string, minutes: number): string {
  const at = DateTime.fromISO(local, { zone: day.timeZone }).plus({ seconds: Math.round(minutes * 60) });
  return at.toISO({ suppressMilliseconds: true }) ?? "";
}

function minutesBetween(from: string, to: string, zone: string): number {
  return DateTime.fromISO(to, { zone }).diff(DateTime.fromISO(from, { zone }), "minutes").minutes;
}

function withEnd<T extends { readonly from: string }>(day: Day, task: T, minutes: number): T & { to: string } {
  return { ...task, from: instant(day, task.from, 0), to: instant(day, task.from, minutes) };
}

interface OvenState {
  readonly chamberC: number;
  readonly free: string;
}

function writeLoads(day: Day, decisions: readonly Decision[]): PlanLoad[] {
  const states = new Map<string, OvenState>();
  return decisions.map((decision) => {
    const cycle = thermalCycle(day, decision.oven);
    const first = decision.state === "fired" ? decision.opens : day.planFrom;
    const before = states.get(decision.oven) ?? { chamberC: cycle.startC, free: first };
    const idle = minutesBetween(before.free, decision.opens, day.timeZone);
    const shutC = cooled(before.chamberC, day.ambientC, idle - decision.ventMinutes, cycle.wallLossWPerK, cycle);
    const fanW = cycle.wallLossWPerK + cycle.coastExhaustWPerK;
    const startC = cooled(shutC, day.ambientC, decision.ventMinutes, fanW, cycle);
    const { load, fired } = writeLoad(day, decision, cycle, startC);
    states.set(decision.oven, { chamberC: fired.chamberAtDoneC, free: load.doneAt });
    return load;
  });
}

/** Newton's law of cooling of the empty chamber. */
function cooled(fromC: number, roomC: number, minutes: number, wattPerK: number, cycle: ThermalCycle): number {
  return roomC + (fromC - roomC) * Math.exp((-minutes * 60 * wattPerK) / (cycle.heatCapacityKJPerK * 1000));
}

export function thermalCycle(day: Day, oven: string): ThermalCycle {
  const cycle = day.ovens.find(({ id }) => id === oven)?.cycle;
  if (cycle?.kind !== "thermal") throw new Error(`no thermal oven ${oven}`);
  return cycle;
}

export function memberOf(day: Day, oven: string, place: Pick<Place, "id" | "coat" | "shelf">): Member {
  const pan = panOf(day, place.id);
  const { bake } = coatOf(day, place);
  const space = day.ovens.find(({ id }) => id === oven)?.space;
  const shelf = space?.kind === "shelves" ? space.shelves.find(({ id }) => id === place.shelf) : undefined;
  const { specificHeatJPerKgK } = day.materials[pan.material] ?? { specificHeatJPerKgK: 0 };
  return {
    count: 1,
    body: bodyOf({ ...pan, specificHeatJPerKgK }),
    offsetC: shelf?.offsetC ?? 0,
    lowC: bake.metalLowC ?? 0,
    highC: Math.min(bake.metalHighC ?? 0, pan.metalLimitC ?? Infinity),
    soakLeastMinutes: bake.soakLeastMinutes ?? 0,
    soakMostMinutes: bake.soakMostMinutes ?? 0,
  };
}

function writeLoad(
  day: Day,
  decision: Decision,
  plateCycle: ThermalCycle,
  startC: number,
): { load: PlanLoad; fired: ReferenceFiring } {
  const isBake = decision.kind === "bake";
  const cycle = isBake ? plateCycle : { ...plateCycle, loadMinutes: 0, unloadMinutes: 0 };
  const members = decision.pans.map((place) => memberOf(day, decision.oven, place));
  const times = {
    setPointC: decision.setPointC,
    burnerOffMinutes: decision.burnMinutes,
    unloadMinutes: decision.burnMinutes + decision.coastMinutes,
  };
  const fired = referenceFiring(cycle, day.ambientC, members, startC, times);
  const at = (minutes: number): string => instant(day, decision.opens, cycle.loadMinutes + minutes);
  const doneMinutes = times.unloadMinutes + cycle.unloadMinutes;
  const pans = decision.pans.map((place, index): PlanLoad["pans"][number] => {
    const bake = fired.members[index];
    const member = members[index];
    if (bake === undefined || member === undefined) throw new Error("no member");
    return {
      ...place,
      turned: place.turned ?? false,
      inWindowAt: bake.inWindowMinutes === null ? null : at(bake.inWindowMinutes),
      soakMinutes: bake.soakMinutes,
      peakC: bake.peakC,
      cooledAt: at(doneMinutes + coolingMinutes(day, member, bake.metalAtUnloadC)),
    };
  });
  const load: PlanLoad = {
    id: decision.id,
    oven: decision.oven,
    kind: decision.kind,
    state: decision.state,
    setPointC: decision.setPointC,
    ventMinutes: decision.ventMinutes,
    doorOpensAt: instant(day, decision.opens, 0),
    doorClosesAt: at(0),
    burnerOnAt: at(cycle.purgeMinutes),
    setPointAt: fired.setPointAtMinutes === null ? null : at(fired.setPointAtMinutes),
    burnerOffAt: at(times.burnerOffMinutes),
    unloadAt: at(times.unloadMinutes),
    doneAt: at(doneMinutes),
    chamberStartC: startC,
    gasKWh: fired.gasKWh,
    massKg: decision.pans.reduce((sum, { id }) => sum + panOf(day, id).massKg, 0),
    solventMl: decision.pans.reduce(
      (sum, place, index) => sum + coatOf(day, place).solventMlPerM2 * (members[index]?.body.coatedM2 ?? 0),
      0,
    ),
    pans,
    slackMinutes: isBake ? slackOf(day, cycle, members, startC, times) : null,
    curve: curveOf(day, cycle, members, startC, times),
  };
  return { load, fired };
}

type Times = Parameters<typeof referenceFiring>[4];

function coolingMinutes(day: Day, { body }: Member, metalC: number): number {
  const { handleAtC, coolFilmWPerM2K } = day.booth;
  const tau = body.heatJPerK / (coolFilmWPerM2K * body.exchangeM2) / 60;
  return Math.max(0, tau * Math.log((metalC - day.ambientC) / (handleAtC - day.ambientC)));
}

function slackOf(day: Day, cycle: ThermalCycle, members: readonly Member[], startC: number, times: Times): number {
  for (let later = 1; ; later++) {
    const shifted = {
      ...times,
      burnerOffMinutes: times.burnerOffMinutes + later,
      unloadMinutes: times.unloadMinutes + later,
    };
    const fired = referenceFiring(cycle, day.ambientC, members, startC, shifted, 5);
    const kept = fired.members.every((bake, index) => {
      const member = members[index];
      return (
        member !== undefined &&
        bake.aboveLowMinutes <= member.soakMostMinutes &&
        bake.peakC <= member.highC - cycle.guardC
      );
    });
    if (!kept || later > 60) return later - 1;
  }
}

/** Each minute is the end of a firing that stops there, so that the chamber and all metals are known. */
function curveOf(
  day: Day,
  cycle: ThermalCycle,
  members: readonly Member[],
  startC: number,
  times: Times,
): PlanLoad["curve"] {
  return Array.from({ length: times.unloadMinutes + 1 }, (_, minute) => {
    const burnerOffMinutes = Math.min(minute, times.burnerOffMinutes);
    const fired = referenceFiring(
      cycle,
      day.ambientC,
      members,
      startC,
      { ...times, burnerOffMinutes, unloadMinutes: minute },
      5,
    );
    const metals = fired.members.map(({ metalAtUnloadC }) => metalAtUnloadC);
    const chamberC = fired.chamberAtUnloadC;
    const [slowestC, fastestC] =
      metals.length === 0 ? [chamberC, chamberC] : [Math.min(...metals), Math.max(...metals)];
    return { minute, chamberC, slowestC, fastestC };
  });
}

/** Done is cool, inspected and finished; a ticket with a pan left over waits until work goes on. */
function writeTickets(day: Day, loads: readonly PlanLoad[], leftOver: PlanFile["leftOver"]): PlanFile["tickets"] {
  return [...new Set(day.pans.map(({ ticket }) => ticket))].map((ticket) => {
    const own = day.pans.filter((pan) => pan.ticket === ticket);
    const done = loads.flatMap((load) =>
      load.pans.flatMap((place) => {
        const coats = day.coatings.find(({ id }) => id === panOf(day, place.id).coating)?.coats.length;
        if (!own.some(({ id }) => id === place.id) || place.coat !== coats) return [];
        return [instant(day, place.cooledAt, coatOf(day, place).inspectMinutes + day.finishMinutes)];
      }),
    );
    const isLeft = leftOver.some((entry) => own.some(({ id }) => id === entry.id));
    if (isLeft && day.nextOpen !== null) done.push(instant(day, day.nextOpen, 0));
    const readyAt = done.reduce((a, b) => (minutesBetween(a, b, day.timeZone) > 0 ? b : a));
    const promised = own.find(({ promisedAt }) => promisedAt !== null)?.promisedAt ?? null;
    const late = promised === null ? 0 : minutesBetween(promised, readyAt, day.timeZone);
    return {
      ticket,
      readyAt,
      promisedAt: promised === null ? null : instant(day, promised, 0),
      lateMinutes: Math.max(0, late),
      reason: null,
    };
  });
}
