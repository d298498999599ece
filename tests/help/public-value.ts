/** What a plan is worth by an open set's own definition, from the plan file's instants and places alone. */
import type { PlanFile, PlanLoad } from "../../api/contract/plan.ts";
import { ORIGIN } from "./public-days.ts";
import { lineId } from "./public-jobs.ts";
import type { Job, JobProblem, PublicProblem, RectangleProblem, Size } from "./public-jobs.ts";

export interface Worth {
  /** The set's objective; meaningless where there are faults. */
  readonly value: number;
  /** Where the plan breaks the set's own rules. */
  readonly faults: readonly string[];
}

export function worthOf(problem: PublicProblem, plan: PlanFile): Worth {
  const count = problem.objective === "loads" ? problem.rectangles.length : problem.jobs.length;
  const indexOf = new Map(Array.from({ length: count }, (_, i) => [lineId(i), i]));
  const loads = plan.loads.map((load) => load.pans.map((pan) => indexOf.get(pan.id) ?? -1));
  const seen = loads.flat().toSorted((a, b) => a - b);
  const faults = seen.length === count && seen.every((job, i) => job === i) ? [] : ["not every job is done once"];
  const worth = problem.objective === "loads" ? rectangles(problem, plan, loads) : jobs(problem, plan, loads);
  return { value: worth.value, faults: [...faults, ...worth.faults] };
}

function jobs(problem: JobProblem, plan: PlanFile, members: readonly (readonly number[])[]): Worth {
  const faults: string[] = [];
  const ovenFree = new Map<string, number>();
  let value = 0;
  plan.loads.forEach((load, i) => {
    const inside = (members[i] ?? []).flatMap((index) => problem.jobs[index] ?? []);
    const start = minuteOf(load.doorClosesAt);
    const minutes = Math.max(0, ...inside.map((job) => job.minutes));
    faults.push(...loadFaults(problem, load.id, inside, start));
    if (start < (ovenFree.get(load.oven) ?? 0)) faults.push(`${load.id} starts before its oven is free`);
    ovenFree.set(load.oven, start + minutes);
    value += problem.objective === "load time" ? minutes : tardiness(inside, start + minutes);
  });
  if (ovenFree.size > problem.ovens) faults.push("more ovens than there are");
  return { value, faults };
}

function loadFaults({ capacity }: JobProblem, id: string, inside: readonly Job[], start: number): string[] {
  const size = inside.reduce((sum, job) => sum + job.size, 0);
  const families = new Set(inside.map(({ family }) => family)).size;
  return [
    ...(size > capacity + 1e-9 ? [`${id} holds ${size} of ${capacity}`] : []),
    ...(families > 1 ? [`${id} mixes ${families} families`] : []),
    ...(inside.some(({ release }) => release > start) ? [`${id} starts before a release`] : []),
  ];
}

function tardiness(inside: readonly Job[], end: number): number {
  return inside.reduce((sum, { due, weight }) => sum + weight * Math.max(0, end - (due ?? end)), 0);
}

function rectangles(problem: RectangleProblem, plan: PlanFile, members: readonly (readonly number[])[]): Worth {
  const faults = plan.loads.flatMap((load, i) => floorFaults(problem, load, members[i] ?? []));
  return { value: plan.loads.length, faults };
}

type Box = readonly [left: number, front: number, right: number, back: number];

function floorFaults(problem: RectangleProblem, load: PlanLoad, members: readonly number[]): string[] {
  const boxes = load.pans.map((pan, k): Box => {
    const [width, depth] = turn(problem.rectangles[members[k] ?? -1] ?? [NaN, NaN], pan.turned);
    const [x, y] = [pan.xCm ?? NaN, pan.yCm ?? NaN];
    return [x - width / 2, y - depth / 2, x + width / 2, y + depth / 2];
  });
  const [right, back] = problem.floor;
  const near = 1e-6;
  const outside = boxes.filter((b) => !(b[0] >= -near && b[1] >= -near && b[2] <= right + near && b[3] <= back + near));
  const apart = (a: Box, b: Box): boolean =>
    a[2] <= b[0] + near || b[2] <= a[0] + near || a[3] <= b[1] + near || b[3] <= a[1] + near;
  const overlapping = boxes.filter((a, i) => boxes.slice(i + 1).some((b) => !apart(a, b)));
  return [
    ...(outside.length > 0 ? [`${load.id}: ${outside.length} outside the floor`] : []),
    ...(overlapping.length > 0 ? [`${load.id}: ${overlapping.length} overlap`] : []),
  ];
}

function turn([width, depth]: Size, turned: boolean): Size {
  return turned ? [depth, width] : [width, depth];
}

function minuteOf(text: string): number {
  return (Date.parse(text) - ORIGIN) / 60_000;
}
