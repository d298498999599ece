/**
 * Local times against the rules of the IANA time zone database, worked out by hand from memory: Europe changes at 01:00 UTC on the last
 * Sundays of March and October (Directive 2000/84/EC), Newfoundland at 02:00 local on the second Sunday of March and the first
 * of November, Lord Howe by half an hour on the first Sundays of April and October; Nepal never changes.
 */
import { describe, expect, it } from "vitest";
import { isZone, readInstant, writeInstant } from "../../../../api/day/instants.ts";

const utc = (text: string) => ({ kind: "instant", millis: Date.parse(text) });

describe("a local time", () => {
  it.each([
    ["Europe/Lisbon", "2026-03-10T07:30", "2026-03-10T07:30Z"],
    ["Europe/Lisbon", "2026-03-29T00:59", "2026-03-29T00:59Z"],
    ["Europe/Lisbon", "2026-03-29T02:00", "2026-03-29T01:00Z"],
    ["Europe/Lisbon", "2026-10-25T00:59", "2026-10-24T23:59Z"],
    ["Europe/Lisbon", "2026-10-25T02:00", "2026-10-25T02:00Z"],
    ["America/St_Johns", "2026-01-15T08:00", "2026-01-15T11:30Z"],
    ["America/St_Johns", "2026-07-15T08:00", "2026-07-15T10:30Z"],
    ["America/St_Johns", "2026-03-08T03:00", "2026-03-08T05:30Z"],
    ["Australia/Lord_Howe", "2026-07-15T08:00", "2026-07-14T21:30Z"],
    ["Australia/Lord_Howe", "2026-12-15T08:00", "2026-12-14T21:00Z"],
    ["Asia/Kathmandu", "2026-03-29T02:30", "2026-03-28T20:45Z"],
    ["UTC", "2026-03-29T02:30:15.5", "2026-03-29T02:30:15.5Z"],
  ])("in %s, %s is %s", (zone, local, instant) => {
    expect(readInstant(local, zone)).toEqual(utc(instant));
  });

  it.each([
    ["Europe/Lisbon", "2026-03-29T01:30", "2026-03-29T00:30:00+00:00", "2026-03-29T02:30:00+01:00"],
    ["America/St_Johns", "2026-03-08T02:15", "2026-03-08T01:15:00-03:30", "2026-03-08T03:15:00-02:30"],
    ["Australia/Lord_Howe", "2026-10-04T02:10", "2026-10-04T01:40:00+10:30", "2026-10-04T02:40:00+11:00"],
  ])("in %s, %s is skipped; it was %s or %s that was meant", (zone, local, earlier, later) => {
    expect(readInstant(local, zone)).toEqual({ kind: "skipped", earlier, later });
  });

  it.each([
    ["Europe/Lisbon", "2026-10-25T01:30", "2026-10-25T01:30:00+01:00", "2026-10-25T01:30:00+00:00"],
    ["America/St_Johns", "2026-11-01T01:15", "2026-11-01T01:15:00-02:30", "2026-11-01T01:15:00-03:30"],
    ["Australia/Lord_Howe", "2026-04-05T01:45", "2026-04-05T01:45:00+11:00", "2026-04-05T01:45:00+10:30"],
  ])("in %s, %s comes twice: %s and %s", (zone, local, earlier, later) => {
    expect(readInstant(local, zone)).toEqual({ kind: "repeated", earlier, later });
    for (const text of [earlier, later]) expect(readInstant(text, zone)).toEqual(utc(text));
  });

  it("with an offset is what it says, whatever the zone", () => {
    expect(readInstant("2026-03-29T01:30+05:45", "Europe/Lisbon")).toEqual(utc("2026-03-28T19:45Z"));
    expect(readInstant("2026-03-29T01:30Z", "Asia/Kathmandu")).toEqual(utc("2026-03-29T01:30Z"));
  });
});

describe("a written instant", () => {
  it.each([
    ["Europe/Lisbon", "2026-03-10T08:31Z", "2026-03-10T08:31:00+00:00"],
    ["Europe/Lisbon", "2026-07-10T08:31Z", "2026-07-10T09:31:00+01:00"],
    ["America/St_Johns", "2026-03-10T08:31Z", "2026-03-10T06:01:00-02:30"],
    ["Asia/Kathmandu", "2026-03-10T08:31:12.6Z", "2026-03-10T14:16:13+05:45"],
  ])("in %s, %s reads %s", (zone, instant, written) => {
    expect(writeInstant(Date.parse(instant), zone)).toBe(written);
    expect(readInstant(written, zone)).toEqual({
      kind: "instant",
      millis: Math.round(Date.parse(instant) / 1000) * 1000,
    });
  });
});

it("knows zones by their IANA names only", () => {
  expect(isZone("Australia/Lord_Howe")).toBe(true);
  for (const zone of ["Lisbon", "UTC+1", "", "Mars/Olympus", "__proto__"]) expect(isZone(zone)).toBe(false);
});
