import { describe, expect, it } from "vitest";
import { nextDay } from "../../../../api/closing/next-day.ts";

const timeZone = "Europe/Lisbon";
const hours = (date: string, from = "07:30", to = "18:00") => ({ from: `${date}T${from}`, to: `${date}T${to}` });
// A Tuesday, in winter time (UTC).
const tuesday = { timeZone, staffed: [hours("2026-03-10")] };
const at = (instant: string): number => Date.parse(instant);

describe("the day after the closed one", () => {
  it("has the same hours tomorrow, and is planned from their start", () => {
    expect(nextDay(tuesday, at("2026-03-10T18:05:00Z"))).toEqual({
      planFrom: "2026-03-11T07:30:00+00:00",
      staffed: [{ from: "2026-03-11T07:30:00+00:00", to: "2026-03-11T18:00:00+00:00" }],
    });
  });

  it("is tomorrow too where the crew went home early", () => {
    expect(nextDay(tuesday, at("2026-03-10T15:00:00Z")).planFrom).toBe("2026-03-11T07:30:00+00:00");
  });

  it("keeps the noon break and the clock on the wall when summer time begins", () => {
    // Summer time began in Portugal on 29 March 2026 at 01:00 UTC (IANA time zone database, Europe/Lisbon).
    const staffed = [hours("2026-03-28", "08:00", "12:00"), hours("2026-03-28", "13:00", "17:00")];
    expect(nextDay({ timeZone, staffed }, at("2026-03-28T17:10:00Z")).staffed).toEqual([
      { from: "2026-03-29T08:00:00+01:00", to: "2026-03-29T12:00:00+01:00" },
      { from: "2026-03-29T13:00:00+01:00", to: "2026-03-29T17:00:00+01:00" },
    ]);
  });

  it("is the day that was already entered, as it was entered", () => {
    const staffed = [hours("2026-03-10"), hours("2026-03-12", "09:00", "13:00")];
    const nextOpen = "2026-03-13T07:30";
    expect(nextDay({ timeZone, staffed, nextOpen }, at("2026-03-10T18:05:00Z"))).toEqual({
      planFrom: "2026-03-12T09:00:00+00:00",
      staffed: [{ from: "2026-03-12T09:00:00+00:00", to: "2026-03-12T13:00:00+00:00" }],
      nextOpen: "2026-03-13T07:30:00+00:00",
    });
  });

  it("is when work goes on, where that was said, and work goes on the morning after", () => {
    const friday = { timeZone, staffed: [hours("2026-03-13")], nextOpen: "2026-03-16T07:00" };
    expect(nextDay(friday, at("2026-03-13T18:05:00Z"))).toEqual({
      planFrom: "2026-03-16T07:30:00+00:00",
      staffed: [{ from: "2026-03-16T07:30:00+00:00", to: "2026-03-16T18:00:00+00:00" }],
      nextOpen: "2026-03-17T07:00:00+00:00",
    });
  });

  it("is today where yesterday was only closed this morning, and what is left of today once it has begun", () => {
    expect(nextDay(tuesday, at("2026-03-11T07:00:00Z")).planFrom).toBe("2026-03-11T07:30:00+00:00");
    const late = nextDay(tuesday, at("2026-03-11T09:20:30Z"));
    expect(late.planFrom).toBe("2026-03-11T09:21:00+00:00");
    expect(late.staffed).toEqual([{ from: "2026-03-11T07:30:00+00:00", to: "2026-03-11T18:00:00+00:00" }]);
    expect(nextDay(tuesday, at("2026-03-16T06:00:00Z")).planFrom).toBe("2026-03-16T07:30:00+00:00");
  });

  it("is the same day where its hours have not begun", () => {
    expect(nextDay(tuesday, at("2026-03-10T05:00:00Z"))).toEqual({
      planFrom: "2026-03-10T07:30:00+00:00",
      staffed: [{ from: "2026-03-10T07:30:00+00:00", to: "2026-03-10T18:00:00+00:00" }],
    });
  });

  it("may end after midnight", () => {
    const staffed = [{ from: "2026-03-10T20:00", to: "2026-03-11T04:00" }];
    expect(nextDay({ timeZone, staffed }, at("2026-03-11T04:10:00Z")).staffed).toEqual([
      { from: "2026-03-11T20:00:00+00:00", to: "2026-03-12T04:00:00+00:00" },
    ]);
  });
});
