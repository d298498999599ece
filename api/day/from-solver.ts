/** The solver's plan -> the plan file: minutes become instants of the day's zone, indices become ids, codes become words. */
import type { Day } from "../contract/day.ts";
import type { PlanFile, PlanLoad } from "../contract/plan.ts";
import { cautions } from "../contract/words.ts";
import type { FiringPlan, PlanRequest } from "../../solver/index.ts";
import { dayClock } from "./origin.ts";
import type { DayClock } from "./origin.ts";
import { leftOverWords, ticketWords, warningsOf } from "./plan-words.ts";

type Load = FiringPlan["loads"][number];

export interface PlanMeta {
  /** Instant with offset. */
  readonly madeAt: string;
  readonly seconds: number;
  readonly seed: number;
  readonly lpEngine: string;
}

/** What has begun already is no advice: the hours of work in which it did need not be among the day's. */
function isLeftAlone({ staffed }: PlanRequest, { state, doorOpens, done }: Load): boolean {
  if (state !== "planned" && state !== "pinned") return false;
  return !staffed.some(({ from, to }) => from <= doorOpens && done <= to);
}

/** Loads get ids L1, L2, … in order of door opening, save those that held loads use; `request` is `toRequest(day)`. */
export function toPlanFile(day: Day, request: PlanRequest, plan: FiringPlan, meta: PlanMeta): PlanFile {
  const clock = dayClock(day);
  const ids = loadIds(request, plan.loads);
  const loads = plan.loads.map((load, i) => toLoad(request, clock, load, ids[i] ?? ""));
  const setPoints = plan.loads.flatMap(({ setPointC }) => setPointC ?? []);
  const task = ({ line, item, from, to }: FiringPlan["prep"][number] | FiringPlan["booth"][number]) => ({
    id: lineId(request, line),
    item,
    from: clock.toInstant(from),
    to: clock.toInstant(to),
  });
  return {
    formatVersion: 1,
    dayTitle: day.title,
    madeAt: meta.madeAt,
    search: toSearch(plan, meta),
    cost: toCost(plan),
    gas: toGas(day, plan),
    loads,
    prep: plan.prep.map((one) => ({ ...task(one), bench: one.bench })),
    booth: plan.booth.map((one) => ({ ...task(one), coat: one.coat, sprayer: one.sprayer })),
    tickets: plan.tickets.map((one) => ({
      ticket: one.ticket,
      readyAt: clock.toInstant(one.ready),
      promisedAt: one.promised === null ? null : clock.toInstant(one.promised),
      lateMinutes: round(one.lateMinutes, 2),
      reason: ticketWords(request, plan, one, ids, clock),
    })),
    leftOver: plan.leftOver.map((one) => ({
      id: lineId(request, one.line),
      item: one.item,
      coat: one.coat,
      reason: leftOverWords(one.reason, clock),
    })),
    warnings: warningsOf(request, plan, ids, clock),
    cautions: cautions({
      highestSetPointC: setPoints.length > 0 ? Math.max(...setPoints) : null,
      solvent: plan.loads.some((load) => load.solventMl > 0),
      leftAlone: plan.loads.some((load) => isLeftAlone(request, load)),
    }),
  };
}

function loadIds(request: PlanRequest, loads: readonly Load[]): string[] {
  const used = new Set(request.held.map(({ id }) => id));
  let next = 1;
  return loads.map(({ heldId }) => {
    if (heldId !== null) return heldId;
    while (used.has(`L${next}`)) next++;
    return `L${next++}`;
  });
}

/** The bound is rounded down, so that what is written stays a bound. */
function toSearch({ proof, cost }: FiringPlan, meta: PlanMeta): PlanFile["search"] {
  const { unavoidable } = proof;
  const gap = cost.total > 0 ? (100 * (cost.total - proof.bestPossibleCost)) / cost.total : 0;
  return {
    status: proof.status,
    seconds: round(meta.seconds, 3),
    bestPossibleCost: roundDown(proof.bestPossibleCost),
    gapPercent: Math.max(0, round(gap, 4)),
    lpSolves: proof.lpSolves,
    lpEngine: meta.lpEngine,
    steps: proof.steps,
    seed: meta.seed,
    unavoidable: {
      gas: roundDown(unavoidable.gas),
      crew: roundDown(unavoidable.crew),
      late: roundDown(unavoidable.late),
    },
  };
}

