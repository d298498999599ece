/**
 * The course of a search: what came to it from outside and when, counted in its own questions and never by a clock, so
 * that a search by seconds can be made again. Written while planning, read by remake-day.ts.
 */
import { gunzipSync, gzipSync } from "node:zlib";
import { stepBudget } from "../../solver/index.ts";
import type { PlanOptions, Progress, Sequence } from "../../solver/index.ts";

/** What a search asks for between its steps. */
export type Outside = Required<Pick<PlanOptions, "progress" | "stopped" | "proven" | "offered">>;

export interface Course {
  /** What reckoned: another engine may round otherwise. */
  readonly engine: string;
  /** Milliseconds since 1970-01-01T00:00Z, as the plan says. */
  readonly madeAt: number;
  /** As the plan says. */
  readonly seconds: number;
  /** The budget; null: the clock's, in ticks. */
  readonly steps: number | null;
  /** By the clock: how often the search asked how far it is between one 512th of its time and the next. */
  readonly ticks: readonly number[];
  /** By steps: the question at which the clock cut it short; null: it did not. */
  readonly cutAt: number | null;
  /** The question at which it was told to stop; null: it was not. */
  readonly stoppedAt: number | null;
  /** Bounds proven beside it, each with the question that was answered with it first. */
  readonly bounds: readonly (readonly [asked: number, total: number])[];
  /** Sequences found beside it, likewise. */
  readonly offers: readonly (readonly [asked: number, sequence: Sequence])[];
  /** The plan is the one found when the search had paused so often; null: when it ended. */
  readonly pauses: number | null;
}

/** So many parts of its time does a search by the clock tell apart: what it was told can then be written down. */
const TICKS = 512;

export interface Recorder {
  readonly outside: Outside;
  readonly course: (plan: Pick<Course, "madeAt" | "seconds" | "pauses">) => Course;
}

/** Passes on what comes from outside and writes it down. `clock`: the time spent, from 0 to 1; undefined: no limit. */
export function recorder(
  outside: Omit<Outside, "progress">,
  clock: Progress | undefined,
  steps: number | null,
): Recorder {
  const ticks = steps === null ? clockTicks(clock ?? stepBudget(0)) : undefined;
  const cut = steps === null ? undefined : cutBudget(stepBudget(steps), clock);
  const bounds: [number, number][] = [];
  const offers: [number, Sequence][] = [];
  let stoppedAt: number | null = null;
  const stopped = counted((asked) => {
    const is = outside.stopped();
    if (is) stoppedAt ??= asked;
    return is;
  });
  const proven = counted((asked) => {
    const total = outside.proven();
    if (total > (bounds.at(-1)?.[1] ?? 0)) bounds.push([asked, total]);
    return total;
  });
  const offered = counted((asked) => {
    const sequence = outside.offered();
    if (sequence !== undefined) offers.push([asked, copyOf(sequence)]);
    return sequence;
  });
  return {
    outside: { progress: (ticks ?? cut!).progress, stopped, proven, offered },
    course: (plan) => ({
      engine: engine(),
      steps,
      ticks: ticks?.between() ?? [],
      cutAt: cut?.at() ?? null,
      stoppedAt,
      bounds: [...bounds],
      offers: [...offers],
      ...plan,
    }),
  };
}

/** As a course names what reckons here. */
export function engine(): string {
  return `Node ${process.versions.node}, V8 ${process.versions.v8}, ${process.arch}`;
}

/** What the search was told, told again. */
export function replayed(course: Course): Outside {
  const { steps, ticks, cutAt, stoppedAt } = course;
  let asked = 0;
  let passed = 0;
  let next = ticks[0] ?? Infinity;
  const byClock: Progress = () => {
    asked++;
    while (asked >= next) next += ticks[++passed] ?? Infinity;
    return passed / TICKS;
  };
  const budget = steps === null ? byClock : stepBudget(steps);
  const bounds = [...course.bounds];
  const offers = [...course.offers];
  let total = 0;
  return {
    progress: cutAt === null ? budget : counted((at, done: number) => (at >= cutAt ? 1 : budget(done))),
    stopped: counted((at) => stoppedAt !== null && at >= stoppedAt),
    proven: counted((at) => {
      while (bounds[0] !== undefined && at >= bounds[0][0]) total = bounds.shift()![1];
      return total;
    }),
    offered: counted((at) => (offers[0]?.[0] === at ? copyOf(offers.shift()![1]) : undefined)),
  };
}

/** JSON, gzipped (RFC 1952). */
export function packCourse(course: Course): Buffer {
  return gzipSync(JSON.stringify(course));
}

export function unpackCourse(packed: Uint8Array): Course {
  return JSON.parse(gunzipSync(packed).toString("utf8")) as Course;
}

/** A search makes notes of its own on the loads that it is given. */
function copyOf(sequence: Sequence): Sequence {
  return { ...sequence, loads: sequence.loads.map((load) => ({ ...load })) };
}

/** Each answer knows which one it is, from 1. */
function counted<A extends readonly unknown[], R>(answer: (asked: number, ...args: A) => R): (...args: A) => R {
  let asked = 0;
  return (...args) => answer(++asked, ...args);
}

function clockTicks(clock: Progress): { readonly progress: Progress; readonly between: () => number[] } {
  const at: number[] = [];
  const progress = counted((asked, done: number) => {
    const passed = Math.floor(Math.min(1, clock(done)) * TICKS);
    while (at.length < passed) at.push(asked);
    return at.length / TICKS;
  });
  return { progress, between: () => at.map((asked, i) => asked - (at[i - 1] ?? 0)) };
}

/** Where steps are given the seconds only cut a search short: a slow machine takes the same way. */
function cutBudget(
  steps: Progress,
  clock: Progress | undefined,
): { readonly progress: Progress; readonly at: () => number | null } {
  let cutAt: number | null = null;
  const progress = counted((asked, done: number) => {
    const isCut = clock !== undefined && clock(done) >= 1;
    if (isCut) cutAt ??= asked;
    return isCut ? 1 : steps(done);
  });
  return { progress, at: () => cutAt };
}
