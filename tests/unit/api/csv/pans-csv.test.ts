/** Lists of pans as tables: RFC 4180 as it is written, tables of spreadsheets as they are, every bad row by its number. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pansFromCsv, pansToCsv } from "../../../../api/csv/pans-csv.ts";
import type { PanFile } from "../../../../api/shop/pieces.ts";

const pan: PanFile = {
  id: "K-1",
  coating: "two-coat",
  readyAt: "2026-06-09T08:00",
  shape: { kind: "disc", diameterCm: 24 },
  heightCm: 5,
  massKg: 0.6,
  material: "aluminium",
};
const header = "id,coating,readyAt,shape,diameterCm,heightCm,massKg,material";
const line = (id: string): string => `${id},two-coat,2026-06-09T08:00,disc,24,5,0.6,aluminium`;
const table = (...lines: string[]): string => [header, ...lines].join("\r\n");

/** Text that a day file can hold as an id: it is trimmed, and never empty. */
const id = fc
  .oneof(
    fc.string({ unit: "grapheme", minLength: 1, maxLength: 20 }),
    fc.stringMatching(/^['=+\-@;,"\r\n\tA]{1,8}$/),
    fc.constantFrom("=1+1", "'=1+1", "''@x", "-5", "＝SUM(A1)", 'a "b" c', "a;b", "a,b", "two\r\nlines"),
  )
  .filter((text) => text.trim() === text && text !== "" && !text.includes("\u0000") && !text.includes("\uFEFF"));

describe("a table", () => {
  it("gives back what went in, whatever the texts", () => {
    const pans = fc
      .uniqueArray(id, { minLength: 1, maxLength: 6 })
      .chain((ids) =>
        fc.tuple(
          ...ids.map((one) =>
            fc
              .record({ ticket: id, massKg: fc.double({ min: 0.01, max: 50, noNaN: true }) })
              .map((more) => ({ ...pan, id: one, ...more })),
          ),
        ),
      );
    fc.assert(
      fc.property(pans, (written) => {
        const read = pansFromCsv(pansToCsv(written));
        expect(read.problems).toEqual([]);
        expect(read.pans.map(({ pan: one }) => one)).toEqual(written);
      }),
      { numRuns: 150 },
    );
  });

  it("holds no cell that begins as a formula does", () => {
    fc.assert(
      fc.property(id, (text) => {
        const cells = pansToCsv([{ ...pan, id: text }])
          .split("\r\n")
          .slice(1)
          .join("\r\n");
        expect(cells).not.toMatch(/^"?[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/);
      }),
    );
  });

  // RFC 4180 § 2: rules 2 (no last line break), 5 and 6 (quoted fields with commas and line breaks), 7 (doubled quotes).
  it("is read as RFC 4180 says", () => {
    const quoted = `"K ""big"" one, 2"` + line("").replace(/^/, "");
    const { pans, problems } = pansFromCsv(table(quoted, line(`"two\r\nlines"`)));
    expect(problems).toEqual([]);
    expect(pans.map(({ row, pan: one }) => [row, one.id])).toEqual([
      [2, 'K "big" one, 2'],
      [3, "two\r\nlines"],
    ]);
  });

  it("may have a byte order mark, semicolons and decimal commas, and bare line feeds", () => {
    const european = `\uFEFF${table(line("K-1"), line("K-2")).replaceAll(",", ";").replaceAll("0.6", "0,6").replaceAll("\r", "")}`;
    const { pans, problems } = pansFromCsv(european);
    expect(problems).toEqual([]);
    expect(pans.map(({ pan: one }) => one)).toEqual([pan, { ...pan, id: "K-2" }]);
  });

  it("tells every bad row by the number that a spreadsheet shows, empty rows counted", () => {
    const { pans, problems } = pansFromCsv(
      table(
        line("K-1"),
        "",
        line("K-2").replace("0.6", "heavy"),
        ",,,,,,,",
        line("K-3").replace("disc", "star"),
        `${line("K-4")},1,2`,
      ),
    );
    expect(pans.map(({ row }) => row)).toEqual([2]);
    expect(problems.map(({ path }) => path)).toEqual(["row 4.massKg", "row 6.shape.kind", "row 7"]);
    expect(problems.every(({ path, message }) => message.startsWith(`Row ${/\d/.exec(path)?.[0]}:`))).toBe(true);
  });

  it("says which heading it does not know, and which stands twice", () => {
    const { problems } = pansFromCsv(`id,masKg,id\r\nK-1,1,2`);
    expect(problems.map(({ path, code }) => [path, code])).toEqual([
      ["masKg", "unknown-field"],
      ["id", "duplicate-field"],
    ]);
    expect(problems[0]?.hint).toContain("massKg");
  });

  it("with a quote that never ends is no table", () => {
    expect(pansFromCsv(table(line(`"K-1`))).problems).toMatchObject([{ code: "not-csv" }]);
  });
});
