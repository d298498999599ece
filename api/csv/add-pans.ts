/** A table of pans joins the list: all rows or none, every bad one told by its number, whatever is wrong with it. */
import type { Problem } from "../contract/problem.ts";
import { badInput } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { readStored, record } from "../shop/edit.ts";
import type { Change } from "../store/change.ts";
import { rowOf } from "../store/change.ts";
import type { NumberedPan } from "./pans-csv.ts";
import { inRow, pansFromCsv } from "./pans-csv.ts";

export interface Added {
  readonly added: number;
  readonly event: number;
}

/** Throws a refusal with every problem. */
export async function addPans(app: Pick<App, "clock">, change: Change, table: string, who: string): Promise<Added> {
  const read = pansFromCsv(table);
  const { fresh, twice } = await partedByIds(change, read.pans);
  for (const { pan } of fresh) await change.put("pan", pan.id, { body: JSON.stringify(pan), follows: "no" });
  const problems = [...read.problems, ...twice, ...(await tradeProblems(change, fresh))];
  if (problems.length > 0) throw badInput("The table has bad rows, so none was added.", problems.toSorted(byRow));
  if (fresh.length === 0) throw badInput("The table has no rows.");
  const said = { who, kind: "pans-added", subject: "table", body: { pans: fresh.length } };
  return { added: fresh.length, event: await record(app, change, said) };
}

interface Parted {
  readonly fresh: readonly NumberedPan[];
  readonly twice: readonly Problem[];
}

async function partedByIds(change: Change, pans: readonly NumberedPan[]): Promise<Parted> {
  const first = new Map<string, number>();
  const fresh: NumberedPan[] = [];
  const twice: Problem[] = [];
  for (const numbered of pans) {
    const { row, pan } = numbered;
    const before = first.get(pan.id);
    const isThere = before === undefined && (await rowOf(change.trx, "pan", pan.id)) !== undefined;
    if (isThere || before !== undefined)
      twice.push(taken(row, pan.id, before === undefined ? "in the list of pans already" : `in row ${before} too`));
    else {
      first.set(pan.id, row);
      fresh.push(numbered);
    }
  }
  return { fresh, twice };
}

function taken(row: number, id: string, where: string): Problem {
  const message = `Row ${row}: pan ${JSON.stringify(id)} is ${where}. Allowed: each id once.`;
  return { path: `row ${row}.id`, code: "duplicate-id", seen: id, allowed: "each id once", message };
}

/** What the day file's own checks say to the rows, and to what they would do to the rest of the day. */
async function tradeProblems(change: Change, fresh: readonly NumberedPan[]): Promise<Problem[]> {
  const { day, read } = await readStored(change);
  if (read.ok) return [];
  const rows = new Map(fresh.map(({ row, pan }) => [pan.id, row]));
  return read.problems.map((problem) => {
    const prefix = /^pans\[(\d+)\]/.exec(problem.path);
    const row = rows.get(day.pans[Number(prefix?.[1] ?? -1)]?.id ?? "");
    return prefix === null || row === undefined ? problem : inRow(row, problem, prefix[0]);
  });
}

function byRow(a: Problem, b: Problem): number {
  const row = ({ path }: Problem): number => Number(/^row (\d+)/.exec(path)?.[1] ?? 0);
  return row(a) - row(b);
}
