/** Moments on the clock of a zone. Clock changes of 2026 as the IANA time zone database has them. */
import { describe, expect, it } from "vitest";
import { instantIn, localIn, localOf, minuteUp, movedBy } from "../../../web/parts/zone.ts";

const at = (instant: string): number => Date.parse(instant);

it.each([
  { zone: "Europe/Lisbon", millis: at("2026-06-09T07:05:30.9Z"), instant: "2026-06-09T08:05:30+01:00" },
  { zone: "Asia/Kathmandu", millis: at("2026-06-09T20:00:00Z"), instant: "2026-06-10T01:45:00+05:45" },
  { zone: "America/St_Johns", millis: at("2026-12-31T23:59:59Z"), instant: "2026-12-31T20:29:59-03:30" },
  { zone: "UTC", millis: at("2026-01-01T00:00:00Z"), instant: "2026-01-01T00:00:00+00:00" },
])("is $instant in $zone", ({ zone, millis, instant }) => {
  expect(instantIn(zone, millis)).toBe(instant);
  expect(localIn(zone, millis)).toBe(instant.slice(0, 16));
});

describe("a move over the clock change", () => {
  it.each([
    // Auckland puts the clock on at 02:00, Lisbon back at 02:00 summer time, Lord Howe back by half an hour.
    { zone: "Pacific/Auckland", from: "2026-09-27T01:50:00+12:00", minutes: 18, to: "2026-09-27T03:08:00+13:00" },
    { zone: "Pacific/Auckland", from: "2026-09-27T03:05:00+13:00", minutes: -10, to: "2026-09-27T01:55:00+12:00" },
    { zone: "Europe/Lisbon", from: "2026-10-25T01:45:00+01:00", minutes: 20.5, to: "2026-10-25T01:05:30+00:00" },
    { zone: "Australia/Lord_Howe", from: "2026-04-05T01:59:00+11:00", minutes: 1, to: "2026-04-05T01:30:00+10:30" },
  ])("$from and $minutes min is $to", ({ zone, from, minutes, to }) => {
    expect(movedBy(zone, from, minutes)).toBe(to);
  });
});

it("moves to the nearest second", () => {
  // 12.7 min and 0.4 s
  expect(movedBy("UTC", "2026-06-09T08:00:00+00:00", 12.7 + 0.4 / 60)).toBe("2026-06-09T08:12:42+00:00");
  expect(movedBy("UTC", "2026-06-09T08:00:00+00:00", 4.99999)).toBe("2026-06-09T08:05:00+00:00");
});

it("has a minute over when its seconds are, on the clock of then", () => {
  expect(minuteUp("Europe/Lisbon", "2026-06-09T08:05:00+01:00")).toBe("2026-06-09T08:05:00+01:00");
  expect(minuteUp("Europe/Lisbon", "2026-06-09T23:59:01+01:00")).toBe("2026-06-10T00:00:00+01:00");
  expect(minuteUp("Pacific/Auckland", "2026-09-27T01:59:30+12:00")).toBe("2026-09-27T03:00:00+13:00");
});

it("reads what a day file says in local time or with an offset of any kind", () => {
  expect(localOf("Europe/Lisbon", "2026-06-09T16:00")).toBe("2026-06-09T16:00");
  expect(localOf("Europe/Lisbon", "2026-06-09T16:00:00")).toBe("2026-06-09T16:00");
  expect(localOf("Europe/Lisbon", "2026-06-09T16:00:00Z")).toBe("2026-06-09T17:00");
  expect(localOf("Europe/Lisbon", "2026-06-09T16:00:00-05:00")).toBe("2026-06-09T22:00");
});
