/**
 * Lists of pans as CSV (RFC 4180). Read: commas or semicolons, decimal commas, a byte order mark; every bad row told by
 * its number, all rows or none. Written: cells that a spreadsheet would take for a formula are made text.
 */
import { parse } from "csv-parse/sync";
import { stringify } from "csv-stringify/sync";
import { panSchema } from "../contract/pan.ts";
import type { Problem } from "../contract/problem.ts";
import { toProblem } from "../contract/problem.ts";
import { schemaProblems } from "../day/schema-problems.ts";
import type { PanFile } from "../shop/pieces.ts";

const columns = [
  "id",
  "ticket",
  "quantity",
  "coating",
  "nextCoat",
  "sprayed",
  "readyAt",
  "prepMinutes",
  "promisedAt",
  "priority",
  "latePerHour",
  "leftOverCost",
  "shape",
  "diameterCm",
  "widthCm",
  "depthCm",
  "dm2",
  "heightCm",
  "massKg",
  "material",
  "metalLimitC",
] as const;
type Column = (typeof columns)[number];

const numbers = new Set<string>([
  "quantity",
  "nextCoat",
  "prepMinutes",
  "latePerHour",
  "leftOverCost",
  "diameterCm",
  "widthCm",
  "depthCm",
  "dm2",
  "heightCm",
  "massKg",
  "metalLimitC",
]);
const shapeColumns = new Set<string>(["shape", "diameterCm", "widthCm", "depthCm", "dm2"]);

export function pansToCsv(pans: readonly PanFile[]): string {
  const rows = pans.map((pan) => {
    const { shape, ...rest } = pan;
    const flat: Record<string, unknown> = { ...rest, ...shape, shape: shape.kind };
    return Object.fromEntries(columns.map((column) => [column, cell(flat[column])]));
  });
  return stringify(rows, { header: true, columns: [...columns], escape_formulas: true, record_delimiter: "windows" });
}

function cell(value: unknown): string {
  return value === undefined || value === null ? "" : String(value as string | number | boolean);
}

export type CsvRead =
  { readonly ok: true; readonly pans: PanFile[] } | { readonly ok: false; readonly problems: readonly Problem[] };

const mostRows = 5000;

export function pansFromCsv(text: string): CsvRead {
  const header = text.replace(/^\uFEFF/, "").split(/\r?\n/, 1)[0] ?? "";
  const delimiter = header.split(";").length > header.split(",").length ? ";" : ",";
  let rows: readonly Record<string, string>[];
  try {
    rows = parse(text, {
      bom: true,
      columns: (names: string[]) => names.map((name) => name.trim()),
      delimiter,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      trim: true,
      to: mostRows + 1,
      relax_column_count_less: true,
    });
  } catch (error) {
    return refuse([notCsv(error instanceof Error ? error.message : "it cannot be read")]);
  }
  if (rows.length > mostRows) return refuse([toProblem([], "too-large", undefined, { most: `${mostRows} rows` })]);
  const unknown = Object.keys(rows[0] ?? {}).filter((name) => !(columns as readonly string[]).includes(name));
  if (unknown.length > 0)
    return refuse(
      unknown.map((name) => toProblem([name], "unknown-field", name, { field: name, known: columns.join(", ") })),
    );
  const read = rows.map((row, i) => readRow(row, i));
  const problems = read.flatMap((one) => one.problems);
  return problems.length > 0 ? refuse(problems) : { ok: true, pans: read.map(({ pan }) => pan as PanFile) };
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
  return { ok: false, problems: problems.slice(0, 1000) };
}

/** `rows[2].massKg` is the third row below the header, so its number in the file is 4. */
function readRow(
  row: Readonly<Record<string, string>>,
  i: number,
): { readonly pan: unknown; readonly problems: readonly Problem[] } {
  const value = (column: Column): unknown => read(column, row[column]);
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
  if (checked.success) return { pan, problems: [] };
  const within = schemaProblems(
    { pans: [pan] },
    checked.error.issues.map((issue) => ({ ...issue, path: ["pans", 0, ...issue.path] })),
  );
  return {
    pan,
    problems: within.map((problem) => ({
      ...problem,
      path: `row ${i + 2}${problem.path.slice("pans[0]".length)}`,
      message: `Row ${i + 2}: ${problem.message}`,
    })),
  };
}

/** Empty: not given. A leading apostrophe before a formula's sign was put there by us. */
function read(column: Column, text: string | undefined): unknown {
  const bare = (text ?? "").replace(/^'(?=[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20])/, "");
  if (bare === "") return undefined;
  if (column === "sprayed") return /^(true|yes|1)$/i.test(bare) ? true : /^(false|no|0)$/i.test(bare) ? false : bare;
  if (!numbers.has(column)) return bare;
  const plain = /^[+-]?\d+,\d+$/.test(bare) ? bare.replace(",", ".") : bare;
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : bare;
}

/** A plan's pans, one row a bake. */
export function bakesToCsv(rows: readonly Readonly<Record<string, string | number | null>>[]): string {
  return stringify([...rows], { header: true, escape_formulas: true, record_delimiter: "windows" });
}
