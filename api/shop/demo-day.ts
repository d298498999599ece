/** The invented day that a new shop starts with, moved to today, or to tomorrow once the morning is over. */
import { readFileSync } from "node:fs";
import { DateTime } from "luxon";
import type { DayFile } from "../contract/day.ts";

const source = new URL("../../fixtures/shops/full-day.json", import.meta.url);
const morningEndsHour = 12;

export function demoDay(now: number): DayFile {
  const text = readFileSync(source, "utf8");
  const day = JSON.parse(text) as DayFile;
  const here = DateTime.fromMillis(now, { zone: day.timeZone });
  const target = (here.hour < morningEndsHour ? here : here.plus({ days: 1 })).startOf("day");
  const written = DateTime.fromISO(day.planFrom, { zone: day.timeZone }).startOf("day");
  const days = Math.round(target.diff(written, "days").days);
  return JSON.parse(text.replace(/"(\d{4}-\d\d-\d\d)T/g, (_, date: string) => `"${shifted(date, days)}T`)) as DayFile;
}

function shifted(date: string, days: number): string {
  return DateTime.fromISO(date, { zone: "utc" }).plus({ days }).toFormat("yyyy-MM-dd");
}
