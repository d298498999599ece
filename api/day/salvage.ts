/**
 * What can still be judged when the schema refuses a day: the file without the entries it refuses, so that trade problems
 * of the others are told in the same breath. Called by read-day.ts.
 */
import type { z } from "zod";
import { daySchema } from "../contract/day.ts";
import type { Day } from "../contract/day.ts";
import type { Path } from "../contract/problem.ts";
import { issuePath } from "./schema-problems.ts";

export interface Salvaged {
  readonly day: Day;
  /** Parts of the file that are not whole: checks that judge against them are skipped. */
  readonly broken: ReadonlySet<string>;
  /** The path in the file of a path in `day`; undefined for what stands in only. */
  readonly pathInFile: (path: Path) => Path | undefined;
}

type Fields = Record<string, unknown>;

/** Stand-ins for parts that cannot be left out. Checks never see what they stand for: the part counts as broken. */
const standIns: Readonly<Record<string, unknown>> = {
  formatVersion: 1,
  timeZone: "UTC",
  planFrom: "2000-01-01T00:00",
  staffed: [{ from: "2000-01-01T00:00", to: "2000-01-02T00:00" }],
  materials: {},
  coatings: [
    {
      id: "stand-in",
      coats: [
        {
          sprayMinutes: 0,
          flashMinutes: 0,
          mixGroup: "stand-in",
          solventMlPerM2: 0,
          inspectMinutes: 0,
          bake: { cycleMinutes: 1 },
        },
      ],
    },
  ],
  ovens: [
    {
      id: "stand-in",
      cycle: { kind: "fixed", loadMinutes: 0, unloadMinutes: 0, gasKW: 0 },
      space: { kind: "area", dm2: 1 },
    },
  ],
  pans: [],
};

/** Undefined where nothing is left to judge. `raw` is an object and is not changed. */
export function salvage(raw: object, issues: readonly z.core.$ZodIssue[]): Salvaged | undefined {
  const fields = copy(raw) as Fields;
  const broken = new Set<string>();
  const dropped = new Map<string, Set<number>>();
  for (const issue of issues) {
    const path = issuePath(issue);
    if (issue.code === "unrecognized_keys") removeKeys(fields, path, issue.keys);
    else noteBroken(path, broken, dropped);
  }
  const kept = new Map<string, number[]>();
  for (const part of broken) keepWhole(fields, part, dropped.get(part), kept);
  const read = daySchema.safeParse(fields);
  if (!read.success) return undefined;
  return { day: read.data, broken, pathInFile: (path) => pathInFile(path, kept) };
}

function noteBroken(path: Path, broken: Set<string>, dropped: Map<string, Set<number>>): void {
  const [part, index] = path;
  if (typeof part !== "string") return;
  broken.add(part);
  if (typeof index !== "number") return;
  const indices = dropped.get(part) ?? new Set();
  dropped.set(part, indices.add(index));
}

/** A list keeps its whole entries; any other broken part goes, or is stood in for. */
function keepWhole(
  fields: Fields,
  part: string,
  indices: ReadonlySet<number> | undefined,
  kept: Map<string, number[]>,
): void {
  const list = fields[part];
  const whole = Array.isArray(list) && indices ? [...list.keys()].filter((i) => !indices.has(i)) : [];
  kept.set(part, whole);
  if (whole.length > 0 && Array.isArray(list)) fields[part] = whole.map((i) => list[i] as unknown);
  else if (Object.hasOwn(standIns, part)) fields[part] = standIns[part];
  else delete fields[part];
}

function pathInFile(path: Path, kept: ReadonlyMap<string, readonly number[]>): Path | undefined {
  const [part, index, ...rest] = path;
  const indices = typeof part === "string" ? kept.get(part) : undefined;
  if (part === undefined || !indices) return path;
  const original = typeof index === "number" ? indices[index] : undefined;
  return original === undefined ? undefined : [part, original, ...rest];
}

function removeKeys(fields: Fields, path: Path, keys: readonly string[]): void {
  let holder: unknown = fields;
  for (const step of path) holder = (holder as Fields | undefined)?.[step];
  if (typeof holder === "object" && holder !== null) for (const key of keys) delete (holder as Fields)[key];
}

/** Depth is bounded before this is called. */
function copy(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(copy);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, copy(inner)]));
}
