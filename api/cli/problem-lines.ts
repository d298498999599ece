/** Problems of a file as text: where, what is wrong and what to do, what was seen and what is allowed. */
import type { Problem } from "../contract/problem.ts";
import { wrap } from "./lines.ts";

export function problemLines(problems: readonly Problem[]): string[] {
  return problems.flatMap(({ path, message, seen, allowed }) => [
    ...wrap(`${path === "" ? "the whole file" : path}: ${message}`, "  ", "      "),
    ...wrap(`seen: ${seen === null ? "nothing" : JSON.stringify(seen)}; allowed: ${allowed}`, "      "),
  ]);
}
