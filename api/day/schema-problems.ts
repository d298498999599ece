/** What the schema refuses -> problems with the value seen, what goes there, and the usual slip. Called by read-day.ts. */
import type { z } from "zod";
import { toProblem } from "../contract/problem.ts";
import type { Path, Problem } from "../contract/problem.ts";
import { daySchema } from "../contract/day.ts";
import { fieldsOf } from "./known-fields.ts";
import type { Fields } from "./known-fields.ts";
import { nearest } from "./nearest.ts";

type Issue = z.core.$ZodIssue;

/** More than anyone reads; the rest is of the same kind. */
const MOST = 1000;

/** One issue gives one problem, save that each unknown field gets its own. `schema`: what refused; default: the day file's. */
export function schemaProblems(raw: unknown, issues: readonly Issue[], schema: z.ZodType = daySchema): Problem[] {
  const fields = fieldsOf(schema);
  const problems: Problem[] = [];
  for (const issue of issues) {
    if (problems.length >= MOST) break;
    problems.push(...issueProblems(raw, issue, fields));
  }
  return problems.slice(0, MOST);
}

export function issuePath(issue: Issue): Path {
  return issue.path.map((step) => (typeof step === "symbol" ? String(step) : step));
}

function issueProblems(raw: unknown, issue: Issue, fields: Fields): Problem[] {
  const path = issuePath(issue);
  const seen = valueAt(raw, path);
  if (issue.code === "unrecognized_keys") return unknownFields(path, issue.keys, seen, fields);
  if (path[0] === "formatVersion" && seen !== undefined) return [toProblem(path, "wrong-version", seen)];
  if (seen === undefined)
    return [toProblem(path, "missing", seen, { field: String(path.at(-1)), expected: fields.expected(path) })];
  return [valueProblem(path, seen, issue, fields)];
}

function unknownFields(path: Path, keys: readonly string[], holder: unknown, fields: Fields): Problem[] {
  const known = fields.known(path, own(holder, "kind"));
  const free = known.filter((field) => own(holder, field) === undefined);
  return keys.slice(0, MOST).map((key) =>
    toProblem([...path, key], "unknown-field", own(holder, key), {
      field: JSON.stringify(key.slice(0, 60)),
      known: known.join(", "),
      nearest: nearest(key, free),
    }),
  );
}

function valueProblem(path: Path, seen: unknown, issue: Issue, fields: Fields): Problem {
  switch (issue.code) {
    case "invalid_type":
      return typeProblem(path, seen, issue.expected, fields);
    case "too_small":
      return sizeProblem(
        path,
        seen,
        issue.origin,
        "too-small",
        issue.inclusive === false ? "more than" : "at least",
        issue.minimum,
      );
    case "too_big":
      return sizeProblem(
        path,
        seen,
        issue.origin,
        "too-big",
        issue.inclusive === false ? "less than" : "at most",
        issue.maximum,
      );
    case "invalid_value":
      return choiceProblem(path, seen, issue.values.map(String));
    case "invalid_union":
      return choiceProblem(path, seen, kindsAt(path, fields));
    case "invalid_format":
    case "custom":
      return toProblem(path, "bad-instant", seen, { slip: instantSlip(seen) });
    default:
      return toProblem(path, "wrong-type", seen, { expected: fields.expected(path) });
  }
}

function kindsAt(path: Path, fields: Fields): string[] {
  const expected = fields.expected(path);
  return expected.split(" or ").map((choice) => choice.replaceAll('"', ""));
}

function choiceProblem(path: Path, seen: unknown, choices: readonly string[]): Problem {
  const near = typeof seen === "string" ? nearest(seen, choices) : undefined;
  return toProblem(path, "not-a-choice", seen, { choices: choices.join(", "), nearest: near });
}

function typeProblem(path: Path, seen: unknown, expected: string, fields: Fields): Problem {
  const words = fields.expected(path);
  const wantsNumber = expected === "number" || expected === "int";
  if (typeof seen === "number" && wantsNumber) {
    const code = Number.isFinite(seen) ? "not-whole" : "not-finite";
    return toProblem(path, code, seen, { expected: words });
  }
  if (typeof seen === "string" && wantsNumber) return numberText(path, seen, words);
  return toProblem(path, "wrong-type", seen, { expected: words });
}

/** What people write where a number belongs: "0,9", "12", "≈ 3", "1 200", "28 cm", "NaN". */
function numberText(path: Path, seen: string, expected: string): Problem {
  const plain = seen.slice(0, 60).replace(/[≈~\s'\u00a0\u202f]/g, "");
  if (/^[-+]?(nan|inf(inity)?|∞)$/i.test(plain)) return toProblem(path, "not-finite", seen, { expected });
  if (/^[-+]?\d+,\d+$/.test(plain)) {
    return toProblem(path, "decimal-comma", seen, { expected, value: Number(plain.replace(",", ".")) });
  }
  const value = plain === "" ? Number.NaN : Number(plain);
  if (Number.isFinite(value)) return toProblem(path, "number-as-text", seen, { expected, value });
  const hasUnit = /^[-+]?\d+([.,]\d+)?[a-z°%²³]+$/i.test(plain);
  const slip = hasUnit ? "Write the number alone, in the unit that the field's name says." : undefined;
  return toProblem(path, "wrong-type", seen, { expected, slip });
}

function sizeProblem(
  path: Path,
  seen: unknown,
  origin: string,
  code: "too-small" | "too-big",
  rule: string,
  limit: number | bigint,
): Problem {
  if (typeof seen === "number") return toProblem(path, code, seen, { rule, limit: Number(limit) });
  if (code === "too-big")
    return toProblem(path, "too-long", seen, { limit: `${limit} ${origin === "string" ? "characters" : "entries"}` });
  return toProblem(path, "empty", seen, { expected: origin === "string" ? "some text" : "at least one entry" });
}

function instantSlip(seen: unknown): string | undefined {
  const text = typeof seen === "string" ? seen.trim() : "";
  if (/^\d{4}-\d\d-\d\d \d\d:\d\d/.test(text))
    return `A T between date and time: ${text.slice(0, 40).replace(" ", "T")}`;
  if (/^\d{4}-\d\d-\d\d$/.test(text)) return "The time of day is missing.";
  if (/^\d\d?:\d\d$/.test(text)) return "The date is missing.";
  if (/^\d\d?[./-]\d\d?[./-]\d{4}/.test(text)) return "Year first, then month, then day.";
  if (/T24:/.test(text)) return "Midnight is 00:00 of the next day.";
  if (/[+-]\d{4}$|[+-]\d\d$/.test(text) && text.includes("T")) return "An offset has a colon, as +01:00.";
  return /^\d{4}-(1[3-9]|[2-9]\d)-\d\dT/.test(text) ? "Day and month swapped?" : undefined;
}

function valueAt(raw: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, step) => own(value, step), raw);
}

/** Own fields only: a pan called "constructor" finds nothing inherited. */
function own(value: unknown, key: string | number): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
  return Object.getOwnPropertyDescriptor(value, key)?.value;
}
