/**
 * Reads a day file: text or parsed JSON -> a day with every default filled, or everything that is wrong with it at once.
 *
 * Nothing is half-accepted: one problem refuses the day. Called by the command line, the service and the store.
 */
import { daySchema } from "../contract/day.ts";
import type { Day } from "../contract/day.ts";
import { toProblem } from "../contract/problem.ts";
import type { Path, Problem } from "../contract/problem.ts";
import { allChecks } from "./checks/all.ts";
import type { Check, Report, Shop } from "./checks/check.ts";
import { isZone, readInstant, writeInstant } from "./instants.ts";
import type { InstantRead } from "./instants.ts";
import { readJson, tooBig } from "./json-text.ts";
import { salvage } from "./salvage.ts";
import { schemaProblems } from "./schema-problems.ts";

export type DayRead =
  | { readonly ok: true; readonly day: Day; readonly warnings: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** More than anyone reads; the rest is of the same kind. */
const MOST_PROBLEMS = 1000;

/** `input` is the file's text or bytes, or what a JSON parser made of it. `checks` may be lengthened by checks of the caller's. */
export function readDay(input: unknown, checks: readonly Check[] = allChecks): DayRead {
  const json = fromText(input);
  if (!json.ok) return json;
  const raw = json.value;
  if (typeof raw !== "object" || raw === null || Array.isArray(raw))
    return refuse([toProblem([], "not-an-object", raw)]);
  const big = tooBig(raw);
  if (big) return refuse([big]);
  if ("formatVersion" in raw && raw.formatVersion !== 1) {
    return refuse([toProblem(["formatVersion"], "wrong-version", raw.formatVersion)]);
  }
  return readFields(raw, checks);
}

function refuse(problems: readonly Problem[]): DayRead {
  const once = new Map(problems.map((problem) => [`${problem.path}\n${problem.message}`, problem]));
  return { ok: false, problems: [...once.values()].slice(0, MOST_PROBLEMS) };
}

function fromText(input: unknown): ReturnType<typeof readJson> {
  if (typeof input === "string") return readJson(input);
  if (!(input instanceof Uint8Array)) return { ok: true, value: input };
  try {
    return readJson(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(input));
  } catch {
    return { ok: false, problems: [toProblem([], "not-utf8", undefined)] };
  }
}

function readFields(raw: object, checks: readonly Check[]): DayRead {
  const read = daySchema.safeParse(raw);
  if (read.success) {
    const { problems, warnings } = judge(read.data, new Set(), (path) => path, checks);
    return problems.length > 0
      ? refuse(problems)
      : { ok: true, day: read.data, warnings: warnings.slice(0, MOST_PROBLEMS) };
  }
  const left = salvage(raw, read.error.issues);
  const trade = left ? judge(left.day, left.broken, left.pathInFile, checks).problems : [];
  return refuse([...schemaProblems(raw, read.error.issues), ...trade]);
}

interface Judged {
  readonly problems: Problem[];
  readonly warnings: Problem[];
}

function judge(
  day: Day,
  broken: ReadonlySet<string>,
  pathInFile: (path: Path) => Path | undefined,
  checks: readonly Check[],
): Judged {
  const judged: Judged = { problems: [], warnings: [] };
  const sayTo =
    (list: Problem[]): Report["problem"] =>
    (path, code, seen, numbers) => {
      const place = pathInFile(path);
      if (place) list.push(toProblem(place, code, seen, numbers));
    };
  const report: Report = { problem: sayTo(judged.problems), warning: sayTo(judged.warnings) };
  const shop = shopOf(day);
  for (const check of checks) if (!check.needs.some((part) => broken.has(part))) check.find(shop, report);
  return judged;
}

/** The same instant is asked for by many checks, and a zone's rules are slow to look up. */
function shopOf(day: Day): Shop {
  const known = isZone(day.timeZone);
  const reads = new Map<string, InstantRead>();
  const read = (instant: string): InstantRead | undefined => {
    if (!known) return undefined;
    const found = reads.get(instant) ?? readInstant(instant, day.timeZone);
    reads.set(instant, found);
    return found;
  };
  return {
    day,
    read,
    at: (instant) => {
      const found = instant === null ? undefined : read(instant);
      return found?.kind === "instant" ? found.millis : undefined;
    },
    write: (millis) => writeInstant(millis, known ? day.timeZone : "UTC"),
  };
}
