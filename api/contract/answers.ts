/** What the service answers besides plans: lists, single things with their state, failures in the form of RFC 9457. */
import { z } from "zod";
import { count, instant, name, notNegative } from "./parts.ts";
import { problemSchema } from "./problem.ts";

/** RFC 9457 problem details; `problems` lists everything wrong with what was sent, each with its path. */
export const failureSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string(),
  instance: z.string().optional(),
  problems: z.array(problemSchema).optional(),
});
export type Failure = z.output<typeof failureSchema>;

export const panStateSchema = z.enum(["waiting", "on hold", "finished", "failed", "withdrawn", "handed over"]);

export const savedSchema = z.object({ id: name, event: z.int().positive() });

export const editedSchema = savedSchema.extend({
  warnings: z.array(problemSchema).describe("what of it is unlikely, but was taken as it is"),
});

export const healthSchema = z.object({
  status: z.literal("ok"),
  version: z.string(),
  searching: z.int().nonnegative(),
  queued: z.int().nonnegative(),
});

export const ticketSchema = z.object({
  ticket: name,
  pans: z.array(z.object({ id: name, quantity: count, state: panStateSchema })),
  promisedAt: instant.nullable(),
  readyAt: instant.nullable().describe("by the plan in force"),
  lateMinutes: notNegative.nullable(),
});

export const ticketChangeSchema = z.strictObject({
  promisedAt: instant.nullable().optional(),
  priority: z.enum(["normal", "rush"]).optional(),
});

/** One measurement at the oven; every figure is optional but one must be there. */
export const readingSchema = z
  .strictObject({
    at: instant.optional().describe("default: now"),
    oven: name,
    load: name.optional(),
    pan: name.optional().describe("whose metal was measured"),
    chamberC: z.number().min(-273.15).max(2000).optional(),
    metalC: z.number().min(-273.15).max(2000).optional(),
    meterUnits: notNegative.optional().describe("what the gas meter or the scale shows"),
    note: z.string().trim().max(500).default(""),
  })
  .refine((reading) => [reading.chamberC, reading.metalC, reading.meterUnits].some((figure) => figure !== undefined), {
    message: "a reading needs chamberC, metalC or meterUnits",
  });

export const readingAnswerSchema = z.object({ id: z.int().positive(), at: instant, reading: z.unknown() });

export const loadAnswerSchema = z.object({
  id: name,
  state: z.enum(["planned", "pinned", "firing", "fired", "interrupted", "dropped"]),
  note: z.string(),
  load: z.unknown().describe("as in the plan file, with the instants as they happened"),
});

export const loginSchema = z.strictObject({ token: z.string().max(500) });