function toCost({ cost }: FiringPlan): PlanFile["cost"] {
  return {
    total: round(cost.total, 4),
    gas: round(cost.gas, 4),
    crew: round(cost.crew, 4),
    late: round(cost.late, 4),
    leftOver: round(cost.leftOver, 4),
    moved: round(cost.moved, 4),
  };
}

function toGas({ gas }: Day, { gasKWh, savings }: FiringPlan): PlanFile["gas"] {
  return {
    kWh: round(gasKWh, 4),
    units: round(gasKWh / gas.grossKWhPerUnit, 4),
    unit: gas.unit,
    kgCO2e: round(gasKWh * gas.kgCO2ePerKWh, 4),
    comparedWith: savings.map(({ habit, firings, kWh, savedKWh, savedCost }) => ({
      habit,
      firings,
      kWh: round(kWh, 4),
      savedKWh: round(savedKWh, 4),
      savedCost: round(savedCost, 4),
    })),
  };
}

function toLoad(request: PlanRequest, clock: DayClock, load: Load, id: string): PlanLoad {
  const at = (minute: number | null) => (minute === null ? null : clock.toInstant(minute));
  return {
    id,
    oven: request.ovens[load.oven]?.id ?? "",
    kind: load.kind,
    state: load.state,
    setPointC: load.setPointC,
    ventMinutes: load.ventMinutes,
    doorOpensAt: clock.toInstant(load.doorOpens),
    doorClosesAt: clock.toInstant(load.doorCloses),
    burnerOnAt: at(load.burnerOn),
    setPointAt: at(load.setPointAt),
    burnerOffAt: at(load.burnerOff),
    unloadAt: clock.toInstant(load.unload),
    doneAt: clock.toInstant(load.done),
    chamberStartC: roundOrNull(load.chamberStartC, 2),
    gasKWh: round(load.gasKWh, 4),
    massKg: round(load.massKg, 4),
    solventMl: round(load.solventMl, 2),
    pans: load.pans.map((pan) => toPan(request, clock, load.oven, pan)),
    slackMinutes: load.slackMinutes,
    curve: load.curve.map(({ minute, chamberC, slowestC, fastestC }) => ({
      minute,
      chamberC: round(chamberC, 2),
      slowestC: round(slowestC, 2),
      fastestC: round(fastestC, 2),
    })),
  };
}

function toPan(
  request: PlanRequest,
  clock: DayClock,
  oven: number,
  pan: Load["pans"][number],
): PlanLoad["pans"][number] {
  const space = request.ovens[oven]?.space;
  const shelves = space?.kind === "shelves" ? space.shelves : [];
  return {
    id: lineId(request, pan.line),
    item: pan.item,
    coat: pan.coat,
    shelf: pan.shelf === null ? null : (shelves[pan.shelf]?.id ?? null),
    xCm: roundOrNull(pan.xCm, 4),
    yCm: roundOrNull(pan.yCm, 4),
    turned: pan.turned,
    inWindowAt: pan.inWindow === null ? null : clock.toInstant(pan.inWindow),
    soakMinutes: roundOrNull(pan.soakMinutes, 2),
    peakC: roundOrNull(pan.peakC, 2),
    cooledAt: clock.toInstant(pan.cooled),
  };
}

function lineId(request: PlanRequest, line: number): string {
  return request.lines[line]?.id ?? "";
}

function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
}

function roundDown(value: number): number {
  return Math.floor(value * 10_000) / 10_000;
}

function roundOrNull(value: number | null, decimals: number): number | null {
  return value === null ? null : round(value, decimals);
}
