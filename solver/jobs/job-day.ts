/**
 * Days that come down to jobs on alike ovens with fixed cycles: one bake a pan, no hands, only area to fill. They are
 * the batch-machine problems of the literature; solver/jobs searches them many times faster than the general timetable
 * could, and hands over sequences that the general timetable has the last word on.
 */
import type { BakeKind, DayModel } from "../day/day-model.ts";
import type { FixedCycle, Oven, PanLine } from "../shop.ts";

/** Jobs by bake index. Minutes from the request's origin, money. */
export interface JobDay {
  readonly count: number;
  readonly ovens: number;
  /** Room of one load, dm². */
  readonly roomDm2: number;
  readonly areaDm2: Float64Array;
  /** Door-closed minutes. */
  readonly minutes: Float64Array;
  readonly release: Float64Array;
  /** When its door must have been emptied for the promise to hold; Infinity without one. */
  readonly due: Float64Array;
  readonly latePerMinute: Float64Array;
  /** What it costs to leave it over, lateness at the next opening included. */
  readonly leftOver: Float64Array;
  /** Only jobs of one family share a load. */
  readonly family: Int32Array;
  readonly families: number;
  /** Per family: its jobs by due time, those without one last. */
  readonly alike: readonly (readonly number[])[];
  /** Per job: its place among those alike. */
  readonly rankOf: Int32Array;
  readonly loadMinutes: number;
  readonly unloadMinutes: number;
  readonly gasPerMinute: number;
  readonly crewPerMinute: number;
  /** When the ovens are first free, a whole minute. */
  readonly from: number;
  readonly planFrom: number;
  readonly end: number;
}

/** The day as jobs, or undefined where it is more than that. */
export function jobDay(day: DayModel): JobDay | undefined {
  const { request, pans, bakes, kinds, tickets } = day;
  const cycle = alikeCycle(request.ovens);
  const space = request.ovens[0]?.space;
  const staffed = request.staffed[0];
  if (cycle === undefined || space?.kind !== "area" || staffed === undefined || request.staffed.length > 1)
    return undefined;
  if (request.held.length > 0 || request.inForce.length > 0 || request.mixing.cleanBurn !== null) return undefined;
  if (request.mixing.neverTogether.length > 0 || bakes.length !== pans.length) return undefined;
  if (tickets.some((ticket) => ticket.promised !== null && ticket.pans.length > 1)) return undefined;
  if (!bakes.every((bake) => isBare(day, kinds[bake.kind]!, bake.pan))) return undefined;
  const per = (figure: (kind: BakeKind, pan: number) => number): Float64Array =>
    Float64Array.from(bakes, ({ kind, pan }) => figure(kinds[kind]!, pan));
  const after = (kind: BakeKind): number => kind.coat.inspectMinutes + request.finishMinutes;
  const lineOf = (pan: number): PanLine => request.lines[pans[pan]!.line]!;
  const promised = (pan: number): number => tickets[pans[pan]!.ticket]!.promised ?? Infinity;
  const groups = bakes.map(({ kind }) => (request.mixing.rule === "any" ? "" : kinds[kind]!.coat.mixGroup));
  const names = [...new Set(groups)];
  const family = Int32Array.from(groups, (group) => names.indexOf(group));
  const due = per((kind, pan) => promised(pan) - after(kind));
  const alike = names.map((_, index) =>
    [...family.keys()]
      .filter((job) => family[job] === index)
      .sort((a, b) => (due[a] === due[b] ? a - b : due[a]! - due[b]!)),
  );
  const rankOf = new Int32Array(bakes.length);
  for (const jobs of alike) for (const [rank, job] of jobs.entries()) rankOf[job] = rank;
  const jobs: JobDay = {
    count: bakes.length,
    ovens: request.ovens.length,
    roomDm2: space.dm2,
    areaDm2: per((kind) => kind.areaDm2),
    minutes: per((kind) => kind.coat.cycleMinutes!),
    release: per((_, pan) => Math.ceil(Math.max(lineOf(pan).readyMinute, request.planFromMinute))),
    due,
    latePerMinute: per((_, pan) => tickets[pans[pan]!.ticket]!.latePerHour / 60),
    leftOver: per((_, pan) => {
      const late = Math.max(0, request.nextOpenMinute - promised(pan));
      return lineOf(pan).leftOverCost + (late * tickets[pans[pan]!.ticket]!.latePerHour) / 60;
    }),
    family,
    families: names.length,
    alike,
    rankOf,
    loadMinutes: cycle.loadMinutes,
    unloadMinutes: cycle.unloadMinutes,
    gasPerMinute: (cycle.gasKW / 60) * request.prices.gasPerKWh,
    crewPerMinute: request.prices.crewPerHour / 60,
    from: Math.max(staffed.from, Math.ceil(request.planFromMinute), request.ovens[0]!.outUntilMinute ?? 0),
    planFrom: Math.max(request.planFromMinute, staffed.from),
    end: staffed.to,
  };
  return mayLeave(jobs) ? undefined : jobs;
}

/** True where leaving a job over could cost less than baking it, whatever that delays: only the general search does so. */
function mayLeave({ leftOver, latePerMinute, minutes, gasPerMinute, crewPerMinute, from, end }: JobDay): boolean {
  const delay = (end - from) * (latePerMinute.reduce((sum, late) => sum + late, 0) + crewPerMinute);
  return leftOver.some((cost, job) => cost <= delay + minutes[job]! * gasPerMinute);
}

/** The fixed cycle that all ovens have, where they differ in nothing but their names and limit nothing but area. */
function alikeCycle(ovens: readonly Oven[]): FixedCycle | undefined {
  const [first] = ovens;
  if (first?.cycle.kind !== "fixed") return undefined;
  const figures = ({ cycle, space, outUntilMinute }: Oven): string => JSON.stringify([cycle, space, outUntilMinute]);
  const alike = ovens.every(
    (oven) => figures(oven) === figures(first) && oven.maxLoadKg === Infinity && oven.maxSolventMl === Infinity,
  );
  return alike ? first.cycle : undefined;
}

/** No bench, no booth, no limit on waiting, and any oven will do. */
function isBare(day: DayModel, { coat, ovens }: BakeKind, pan: number): boolean {
  const { sprayed, prepMinutes, leftOverCost } = day.request.lines[day.pans[pan]!.line]!;
  return (
    (coat.sprayMinutes === 0 || sprayed) &&
    prepMinutes === 0 &&
    coat.maxWaitMinutes === null &&
    ovens.length === day.request.ovens.length &&
    leftOverCost >= 0
  );
}
