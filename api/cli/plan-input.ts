/** Reads a plan file, of whatever origin: JSON of the plan's shape, or every place where it is not. */
import type { z } from "zod";
import { planSchema } from "../contract/plan.ts";
import type { PlanFile } from "../contract/plan.ts";
import { pathText } from "../contract/problem.ts";
import type { Problem } from "../contract/problem.ts";
import { readJson } from "../day/json-text.ts";
import { BadInput } from "./bad-input.ts";
import { readInput } from "./files.ts";
import { plural } from "./lines.ts";

/** Throws `BadInput`. */
export async function readPlanInput(path: string): Promise<PlanFile> {
  const name = path === "-" ? "The plan on stdin" : path;
  const json = readJson(utf8(await readInput(path), name));
  if (!json.ok) throw new BadInput(`${name} is no plan file.`, json.problems);
  const read = planSchema.safeParse(json.value);
  if (read.success) return read.data;
  const problems = read.error.issues.map((issue) => planProblem(json.value, issue));
  throw new BadInput(`${name} is no plan file: ${plural(problems.length, "problem")}.`, problems);
}

function utf8(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new BadInput(`${name} is not UTF-8 text.`);
  }
}

function planProblem(plan: unknown, issue: z.core.$ZodIssue): Problem {
  const path = issue.path.map((step) => (typeof step === "symbol" ? String(step) : step));
  const seen = path.reduce<unknown>((holder, step) => (isHolder(holder) ? holder[step] : undefined), plan);
  const shown = ["string", "number", "boolean"].includes(typeof seen) ? (seen as string | number | boolean) : null;
  return {
    path: pathText(path),
    code: issue.code,
    seen: shown,
    allowed: "what a plan file has here",
    message: `${issue.message}.`,
  };
}

function isHolder(value: unknown): value is Record<string | number, unknown> {
  return typeof value === "object" && value !== null;
}
