/**
 * Reads JSON text the way a person who typed it needs: with the line and column of the first fault, and with fields that
 * stand twice. `JSON.parse` tells neither alike in all engines. Called by read-day.ts.
 */
import { toProblem } from "../contract/problem.ts";
import type { Problem } from "../contract/problem.ts";

export type JsonRead =
  { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly problems: Problem[] };

const MOST_CHARACTERS = 16_000_000;
const MOST_DEPTH = 32;

export function readJson(text: string): JsonRead {
  if (text.length > MOST_CHARACTERS)
    return refuse(toProblem([], "too-large", undefined, { most: `${MOST_CHARACTERS} characters` }));
  const plain = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const scan = scanJson(plain);
  if (scan.fault !== undefined) return refuse(faultProblem(plain, scan.fault, scan.tooDeep));
  const problems = scan.twice.map((path) =>
    toProblem(path, "duplicate-field", undefined, { field: String(path.at(-1)) }),
  );
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: JSON.parse(plain) };
}

const MOST_VALUES = 2_000_000;
/** In one list or object: well beyond any workshop's day. */
const MOST_ENTRIES = 10_000;

/** A parsed value may come from elsewhere than text: bounds its depth and size before anything walks it by recursion. */
export function tooBig(value: unknown): Problem | undefined {
  let values = 0;
  let layer: unknown[] = [value];
  for (let depth = 0; layer.length > 0; depth++) {
    if (depth > MOST_DEPTH) return toProblem([], "too-deep", undefined, { most: MOST_DEPTH });
    const next: unknown[] = [];
    for (const holder of layer) {
      if (typeof holder !== "object" || holder === null) continue;
      const inside = Object.values(holder);
      if (inside.length > MOST_ENTRIES)
        return toProblem([], "too-large", undefined, { most: `${MOST_ENTRIES} entries in one list` });
      for (const inner of inside) next.push(inner);
      if (values + next.length > MOST_VALUES)
        return toProblem([], "too-large", undefined, { most: `${MOST_VALUES} values` });
    }
    values += next.length;
    layer = next;
  }
  return undefined;
}

function refuse(problem: Problem): JsonRead {
  return { ok: false, problems: [problem] };
}

function faultProblem(text: string, fault: number, tooDeep: boolean): Problem {
  if (tooDeep) return toProblem([], "too-deep", undefined, { most: MOST_DEPTH });
  const before = text.slice(0, fault);
  const line = before.split("\n").length;
  const column = fault - before.lastIndexOf("\n");
  const rest = text.slice(fault, fault + 12).split("\n")[0] ?? "";
  const near = fault >= text.length ? "the text ends too soon" : `at ${JSON.stringify(rest)}`;
  return toProblem([], "not-json", undefined, { line, column, near, slip: slip(before, text.slice(fault)) });
}

function slip(before: string, rest: string): string | undefined {
  if (/^[-+]?(NaN|Infinity)/.test(rest))
    return "JSON knows no NaN or Infinity: leave the field out, or write null where that is allowed.";
  if (/^\d/.test(rest) && /\d,$/.test(before)) return "Decimal comma? Write a point.";
  if (/^[}\]]/.test(rest) && /,\s*$/.test(before)) return "A comma too many before the closing bracket.";
  if (/^"[^"]*(\n|$)/.test(rest)) return "A closing quote missing on this line?";
  if (/^["{[\d]/.test(rest)) return "A comma or a colon missing before it?";
  if (rest.startsWith("'")) return "Use double quotes.";
  return /^\/[/*]/.test(rest) ? "JSON has no comments." : undefined;
}

interface Scan {
  /** Offset of the first fault; undefined where the text is JSON. */
  fault: number | undefined;
  tooDeep: boolean;
  readonly twice: (string | number)[][];
}

interface Open {
  readonly keys: Set<string> | undefined;
  step: string | number;
}

const SPACE = /[ \t\n\r]*/y;
const ESCAPE = /["\\/bfnrt]|u[0-9a-fA-F]{4}/y;
const SCALAR = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

/** Walks the text once, without recursion, by the grammar of RFC 8259. */
function scanJson(text: string): Scan {
  const scan: Scan = { fault: undefined, tooDeep: false, twice: [] };
  const open: Open[] = [];
  let at = skip(text, 0);
  for (;;) {
    const value = readValue(text, at, open);
    if (value === undefined || open.length > MOST_DEPTH)
      return { ...scan, fault: at, tooDeep: open.length > MOST_DEPTH };
    at = value.at;
    if (!value.entered) {
      const closed = closeOrNext(text, at, open);
      at = closed.at;
      if (closed.state === "fault") return { ...scan, fault: at };
      if (closed.state === "end") return at === text.length ? scan : { ...scan, fault: at };
    }
    const top = open.at(-1);
    if (top?.keys) {
      const key = readString(text, at);
      if (key === undefined) return { ...scan, fault: at };
      at = skip(text, at + key.length);
      if (text[at] !== ":") return { ...scan, fault: at };
      at = skip(text, at + 1);
      noteKey(scan, open, top, top.keys, String(JSON.parse(key)));
    }
  }
}

function noteKey(scan: Scan, open: readonly Open[], top: Open, keys: Set<string>, key: string): void {
  top.step = key;
  if (keys.has(key)) scan.twice.push(open.map((part) => part.step));
  keys.add(key);
}

/** A scalar, or a bracket opened (`entered` unless it closes at once). Undefined: no value starts here. */
function readValue(text: string, at: number, open: Open[]): { at: number; entered: boolean } | undefined {
  const bracket = text[at];
  if (bracket === "{" || bracket === "[") {
    const next = skip(text, at + 1);
    if (text[next] === (bracket === "{" ? "}" : "]")) return { at: skip(text, next + 1), entered: false };
    open.push({ keys: bracket === "{" ? new Set() : undefined, step: 0 });
    return { at: next, entered: true };
  }
  const scalar = bracket === '"' ? readString(text, at) : match(text, at, SCALAR);
  return scalar === undefined ? undefined : { at: skip(text, at + scalar.length), entered: false };
}

/** After a value: closes brackets until a comma asks for the next value, or the text's one value is complete. */
function closeOrNext(text: string, from: number, open: Open[]): { at: number; state: "next" | "end" | "fault" } {
  let at = from;
  for (;;) {
    const top = open.at(-1);
    if (!top) return { at, state: "end" };
    if (text[at] === ",") {
      if (typeof top.step === "number") top.step += 1;
      return { at: skip(text, at + 1), state: "next" };
    }
    if (text[at] !== (top.keys ? "}" : "]")) return { at, state: "fault" };
    open.pop();
    at = skip(text, at + 1);
  }
}

/** The string at `at` with its quotes; undefined where it is not one. A loop, since patterns stall on very long strings. */
function readString(text: string, at: number): string | undefined {
  if (text[at] !== '"') return undefined;
  for (let i = at + 1; i < text.length; i++) {
    const sign = text[i] ?? "";
    if (sign === '"') return text.slice(at, i + 1);
    if (sign < " ") return undefined;
    if (sign !== "\\") continue;
    const escape = match(text, i + 1, ESCAPE);
    if (escape === undefined) return undefined;
    i += escape.length;
  }
  return undefined;
}

function skip(text: string, at: number): number {
  return at + (match(text, at, SPACE)?.length ?? 0);
}

function match(text: string, at: number, pattern: RegExp): string | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0];
}
