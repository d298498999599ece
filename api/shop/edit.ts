/** One edit of the shop: the change is made, the day as it then stands must be one that can be planned, the event is written. */
import type { Problem } from "../contract/problem.ts";
import { readDay } from "../day/read-day.ts";
import { Refusal, badInput, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { etag } from "../http/route.ts";
import type { Change, NewEvent } from "../store/change.ts";
import { rowOf } from "../store/change.ts";
import type { EditedRow, EditedTable } from "../store/tables.ts";
import { dayOf, shopRows } from "./day-rows.ts";

export interface Said {
  readonly who: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: unknown;
}

/** Refuses, with every problem, a change after which the stored day would be no sound day file. `within` shortens paths. */
export async function soundDay(change: Change, within = ""): Promise<void> {
  const day = dayOf(await shopRows(change.trx));
  if (day === undefined) throw new Refusal(409, "No shop", "No shop is set up yet: put a day file first.");
  const read = readDay(day);
  if (!read.ok)
    throw badInput("The day would no longer be sound, so nothing was changed.", shortened(read.problems, day, within));
}

/** `pans/K-201-A`: problems of that entry get paths inside it. */
function shortened(problems: readonly Problem[], day: object, within: string): readonly Problem[] {
  const [list = "", ...rest] = within.split("/");
  const entries = (day as Record<string, unknown>)[list];
  if (!Array.isArray(entries)) return problems;
  const index = entries.findIndex((entry: { id?: unknown }) => String(entry.id).trim() === rest.join("/"));
  const prefix = `${list}[${index}]`;
  const inside = (path: string): boolean => path === prefix || path.startsWith(`${prefix}.`);
  return problems.map((problem) =>
    inside(problem.path) ? { ...problem, path: problem.path.slice(prefix.length).replace(/^\./, "") } : problem,
  );
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
  if (ifMatch !== undefined && ifMatch !== etag(row.version))
    throw new Refusal(412, "Changed meanwhile", `${id} was changed since you read it: read it again.`);
  return row;
}
