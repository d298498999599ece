/**
 * The open instance sets of batch scheduling and rectangle packing, read from a folder of JSON files, as day files with
 * what is known of their best values. Origins: fixtures/public/README.md.
 */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";
import { z } from "zod";
import type { DayFile } from "../../api/contract/day.ts";
import { publicDay } from "./public-days.ts";
import type { JobProblem, PublicProblem } from "./public-jobs.ts";

export const publicSets = [
  "queiroga_twt",
  "chiang_families",
  "makespan_sf",
  "makespan_trindade",
  "rect_2dbpp",
] as const;
export type PublicSet = (typeof publicSets)[number];

export interface PublicInstance {
  readonly set: PublicSet;
  readonly name: string;
  readonly problem: PublicProblem;
  /** A plan of it costs what the set's objective says, in the same figures. */
  readonly day: DayFile;
  /** Best published value, null where none was found. */
  readonly bestKnown: number | null;
  readonly lowerBound: number | null;
  readonly proven: boolean;
}

const root = fileURLToPath(new URL("../../", import.meta.url));
/** A small selection that comes with the project. */
export const fixtureFolder = join(root, "fixtures/public");

/** Where the whole sets are: the folder named by OVENFUL_BENCH_DATA, else a checkout beside this one, else the selection. */
export function benchFolder(): string {
  const named = process.env["OVENFUL_BENCH_DATA"];
  if (named !== undefined && named !== "") return named;
  const beside = join(root, "../shared/benchmarks/dev");
  return existsSync(beside) ? beside : fixtureFolder;
}

/** Every instance of a set in the folder; none where the folder does not have the set. */
export function readPublicSet(set: PublicSet, folder: string): PublicInstance[] {
  const file = join(folder, `${set}.json`);
  if (!existsSync(file)) return [];
  const known = z.array(knownSchema).parse(readJson(join(folder, "best_known.json")));
  const problems: ReadonlyMap<string, PublicProblem> = parsers[set](readJson(file));
  return [...problems].map(([name, problem]) => {
    const row = known.find((one) => one.dataset === set && one.instance === name && one.objective === objectives[set]);
    return {
      set,
      name,
      problem,
      day: publicDay(`${set} ${name}`, problem),
      bestKnown: row?.best_known ?? null,
      lowerBound: row?.lower_bound ?? null,
      proven: row?.proven_optimal === "yes",
    };
  });
}

/** The name of each set's objective in its table of best values. */
const objectives: Readonly<Record<PublicSet, string>> = {
  queiroga_twt: "total_weighted_tardiness",
  chiang_families: "total_weighted_tardiness",
  makespan_sf: "total_load_time",
  makespan_trindade: "total_load_time",
  rect_2dbpp: "bins_rotation_90",
};

const knownSchema = z.object({
  dataset: z.string(),
  instance: z.string(),
  objective: z.string(),
  best_known: z.number().nullable(),
  lower_bound: z.number().nullable(),
  proven_optimal: z.string(),
});

const name = z.string();
const figure = z.number();

function parserOf<T extends { readonly name: string }>(
  instance: z.ZodType<T>,
  problem: (instance: T) => PublicProblem,
) {
  const file = z.object({ instances: z.array(instance) });
  return (json: unknown) => new Map(file.parse(json).instances.map((one) => [one.name, problem(one)]));
}

const loadTime = parserOf(
  z.object({ name, capacity: figure, jobs: z.array(z.tuple([figure, figure])) }),
  ({ capacity, jobs }): JobProblem => ({
    objective: "load time",
    ovens: 1,
    capacity,
    jobs: jobs.map(([minutes, size]) => ({ minutes, size, release: 0, due: null, weight: 0, family: 0 })),
  }),
);

const parsers: Readonly<Record<PublicSet, (json: unknown) => Map<string, PublicProblem>>> = {
  makespan_sf: loadTime,
  makespan_trindade: loadTime,
  queiroga_twt: parserOf(
    z.object({ name, capacity: figure, jobs: z.array(z.tuple([figure, figure, figure, figure, figure])) }),
    ({ capacity, jobs }) => ({
      objective: "weighted tardiness",
      ovens: 1,
      capacity,
      jobs: jobs.map(([minutes, size, release, due, weight]) => ({ minutes, size, release, due, weight, family: 0 })),
    }),
  ),
  chiang_families: parserOf(
    z.object({
      name,
      ovens: figure,
      capacity: figure,
      familyTime: z.array(figure),
      jobs: z.array(z.tuple([figure, figure, figure, figure])),
    }),
    ({ ovens, capacity, familyTime, jobs }) => ({
      objective: "weighted tardiness",
      ovens,
      capacity,
      jobs: jobs.map(([family, release, due, weight]) => {
        const minutes = familyTime[family];
        if (minutes === undefined) throw new Error(`family ${family} has no load time`);
        return { minutes, size: 1, release, due, weight, family };
      }),
    }),
  ),
  rect_2dbpp: parserOf(
    z.object({ name, bin: z.tuple([figure, figure]), items: z.array(z.tuple([figure, figure])) }),
    ({ bin, items }) => ({ objective: "loads", floor: bin, rectangles: items }),
  ),
};

function readJson(path: string): unknown {
  return JSON.parse(readFileSync(path, "utf8"));
}
