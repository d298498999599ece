/** One form for everything wrong, or merely unlikely, in what a shop hands in. The words come from problem-words.ts. */
import { z } from "zod";
import { problemWords } from "./problem-words.ts";
import type { Numbers, ProblemCode } from "./problem-words.ts";

export const problemSchema = z.object({
  path: z.string().describe("where, as pans[3].massKg; empty: the whole file"),
  code: z.string(),
  seen: z.union([z.string(), z.number(), z.boolean(), z.null()]).describe("what stood there; null: nothing"),
  allowed: z.string(),
  hint: z.string().optional().describe("the usual slip that would explain it"),
  message: z.string().describe("plain sentences with the way out, hint included"),
});

export type Problem = z.output<typeof problemSchema>;

/** Keys and indices from the file's root. */
export type Path = readonly (string | number)[];

/** Puts a finding into words. `numbers` are what the sentence of `code` asks for. */
export function toProblem(path: Path, code: ProblemCode, seen: unknown, numbers: Numbers = {}): Problem {
  const words = problemWords(code, { seen: inWords(seen), ...numbers });
  return { path: pathText(path), code, seen: plainly(seen), ...words };
}

/** `["pans", 3, "massKg"]` as `pans[3].massKg`; keys that are no plain word are quoted. */
export function pathText(path: Path): string {
  return path
    .map((step, i) => {
      if (typeof step === "number") return `[${step}]`;
      if (!/^[A-Za-z_$][\w$]*$/.test(step)) return `[${JSON.stringify(step)}]`;
      return i === 0 ? step : `.${step}`;
    })
    .join("");
}

function plainly(seen: unknown): Problem["seen"] {
  if (seen === undefined || seen === null) return null;
  if (typeof seen === "boolean") return seen;
  if (typeof seen === "number") return Number.isFinite(seen) ? seen : String(seen);
  return typeof seen === "string" && seen.length <= 200 ? seen : inWords(seen);
}

/** Shallow, so that a huge or deep value costs nothing. */
function inWords(seen: unknown): string {
  if (seen === undefined) return "nothing";
  if (typeof seen === "string") return `"${seen.length > 60 ? `${seen.slice(0, 60)}…` : seen}"`;
  if (Array.isArray(seen)) return `a list of ${seen.length}`;
  if (typeof seen === "object" && seen !== null) return "an object";
  return typeof seen === "number" || typeof seen === "boolean" || seen === null ? String(seen) : `a ${typeof seen}`;
}
