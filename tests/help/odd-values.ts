/** Values and texts that break programs: for SQL, spreadsheets, file systems, parsers, clocks. */
import fc from "fast-check";

export const poison = fc.constantFrom(
  "'; drop table pan; --",
  "' or 1=1 --",
  "=cmd|' /C calc'!A0",
  "@SUM(A1:A9)",
  "+1+1",
  "../../etc/passwd",
  "%00",
  "\u0000",
  "\uD800",
  "𝕊".repeat(300),
  "‮txt.exe",
  "__proto__",
  "constructor",
  "toString",
  "a".repeat(5000),
  "<script>alert(1)</script>",
  "2026-02-30T25:61",
  "2026-03-29T01:30",
  "9e999",
  "-0",
  "in-force",
);
const odd = fc.oneof(
  poison,
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.integer(),
  fc.double(),
  fc.constantFrom(Number.MAX_SAFE_INTEGER, 1e308, -1, 0.5),
  fc.boolean(),
  fc.constant(null),
  fc.constant([]),
  fc.constant({}),
  poison.map((text) => [text, { [text]: text }]),
);

/** A sound body with up to three of its values, somewhere, made odd or dropped. */
export function mutated(sound: unknown): fc.Arbitrary<unknown> {
  const paths: string[][] = [];
  const walk = (value: unknown, path: string[]): void => {
    paths.push(path);
    if (typeof value === "object" && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  walk(sound, []);
  return fc
    .array(fc.tuple(fc.constantFrom(...paths), odd, fc.boolean()), { maxLength: 3 })
    .map((changes) => changes.reduce<unknown>((body, [path, value, drop]) => changed(body, path, value, drop), sound));
}

function changed(body: unknown, path: readonly string[], value: unknown, drop: boolean): unknown {
  const copy = { root: structuredClone(body) };
  let holder: unknown = copy;
  const way = ["root", ...path];
  for (const key of way.slice(0, -1))
    holder = typeof holder === "object" && holder !== null ? (holder as Record<string, unknown>)[key] : undefined;
  if (typeof holder !== "object" || holder === null) return copy.root;
  const last = way.at(-1) ?? "";
  if (drop) delete (holder as Record<string, unknown>)[last];
  else (holder as Record<string, unknown>)[last] = value;
  return copy.root;
}

const csv = fc
  .array(fc.array(fc.oneof(poison, fc.constantFrom("id", "coating", "massKg", "0,9", '"', "\r")), { maxLength: 8 }))
  .map((rows) => rows.map((row) => row.join(";")).join("\r\n"));
const broken = fc.constantFrom(
  "[".repeat(50_000),
  `${'{"a":'.repeat(5000)}1${"}".repeat(5000)}`,
  `"${"x".repeat(1_000_000)}"`,
  `[${"0,".repeat(200_000)}0]`,
  `{${Array.from({ length: 20_000 }, (_, i) => `"k${i}":1`).join(",")}}`,
  '{"a":1,"a":2}',
  '{"__proto__":{"x":1}}',
  "{",
  "\uFEFF{}",
  "",
  "NaN",
);

/** A body that never was sound: too deep, too long, half, a table. */
export const brokenText: fc.Arbitrary<string> = fc.oneof(broken, csv);
