/** The benchmark's lines as one table of text, and each set's medians and worst below. */
import { median } from "./summary.ts";
import type { Line } from "./summary.ts";

type Column = readonly [head: string, cell: (line: Line) => string];

const columns: readonly Column[] = [
  ["instance", ({ name }) => name],
  ["engine", ({ engine }) => engine],
  ["value", ({ value }) => figure(value, 2)],
  ["worst", ({ worst }) => figure(worst, 2)],
  ["best known", ({ bestKnown }) => figure(bestKnown, 2)],
  ["gap %", ({ gapPercent }) => figure(gapPercent, 2)],
  ["bound", ({ bound }) => figure(bound, 2)],
  ["to bound %", ({ boundGapPercent }) => figure(boundGapPercent, 1)],
  ["first s", ({ firstSeconds }) => figure(firstSeconds, 2)],
  ["s", ({ seconds }) => figure(seconds, 1)],
  ["LPs", ({ lpSolves }) => figure(lpSolves, 0)],
  ["steps", ({ steps }) => figure(steps, 0)],
  ["left", ({ leftOver }) => (leftOver > 0 ? String(leftOver) : "")],
  ["status", ({ status, faults }) => (faults.length > 0 ? `${status} FAULT` : status)],
];

export function tableOf(lines: readonly Line[]): string {
  const cells = [columns.map(([head]) => head), ...lines.map((line) => columns.map(([, cell]) => cell(line)))];
  const widths = columns.map((_, i) => Math.max(...cells.map((row) => row[i]?.length ?? 0)));
  return cells
    .map((row) =>
      row
        .map((cell, i) => pad(cell, widths[i] ?? 0, i < 2))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

/** Median and worst gap per set and engine, and for counts and money also the sums, which small instances cannot blur. */
export function setsTable(lines: readonly Line[]): string {
  const keys = [...new Set(lines.map(({ set, engine }) => `${set} ${engine}`))];
  return keys
    .map((key) => {
      const own = lines.filter(({ set, engine }) => `${set} ${engine}` === key);
      const gaps = own.flatMap(({ gapPercent }) => gapPercent ?? []);
      const bounds = own.flatMap(({ boundGapPercent }) => boundGapPercent ?? []);
      const known = own.filter(({ value, bestKnown }) => value !== null && bestKnown !== null);
      const sum = known.reduce((total, { value }) => total + (value ?? 0), 0);
      const best = known.reduce((total, { bestKnown }) => total + (bestKnown ?? 0), 0);
      const reached = known.filter(({ value, bestKnown }) => (value ?? 0) <= (bestKnown ?? 0) + 1e-6).length;
      return [
        `${key}: ${own.length} instances`,
        `gap to best known ${spread(gaps)} (sums ${figure(best > 0 ? (100 * (sum - best)) / best : null, 2)} %, reached ${reached} of ${known.length})`,
        `gap to bound ${spread(bounds)}`,
        `proven ${own.filter(({ status }) => status === "proven").length}`,
      ].join("; ");
    })
    .join("\n");
}

function spread(values: readonly number[]): string {
  if (values.length === 0) return "-";
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return `median ${figure(median(values), 2)} % mean ${figure(mean, 2)} % worst ${figure(Math.max(...values), 2)} %`;
}

export function figure(value: number | null, decimals: number): string {
  return value === null ? "-" : value.toFixed(decimals);
}

function pad(text: string, width: number, left: boolean): string {
  return left ? text.padEnd(width) : text.padStart(width);
}
