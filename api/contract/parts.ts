/** The small schemas that the day file and the plan file share: instants, positive figures, ids. */
import { z } from "zod";

const wall = String.raw`^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?`;
const offset = String.raw`(Z|[+-]([01]\d|2[0-3]):[0-5]\d)`;

/** ISO 8601 instant to the minute or finer; without an offset it is local to the day's time zone. */
export const instant = z
  .string()
  .regex(new RegExp(`${wall}${offset}?$`))
  .refine(isCalendarDate)
  .describe("ISO 8601; local to timeZone where it has no offset");

/** ISO 8601 instant that carries its offset. */
export const offsetInstant = z
  .string()
  .regex(new RegExp(`${wall}${offset}$`))
  .refine(isCalendarDate)
  .describe("ISO 8601 with its offset");

/** The pattern lets 30 February through; a date that the calendar does not have rolls over into the next month. */
function isCalendarDate(text: string): boolean {
  const [year, month, day] = text.slice(0, 10).split("-").map(Number);
  return new Date(Date.UTC(year ?? 0, (month ?? 0) - 1, day)).getUTCDate() === day;
}

export const name = z.string().trim().min(1).max(200);
export const positive = z.number().positive();
export const notNegative = z.number().nonnegative();
/** Whole minutes of what a person does. */
export const wholeMinutes = z.int().nonnegative();
/** Nothing is colder than absolute zero. */
export const celsius = z.number().min(-273.15);
export const count = z.int().positive();

/** No workshop has more; whatever is longer is a slip or an attack. Pans are counted by the piece in api/day/checks. */
export const most = {
  staffed: 400,
  ovens: 50,
  shelves: 100,
  coatings: 300,
  coats: 20,
  groups: 100,
  pairs: 2000,
  materials: 200,
  /** More pieces than a four-oven shop bakes in a fortnight. */
  pans: 5000,
  held: 500,
  /** A point a minute, for a firing that goes on for days. */
  curve: 10_000,
  hands: 100,
} as const;
