/**
 * Lists of pans as CSV (RFC 4180). Read: commas or semicolons, decimal commas, a byte order mark; every bad row told by
 * its number, all rows or none. Written: cells that a spreadsheet would take for a formula are made text.
 */
import { parse } from "csv-parse/sync";
import { stringify } from "csv-stringify/sync";
import { panSchema } from "../contract/pan.ts";
import type { Problem } from "../contract/problem.ts";
import { toProblem } from "../contract/problem.ts";
import { nearest } from "../day/nearest.ts";
import { schemaProblems } from "../day/schema-problems.ts";
import type { PanFile } from "../shop/pieces.ts";

/** Name of the column and what stands in it, in order. */
const kinds = {
  id: "text",
  ticket: "text",
  quantity: "number",
  coating: "text",
  nextCoat: "number",
  sprayed: "yes or no",
  readyAt: "text",
  prepMinutes: "number",
  promisedAt: "text",
  overdue: "yes or no",
  priority: "text",
  latePerHour: "number",
  leftOverCost: "number",
  shape: "text",
  diameterCm: "number",
  widthCm: "number",
  depthCm: "number",
  dm2: "number",
  heightCm: "number",
  massKg: "number",
  material: "text",
  metalLimitC: "number",
} as const;
type Column = keyof typeof kinds;
const columns = Object.keys(kinds) as Column[];

const shapeColumns = new Set<string>(["shape", "diameterCm", "widthCm", "depthCm", "dm2"]);

export function pansToCsv(pans: readonly PanFile[]): string {
  const rows = pans.map((pan) => {
    const { shape, ...rest } = pan;
    const flat: Record<string, unknown> = { ...rest, ...shape, shape: shape.kind };
    return Object.fromEntries(columns.map((column) => [column, cell(flat[column])]));
  });
  return stringify(rows, { header: true, columns, escape_formulas: true, record_delimiter: "windows" });
}

/** Signs that make a spreadsheet take a cell for a formula, full-width ones among them. */
const FORMULA = String.raw`[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]`;
const quotedFormula = new RegExp(`^'+${FORMULA}`);
const ourApostrophe = new RegExp(`^'(?='*${FORMULA})`);

/** What looks like a formula that was made text gets one more apostrophe, so that reading takes off exactly ours. */
function cell(value: unknown): string {
  const text = value === undefined || value === null ? "" : String(value as string | number | boolean);
  return quotedFormula.test(text) ? `'${text}` : text;
}

/** Rows that make pans, each with its number in the table (the header is row 1), and what is wrong with all the others. */
export interface CsvRead {
  readonly pans: readonly NumberedPan[];
  readonly problems: readonly Problem[];
}

export interface NumberedPan {
  readonly row: number;
  readonly pan: PanFile;
}

const mostRows = 5000;

/** Never throws: whatever is wrong is among the problems. */
export function pansFromCsv(text: string): CsvRead {
  const header = text.replace(/^\uFEFF/, "").split(/\r?\n/, 1)[0] ?? "";
  const delimiter = header.split(";").length > header.split(",").length ? ";" : ",";
  let records: readonly (readonly string[])[];
  try {
    records = parse(text, {
      bom: true,
      delimiter,
      trim: true,
      to: mostRows + 2,
      relax_column_count: true,
      relax_quotes: true,
    });
  } catch (error) {
    return refuse([notCsv(error instanceof Error ? error.message : "it cannot be read")]);
  }
  const [names = [], ...rows] = records;
  if (rows.length > mostRows) return refuse([toProblem([], "too-large", undefined, { most: `${mostRows} rows` })]);
  const wrong = headerProblems(names);
  if (wrong.length > 0) return refuse(wrong);
  const read = rows.flatMap((cells, i) => (cells.some((one) => one !== "") ? [readRow(names, cells, i + 2)] : []));
  return {
    pans: read.flatMap(({ row, pan, problems }) => (problems.length > 0 ? [] : [{ row, pan: pan as PanFile }])),
    problems: read.flatMap(({ problems }) => problems),
  };
}

function headerProblems(names: readonly string[]): Problem[] {
  const known: readonly string[] = columns;
  return names.flatMap((name, i) => {
    if (!known.includes(name))
      return [
        toProblem([name], "unknown-field", name, {
          field: JSON.stringify(name.slice(0, 60)),
          known: known.join(", "),
          nearest: nearest(name, known),
        }),
      ];
    return names.indexOf(name) < i ? [toProblem([name], "duplicate-field", name, { field: name })] : [];
  });
}

function notCsv(why: string): Problem {
  const allowed = "a header line, then one line a pan, with commas or semicolons between the fields";
  return {
    path: "",
    code: "not-csv",
    seen: null,
    allowed,
    message: `This is no table of pans: ${why}. Allowed: ${allowed}.`,
  };
}

function refuse(problems: readonly Problem[]): CsvRead {
  return { pans: [], problems };
}

interface RowRead {
  readonly row: number;
  readonly pan: unknown;
  readonly problems: readonly Problem[];
}

function readRow(names: readonly string[], cells: readonly string[], row: number): RowRead {
  const value = (column: Column): unknown => read(column, cells[names.indexOf(column)]);
  const flat = columns.flatMap((column) => {
    const found = shapeColumns.has(column) ? undefined : value(column);
    return found === undefined ? [] : [[column, found]];
  });
  const sizes = ["diameterCm", "widthCm", "depthCm", "dm2"] as const;
  const shape = {
    kind: value("shape"),
    ...Object.fromEntries(sizes.flatMap((size) => (value(size) === undefined ? [] : [[size, value(size)]]))),
  };
  const pan = { ...(Object.fromEntries(flat) as object), shape };
  const checked = panSchema.safeParse(pan);
  const issues = checked.success ? [] : checked.error.issues;
  const within = schemaProblems(
    { pans: [pan] },
    issues.map((issue) => ({ ...issue, path: ["pans", 0, ...issue.path] })),
  );
  const problems = within.map((problem) => inRow(row, problem, "pans[0]"));
  return { row, pan, problems: [...tooLong(names, cells, row), ...problems] };
}

function tooLong(names: readonly string[], cells: readonly string[], row: number): Problem[] {
  if (!cells.slice(names.length).some((one) => one !== "")) return [];
  const allowed = `${names.length} fields, as in the header`;
  const message = `Row ${row}: there are ${cells.length} fields. Allowed: ${allowed}.`;
  return [{ path: `row ${row}`, code: "too-many-fields", seen: cells.length, allowed, message }];
}

/** `row 4.massKg` for what stood at `prefix` in a day. */
export function inRow(row: number, problem: Problem, prefix: string): Problem {
  const path = `row ${row}${problem.path.slice(prefix.length)}`;
  return { ...problem, path, message: `Row ${row}: ${problem.message}` };
}

/** Empty: not given. A leading apostrophe before a formula's sign was put there by us. */
function read(column: Column, text: string | undefined): unknown {
  const bare = (text ?? "").replace(ourApostrophe, "");
  if (bare === "") return undefined;
  if (kinds[column] === "yes or no")
    return /^(true|yes|1)$/i.test(bare) ? true : /^(false|no|0)$/i.test(bare) ? false : bare;
  if (kinds[column] === "text") return bare;
  const plain = /^[+-]?\d+,\d+$/.test(bare) ? bare.replace(",", ".") : bare;
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : bare;
}

/** A plan's pans, one row a bake. */
export function bakesToCsv(rows: readonly Readonly<Record<string, string | number | null>>[]): string {
  return stringify([...rows], { header: true, escape_formulas: true, record_delimiter: "windows" });
}
