import { describe, expect, it } from "vitest";
import { duration, figure, itemRanges, money, wrap, wrapParts } from "../../../../api/cli/lines.ts";
import { clockText, shifted } from "../../../../api/cli/clock-text.ts";

describe("lines", () => {
  it("break between words at 100 columns and keep their indent", () => {
    const words = Array.from({ length: 40 }, () => "plate").join(" ");
    const lines = wrap(words, "  - ", "    ");
    // "  - " and 16 words of 5 with 15 blanks are 99 columns; a 17th would make 105.
    expect(lines[0]).toBe(`  - ${Array.from({ length: 16 }, () => "plate").join(" ")}`);
    expect(lines.every((line) => line.length <= 100)).toBe(true);
    expect(lines[1]?.startsWith("    plate")).toBe(true);
    expect(lines.map((line) => line.replace(/^ +(- )?/, "")).join(" ")).toBe(words);
  });

  it("let a word longer than a line stand alone", () => {
    const long = "x".repeat(120);
    expect(wrap(`a ${long} b`)).toEqual(["a", long, "b"]);
  });

  it("break parts only between them", () => {
    const part = "p".repeat(60);
    expect(wrapParts([part, part], " · ", "  ", "    ")).toEqual([`  ${part} ·`, `    ${part}`]);
  });
});

describe("figures", () => {
  it("of items are gathered into ranges", () => {
    expect(itemRanges([5, 1, 2, 3, 7, 8])).toBe("1–3, 5, 7–8");
    expect(itemRanges([])).toBe("");
  });

  it("have no trailing zeros, and money has two decimals", () => {
    expect([figure(17), figure(17.55, 1), figure(-0.04), figure(2.5, 0)]).toEqual(["17", "17.6", "0", "3"]);
    expect(money(12.4, "EUR")).toBe("12.40 EUR");
  });

  it("of time are whole minutes and hours, at least one minute", () => {
    expect([0.2, 25, 59.6, 85, 900].map(duration)).toEqual(["1 min", "25 min", "1 h", "1 h 25 min", "15 h"]);
  });
});

describe("the clock of a printed plan", () => {
  it("is the zone's, with the weekday on other days", () => {
    const clock = clockText("America/Halifax", "2026-04-13T08:00:00-03:00");
    expect(clock.firstDay).toBe("Monday 13 April 2026");
    expect(clock.time("2026-04-13T11:31:59Z")).toBe("08:31");
    expect(clock.by("2026-04-13T11:31:01Z")).toBe("08:32");
    expect(clock.time("2026-04-14T13:26:00Z")).toBe("Tue 10:26");
    expect(clock.time("2026-04-27T13:26:00Z")).toBe("Mon 27 Apr 10:26");
  });

  it("shows both hours of the night that has one twice", () => {
    // Lisbon puts the clock back on 25 October 2026 at 02:00 summer time, 01:00 UTC (IANA time zone database).
    const clock = clockText("Europe/Lisbon", "2026-10-25T00:00:00+01:00");
    expect(clock.time("2026-10-25T01:30:00+01:00")).toBe("01:30");
    expect(clock.time(shifted("2026-10-25T01:30:00+01:00", 60))).toBe("01:30");
    expect(clock.time(shifted("2026-10-25T01:30:00+01:00", 120))).toBe("02:30");
  });
});
