/** Reads a request's body: size and depth bounded, UTF-8, fields standing once; every problem with its path. */
import type { Request } from "express";
import type { z } from "zod";
import type { Problem } from "../contract/problem.ts";
import { readJson, tooBig } from "../day/json-text.ts";
import { schemaProblems } from "../day/schema-problems.ts";
import { Refusal, badInput } from "./failure.ts";

/** A body of a route that declares a schema. An empty body counts as an empty object. */
export function readBody(request: Request, schema: z.ZodType): unknown {
  const raw = bytesOf(request);
  if (raw.length > 0 && !/^application\/(merge-patch\+)?json\b/i.test(request.headers["content-type"] ?? ""))
    throw new Refusal(415, "Wrong media type", "Send application/json.");
  const json = raw.length === 0 ? { ok: true as const, value: {} } : readJson(textOf(raw));
  if (!json.ok) throw new Refusal(400, "Bad JSON", "The body cannot be read.", json.problems);
  const big = tooBig(json.value);
  if (big !== undefined) throw badInput("The body is too large.", [big]);
  const read = schema.safeParse(json.value);
  if (read.success) return read.data;
  throw badInput("The body is not as it should be.", plainProblems(json.value, read.error.issues, schema));
}

export function bytesOf(request: Request): Buffer {
  return Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0);
}

export function textOf(raw: Buffer): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(raw);
  } catch {
    throw new Refusal(400, "Bad text", "The body is not UTF-8 text.");
  }
}

function plainProblems(value: unknown, issues: readonly z.core.$ZodIssue[], schema: z.ZodType): readonly Problem[] {
  return schemaProblems(value, issues, schema).slice(0, 200);
}

/** The body's object as it was written, without defaults filled in; its shape has been checked by `readBody`. */
export function writtenJson(request: Request): Readonly<Record<string, unknown>> {
  const text = textOf(bytesOf(request)).replace(/^\uFEFF/, "");
  return text.trim() === "" ? {} : (JSON.parse(text) as Record<string, unknown>);
}
