/** What the service and a search in a child process say to each other. Plain data, as JSON carries it. */
import type { DayFile } from "../contract/day.ts";
import type { PlanFile } from "../contract/plan.ts";

export interface SearchOptions {
  readonly seed: number;
  readonly seconds: number;
  /** Null: only the seconds end it. */
  readonly steps: number | null;
  readonly gapPercent: number;
  /** Added to the numbers of new loads. */
  readonly numberFrom: number;
}

export type ToChild =
  | { readonly type: "plan"; readonly day: DayFile; readonly options: SearchOptions; readonly madeAt: number }
  | { readonly type: "stop" };

/** A better plan than before, already checked. */
export interface Better {
  readonly plan: PlanFile;
  readonly cost: number;
  readonly bound: number;
  readonly seconds: number;
  readonly steps: number;
  /** What it can be made again from beside its day and options: `packCourse` in base64. */
  readonly course: string;
}

export type FromChild =
  | { readonly type: "ready" }
  | ({ readonly type: "better" } & Better)
  | ({ readonly type: "done" } & Better)
  /** The pinned loads cannot be kept as they stand; the search goes on from this day without them. */
  | { readonly type: "unpinned"; readonly day: DayFile }
  /** The checker found the plan wrong: our bug. The plan is kept to look into, never handed out. */
  | { readonly type: "faulty"; readonly plan: unknown; readonly faults: readonly unknown[] }
  /** Something beside the search failed; the search goes on. */
  | { readonly type: "trouble"; readonly message: string }
  | { readonly type: "failed"; readonly message: string };
