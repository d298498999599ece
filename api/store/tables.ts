/** The rows of the file as Kysely sees them. Text columns named body, before, day, … hold JSON. */
import type { Generated } from "kysely";

/** A row that people edit: the thing as written, its state, and the version that ETag and If-Match carry. */
export interface EditedRow {
  readonly id: string;
  /** Order of entry. */
  readonly place: number;
  readonly body: string;
  readonly state: string;
  /** Why it is in that state; empty where nothing needs saying. */
  readonly note: string;
  /**
   * From which instant on the plan in force tells how far it is: "" from the plan's start, "no" not at all, because
   * somebody said otherwise since.
   */
  readonly follows: string;
  readonly version: number;
}

export interface ShopRow {
  readonly id: number;
  /** Goes up with every change to the day. */
  readonly revision: number;
  readonly in_force: string | null;
}

export interface EventRow {
  readonly id: Generated<number>;
  readonly at: string;
  readonly who: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: string;
  /** The rows as they were, for undoing. */
  readonly before: string;
  readonly undoes: number | null;
}

export interface PlanRow {
  readonly id: string;
  readonly kind: "plan" | "replan" | "quote";
  readonly state: "queued" | "searching" | "done" | "stopped" | "cut short" | "failed";
  readonly made_at: string;
  /** `ShopRow.revision` it was made for. */
  readonly revision: number;
  readonly replaces: string | null;
  readonly day: string;
  readonly request: string;
  /** Of this program. */
  readonly version: string;
  readonly plan: string | null;
  readonly cost: number | null;
  readonly bound: number | null;
  readonly seconds: number;
  /** What the checker found; the plan is then never handed out. */
  readonly faults: string | null;
  readonly extra: string;
  readonly accepted_at: string | null;
  /** Of its search, as `packCourse` packs it; null: none yet, or written by a version that kept none. */
  readonly course: Uint8Array | null;
}

export interface ReadingRow {
  readonly id: Generated<number>;
  readonly at: string;
  readonly oven: string;
  readonly load: string | null;
  readonly body: string;
}

export interface ClosedDayRow {
  readonly id: Generated<number>;
  readonly title: string;
  readonly closed_at: string;
  readonly day: string;
  readonly plan: string | null;
  readonly summary: string;
  readonly first_event: number;
  readonly last_event: number;
}

export interface AnsweredRow {
  readonly key: string;
  readonly asked: string;
  readonly status: number;
  readonly headers: string;
  readonly body: string;
  readonly at: string;
}

export interface SessionRow {
  readonly token_hash: string;
  readonly until: string;
}

export interface Tables {
  readonly setting: EditedRow;
  readonly coating: EditedRow;
  readonly oven: EditedRow;
  readonly pan: EditedRow;
  readonly load: EditedRow;
  readonly shop: ShopRow;
  readonly event: EventRow;
  readonly plan: PlanRow;
  readonly reading: ReadingRow;
  readonly closed_day: ClosedDayRow;
  readonly answered: AnsweredRow;
  readonly session: SessionRow;
}

export type EditedTable = "setting" | "coating" | "oven" | "pan" | "load";
