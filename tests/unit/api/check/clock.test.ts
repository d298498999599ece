import { DateTime } from "luxon";
import { describe, expect, test } from "vitest";
import { clockOf } from "../../../../api/check/clock.ts";

const zones = [
  "Europe/Lisbon",
  "Europe/London",
  "America/St_Johns",
  "Australia/Lord_Howe",
  "Asia/Kathmandu",
  "Pacific/Apia",
  "UTC",
];

describe.each(zones)("the clock of %s", (zone) => {
  const clock = clockOf(zone);

  // luxon is a general date library (MIT); the checker itself reads the zone from Intl alone.
  test("reads local times as luxon does, all round the year", () => {
    for (let hour = 0; hour < 366 * 24; hour += 7) {
      const at = DateTime.fromISO("2024-01-01T00:30", { zone }).plus({ hours: hour });
      const local = at.toFormat("yyyy-MM-dd'T'HH:mm");
      const again = DateTime.fromISO(local, { zone });
      if (again.toFormat("yyyy-MM-dd'T'HH:mm") !== local || again.getPossibleOffsets().length > 1) continue;
      expect(clock.minutes(local)).toBe(again.toMillis() / 60_000);
      expect(clock.offsetAt(at.toMillis() / 60_000)).toBe(at.offset);
      expect(clock.minutes(at.toISO({ suppressMilliseconds: true }) ?? "")).toBe(at.toMillis() / 60_000);
    }
  });
});

describe("instants", () => {
  const clock = clockOf("Europe/London");
  const hours = (from: string, to: string): number => (clock.minutes(to) - clock.minutes(from)) / 60;

  // Clock changes of Europe/London in 2025: days of 23 h and 25 h, both changes at 01:00 UTC (from memory).
  test("make a day of 23 h in spring and one of 25 h in autumn", () => {
    expect(hours("2025-03-30T00:00", "2025-03-31T00:00")).toBe(23);
    expect(hours("2025-10-26T00:00", "2025-10-27T00:00")).toBe(25);
    expect(hours("2025-03-30T00:59:00+00:00", "2025-03-30T02:00")).toBe(1 / 60);
  });

  test("may carry seconds, parts of them, an offset or Z", () => {
    expect(clock.minutes("1970-01-01T01:00:30.5+00:00")).toBe(60 + 30.5 / 60);
    expect(clock.minutes("1970-01-01T01:00Z")).toBe(60);
    expect(clock.minutes("1970-01-01T01:00-02:30")).toBe(210);
    expect(clock.offsetSaid("2025-07-01T10:00:00+01:00")).toBe(60);
    expect(clock.offsetSaid("2025-07-01T10:00")).toBeUndefined();
  });

  test("that are none come out as no number and show as no time", () => {
    expect(clock.minutes("noon")).toBeNaN();
    expect(clock.show(Number.NaN)).toBe("no time");
    expect(clock.show(clock.minutes("2025-07-01T10:00:00+01:00"))).toBe("2025-07-01 10:00");
  });
});
