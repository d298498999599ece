/**
 * Open instances as day files, priced so that the cost of a plan is the set's own objective:
 * weighted tardiness as lateness at 60 × weight an hour, load time and number of loads as the crew's minutes.
 */
import type { DayFile } from "../../api/contract/day.ts";
import { horizonOf, lineId } from "./public-jobs.ts";
import type { JobProblem, PublicProblem, RectangleProblem } from "./public-jobs.ts";

/** Minute 0 of every set; UTC, so that no clock changes. */
export const ORIGIN = Date.UTC(2026, 0, 5);
const MINUTE = 60_000;
/** Dearer than any lateness of a set. */
const LEFT_OVER = 1e7;

export function publicDay(title: string, problem: PublicProblem): DayFile {
  return problem.objective === "loads" ? rectangleDay(title, problem) : jobDay(title, problem);
}

function jobDay(title: string, problem: JobProblem): DayFile {
  const { jobs, objective } = problem;
  const tardy = objective === "weighted tardiness";
  const systems = new Map(jobs.map((job) => [systemId(job), job]));
  return {
    ...bareShop(title, horizonOf(problem), tardy ? 0 : 60),
    mixing: { rule: "same-group" },
    coatings: [...systems].map(([id, job]) => coating(id, `family ${job.family}`, job.minutes)),
    ovens: Array.from({ length: problem.ovens }, (_, i) =>
      oven(`oven-${i + 1}`, { kind: "area", dm2: problem.capacity }),
    ),
    pans: jobs.map((job, i) => ({
      id: lineId(i),
      coating: systemId(job),
      readyAt: instant(job.release),
      promisedAt: job.due === null ? null : instant(job.due),
      latePerHour: tardy ? 60 * job.weight : 0,
      shape: { kind: "area", dm2: job.size },
      ...body,
    })),
  };
}

function rectangleDay(title: string, { floor, rectangles }: RectangleProblem): DayFile {
  const [widthCm, depthCm] = floor;
  const shelf = { id: "floor", widthCm, depthCm, clearHeightCm: 10 };
  return {
    ...bareShop(title, rectangles.length + 1, 60),
    coatings: [coating("coat", "coat", 1)],
    ovens: [oven("oven-1", { kind: "shelves", gapCm: 0, shelves: [shelf] })],
    pans: rectangles.map(([width, depth], i) => ({
      id: lineId(i),
      coating: "coat",
      readyAt: instant(0),
      shape: { kind: "rectangle", widthCm: width, depthCm: depth },
      ...body,
    })),
  };
}

/** Pans of the same family share a firing whatever their load times. */
function systemId({ family, minutes }: { readonly family: number; readonly minutes: number }): string {
  return `family ${family}, ${minutes} min`;
}

function bareShop(title: string, horizon: number, crewPerHour: number) {
  return {
    formatVersion: 1 as const,
    title,
    timeZone: "UTC",
    planFrom: instant(0),
    staffed: [{ from: instant(0), to: instant(horizon) }],
    prices: { crewPerHour, leftOverPerPan: LEFT_OVER },
    prep: { benches: 0 },
    booth: { sprayers: 0 },
    materials: { steel: { specificHeatJPerKgK: 490 } },
  };
}

const body = { heightCm: 1, massKg: 1, material: "steel" } as const;

function coating(id: string, mixGroup: string, cycleMinutes: number): DayFile["coatings"][number] {
  const bare = { sprayMinutes: 0, flashMinutes: 0, solventMlPerM2: 0, inspectMinutes: 0 };
  return { id, coats: [{ ...bare, mixGroup, bake: { cycleMinutes } }] };
}

function oven(id: string, space: DayFile["ovens"][number]["space"]): DayFile["ovens"][number] {
  return { id, cycle: { kind: "fixed", loadMinutes: 0, unloadMinutes: 0, gasKW: 0 }, space };
}

function instant(minute: number): string {
  return new Date(ORIGIN + minute * MINUTE).toISOString().replace(".000Z", "Z");
}
