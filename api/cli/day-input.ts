/** Reads the day a subcommand is about; warnings go to stderr, problems end it. */
import type { Day } from "../contract/day.ts";
import { readDay } from "../day/read-day.ts";
import { BadInput } from "./bad-input.ts";
import { readInput } from "./files.ts";
import { plural } from "./lines.ts";
import { problemLines } from "./problem-lines.ts";
import type { Terminal } from "./terminal.ts";

/** `asJson`: each warning is one line of JSON. Throws `BadInput` with every problem. */
export async function readDayInput(path: string, { err }: Terminal, asJson = false): Promise<Day> {
  const read = readDay(await readInput(path));
  if (!read.ok) {
    const found = plural(read.problems.length, "problem");
    throw new BadInput(`${nameOf(path)} cannot be used: ${found}. Nothing was written.`, read.problems);
  }
  if (asJson) for (const warning of read.warnings) err(`${JSON.stringify({ event: "warning", ...warning })}\n`);
  else if (read.warnings.length > 0) {
    err(`${nameOf(path)}: ${plural(read.warnings.length, "warning")}.\n${problemLines(read.warnings).join("\n")}\n\n`);
  }
  return read.day;
}

export function nameOf(path: string): string {
  return path === "-" ? "The day on stdin" : path;
}
