/** What happened in the shop, as the tablet or the phone reports it: one event each, in the trade's words. */
import { z } from "zod";
import { count, instant, name, notNegative, positive, wholeMinutes } from "./parts.ts";

/** Free text of a person; kept in the shop's file, never in a log. */
const text = z.string().trim().max(500).default("");

const about = {
  at: instant.optional().describe("default: now"),
  who: z.string().trim().max(60).default("").describe("who reports it"),
  note: text,
};

const pan = name.describe("the pan's id, as in plans: K-201-A, or K-201-A.2 for the second of several alike");
const load = name.describe("id of a load of the plan in force");

/** A pan event names a single pan, or a whole line of alike pans. */
const panEvents = [
  z.strictObject({
    kind: z.literal("pan-ready"),
    pan,
    prepMinutes: wholeMinutes.default(0).describe("bench work still to do"),
    nextCoat: count.optional().describe("default: as it was; one more than its last coat: it is finished"),
    sprayed: z.boolean().default(false).describe("true: its next coat is on and flashed"),
    ...about,
  }),
  z.strictObject({
    kind: z.literal("pan-failed"),
    pan,
    cause: z.string().trim().min(1).max(200).describe("pinholes, fisheyes, overbaked, …"),
    stripMinutes: wholeMinutes.default(45).describe("bench work before the next coat"),
    nextCoat: count.default(1).describe("the coat it goes back to"),
    coating: name
      .optional()
      .describe("another coat system to follow from here, as one that begins with an outgassing bake"),
    ...about,
  }),
  z.strictObject({ kind: z.literal("pan-held"), pan, ...about }).describe("left out of planning until it is ready"),
  z.strictObject({ kind: z.literal("pan-withdrawn"), pan, ...about }),
  z.strictObject({ kind: z.literal("ticket-handed-over"), ticket: name, ...about }),
] as const;

const loadEvents = [
  z.strictObject({ kind: z.literal("load-opened"), load, ...about }),
  z.strictObject({ kind: z.literal("load-closed"), load, ...about }),
  z.strictObject({ kind: z.literal("burner-off"), load, ...about }),
  z.strictObject({ kind: z.literal("load-out"), load, ...about }),
  z.strictObject({
    kind: z.literal("load-late"),
    load,
    minutes: count.max(1440).describe("everything of it still to come happens this much later"),
    ...about,
  }),
  z.strictObject({
    kind: z.literal("load-interrupted"),
    load,
    cause: z.string().trim().min(1).max(200).describe("power cut, flame out, fan stopped, …"),
    ...about,
  }),
  z.strictObject({ kind: z.literal("load-pinned"), load, ...about }),
  z.strictObject({ kind: z.literal("load-unpinned"), load, ...about }),
] as const;

const shopEvents = [
  z.strictObject({
    kind: z.literal("oven-out"),
    oven: name,
    cause: text,
    until: instant
      .optional()
      .describe("when it is expected back: planned for from then on, unless it is not reported back by then"),
    ...about,
  }),
  z.strictObject({ kind: z.literal("oven-back"), oven: name, ...about }),
  z.strictObject({ kind: z.literal("shelf-out"), oven: name, shelf: name, cause: text, ...about }),
  z.strictObject({ kind: z.literal("shelf-back"), oven: name, shelf: name, ...about }),
  z.strictObject({
    kind: z.literal("bottle-changed"),
    unitsLeft: notNegative.nullable().describe("what it holds now; null: mains"),
    maxDrawKW: positive.nullable().default(null).describe("what it can give at that level; null: no limit"),
    ...about,
  }),
  z.strictObject({
    kind: z.literal("gas-left"),
    unitsLeft: notNegative.describe("what the bottle in use still holds, by scale or gauge"),
    maxDrawKW: positive.nullable().optional().describe("what it can give at that level; default: as it was"),
    ...about,
  }),
  z.strictObject({
    kind: z.literal("sprayers-changed"),
    sprayers: z.int().nonnegative().max(50).describe("how many are at the booth from now on; 0: nobody"),
    ...about,
  }),
] as const;

export const happenedSchema = z.discriminatedUnion("kind", [...panEvents, ...loadEvents, ...shopEvents]);
export type Happened = z.output<typeof happenedSchema>;
export type HappenedOf<Kind extends Happened["kind"]> = Extract<Happened, { kind: Kind }>;

/** An entry of the event log. */
export const loggedSchema = z.object({
  id: z.int().positive(),
  at: instant,
  who: z.string(),
  kind: z.string(),
  subject: z.string().describe("what for: a pan, a load, an oven, …"),
  body: z.unknown().describe("as it was reported"),
  undoes: z.int().positive().nullable(),
});
export type Logged = z.output<typeof loggedSchema>;
