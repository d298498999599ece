/** One edit of the shop: the change is made, the day as it then stands must be one that can be planned, the event is written. */
import type { DayFile } from "../contract/day.ts";
import type { Problem } from "../contract/problem.ts";
import { readDay } from "../day/read-day.ts";
import type { DayRead } from "../day/read-day.ts";
import { Refusal, badInput, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { etag } from "../http/route.ts";
import type { Change, NewEvent } from "../store/change.ts";
import { revisionOf, rowOf } from "../store/change.ts";
import type { EditedRow, EditedTable } from "../store/tables.ts";
import { dayOf, shopRows } from "./day-rows.ts";

export interface Said {
  readonly who: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: unknown;
}

/** What of the day somebody sent, and under which name: an entry of a list, or a setting. */
export interface Sent {
  readonly list: string;
  /** Undefined for a setting. */
  readonly id?: string;
  readonly as: string;
}

/**
 * Refuses, with every problem, a change after which the stored day would be no sound day file; paths are those of what was
 * sent. Answers what of it is merely unlikely.
 */
export async function soundDay(change: Change, sent?: Sent): Promise<readonly Problem[]> {
  const { day, read } = await readStored(change);
  const told = (problems: readonly Problem[]): readonly Problem[] =>
    sent === undefined ? problems : problems.map(asSent(day, sent));
  if (!read.ok) throw badInput("The day would no longer be sound, so nothing was changed.", told(read.problems));
  const before = new Set(read.warnings.map(({ path }) => path));
  return sent === undefined ? [] : told(read.warnings).filter(({ path }) => !before.has(path));
}

/** The stored day as it would now be read. */
export async function readStored(change: Change): Promise<{ readonly day: DayFile; readonly read: DayRead }> {
  const day = dayOf(await shopRows(change.trx));
  if (day === undefined) throw new Refusal(409, "No shop", "No shop is set up yet: put a day file first.");
  return { day, read: readDay(day) };
}

/** A problem of what was sent gets its path inside it; what it breaks elsewhere keeps its path in the day. */
function asSent(day: object, { list, id, as }: Sent): (problem: Problem) => Problem {
  const entries = (day as Record<string, unknown>)[list];
  const index =
    id !== undefined && Array.isArray(entries)
      ? entries.findIndex((entry: { id?: unknown }) => String(entry.id).trim() === id)
      : undefined;
  const prefix = index === undefined ? list : `${list}[${index}]`;
  const isInside = (path: string): boolean => path.startsWith(prefix) && /^($|[.[])/.test(path.slice(prefix.length));
  return (problem) =>
    isInside(problem.path) ? { ...problem, path: `${as}${problem.path.slice(prefix.length)}` } : problem;
}

export async function record(app: Pick<App, "clock">, change: Change, said: Said, undoes?: number): Promise<number> {
  const event: NewEvent = { at: new Date(app.clock.now()).toISOString(), ...said };
  return change.record(undoes === undefined ? event : { ...event, undoes });
}

/** The row as last read by whoever edits it. Throws 404 where there is none, 412 where somebody was quicker. */
export async function rowToEdit(
  change: Change,
  table: EditedTable,
  id: string,
  ifMatch: string | undefined,
): Promise<EditedRow> {
  const row = await rowOf(change.trx, table, id);
  if (row === undefined) throw notFound(`${table} ${id}`);
  checkMatch(ifMatch, row.version, id);
  return row;
}

/** Throws 412 where none of the tags is the present one; a weak tag never is (RFC 9110 § 13.1.1). */
export function checkMatch(ifMatch: string | undefined, version: number, what: string): void {
  if (ifMatch === undefined || ifMatch.split(",").some((tag) => tag.trim() === etag(version))) return;
  throw new Refusal(412, "Changed meanwhile", `${what} was changed since you read it: read it again.`);
}

/** What If-Match wants for the next change of what this change wrote. */
export async function tagAfter({ trx }: Change): Promise<Readonly<Record<string, string>>> {
  return { ETag: etag(await revisionOf(trx)) };
}
