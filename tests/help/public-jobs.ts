/** The open scheduling sets in one form: jobs of an oven with a fixed cycle. One unit of their time is a minute here. */

export interface Job {
  readonly minutes: number;
  readonly size: number;
  readonly release: number;
  /** Null: no due time, so never late. */
  readonly due: number | null;
  readonly weight: number;
  readonly family: number;
}

/** What the set asks to make small: Σ weight × tardiness, Σ load times, or the number of loads. */
export type Objective = "weighted tardiness" | "load time" | "loads";

export interface JobProblem {
  readonly objective: "weighted tardiness" | "load time";
  readonly ovens: number;
  readonly capacity: number;
  readonly jobs: readonly Job[];
}

export interface RectangleProblem {
  readonly objective: "loads";
  readonly floor: Size;
  readonly rectangles: readonly Size[];
}

export type Size = readonly [width: number, depth: number];
export type PublicProblem = JobProblem | RectangleProblem;

/** Latest time by which some plan that is never idle without need has all loads done. */
export function horizonOf({ jobs }: JobProblem): number {
  return Math.max(...jobs.map(({ release }) => release)) + jobs.reduce((sum, { minutes }) => sum + minutes, 0) + 1;
}

/** The id of a job's or rectangle's line in the day file. */
export function lineId(index: number): string {
  return `j${index + 1}`;
}
