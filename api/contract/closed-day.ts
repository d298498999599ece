/** Close of day: what was fired, what failed and why, gas used against gas foreseen, and what grouping saved. */
import { z } from "zod";
import { instant, name, notNegative, offsetInstant } from "./parts.ts";
import { courseSchema } from "./remaking.ts";

export const closeDaySchema = z.strictObject({ who: z.string().trim().max(60).default("") });

const firedSchema = z.object({
  load: name,
  oven: name,
  kind: z.enum(["bake", "clean burn", "preheat"]),
  state: z.enum(["firing", "fired", "interrupted"]),
  setPointC: z.number().nullable(),
  doorOpensAt: offsetInstant,
  doneAt: offsetInstant,
  pans: z.int().nonnegative(),
  gasKWh: notNegative.describe("foreseen; of an interrupted load up to then"),
});

/** By the meter or the bottle: what the readings show was used between the first and the last of them. */
const measuredGasSchema = z.object({
  by: z.enum(["meter", "bottle"]),
  readings: z.int().positive(),
  from: offsetInstant,
  to: offsetInstant,
  units: notNegative,
  unit: name,
  kWh: notNegative,
  foreseenKWh: notNegative.describe("of the burners between the same instants"),
  differencePercent: z.number().nullable().describe("measured more than foreseen; null: nothing was foreseen"),
});

const savedSchema = z.object({
  habit: z.enum(["one pan per firing", "ticket order"]),
  habitKWh: notNegative.describe("what the habit would have burnt for the same bakes"),
  savedKWh: z.number(),
  savedMoney: z.number(),
});

export const daySummarySchema = z.object({
  pansFinished: z.int().nonnegative(),
  pansFailed: z.int().nonnegative(),
  bakes: z.int().nonnegative().describe("pans fired, counted once a firing"),
  loads: z.int().nonnegative(),
  gasKWh: notNegative.describe("foreseen for what was fired"),
  kWhPerPan: notNegative.nullable().describe("foreseen gas per pan fired; null: none was"),
  measuredGas: measuredGasSchema.nullable().describe("null: fewer than two readings of meter or bottle"),
  measuredKWhPerPan: notNegative.nullable(),
  failures: z.array(z.object({ cause: z.string(), pans: z.int().positive() })),
  fired: z.array(firedSchema),
  saved: z.array(savedSchema).describe("against each habit, for the bakes that were fired; empty: nothing was"),
});
export type DaySummary = z.output<typeof daySummarySchema>;

export const closedDaySchema = z.object({
  id: z.int().positive(),
  title: z.string(),
  closedAt: instant,
  plan: name.nullable(),
  firstEvent: z.int(),
  lastEvent: z.int(),
  summary: daySummarySchema,
});

/** Everything a plan can be made again from. */
const keptPlanSchema = z.object({
  id: name,
  kind: z.enum(["plan", "replan", "quote"]),
  acceptedAt: instant,
  day: z.unknown().describe("the day file it was planned from"),
  wishes: z.record(name, instant).describe("of a quote: the promises its search aimed for, pan by pan"),
  options: z.unknown().describe("seed, steps, seconds, gapPercent"),
  version: z.string().describe("of the program"),
  course: courseSchema,
  planFile: z.unknown(),
});

export const closedDayWithFilesSchema = closedDaySchema.extend({
  day: z.unknown().describe("the day file as it stood when it was closed"),
  planFile: z.unknown().describe("of the plan in force then; null: none was"),
  plans: z.array(keptPlanSchema).describe("every plan that was in force that day, in order"),
});

export type ClosedDayWithFiles = z.output<typeof closedDayWithFilesSchema>;

const spanSchema = z.object({
  from: offsetInstant,
  to: offsetInstant,
  days: z.int().nonnegative().describe("closed days in it, this day included"),
  bakes: z.int().nonnegative(),
  gasKWh: notNegative,
  saved: z.array(savedSchema),
});

/** Sums of the calendar week (from Monday) and month, in the shop's time zone. */
export const savedSpansSchema = z.object({ week: spanSchema, month: spanSchema });

/** The shop's day from now on: hours entered for it, else the closed day's again. */
const nextDaySchema = z.object({
  planFrom: offsetInstant,
  staffed: z.array(z.object({ from: offsetInstant, to: offsetInstant })),
  nextOpen: offsetInstant.optional(),
});

export const closeAnswerSchema = closedDaySchema.extend({ ...savedSpansSchema.shape, next: nextDaySchema });
/** What closing the day now would record. */
export const closePreviewSchema = savedSpansSchema.extend({ summary: daySummarySchema });
export type SavedSpans = z.output<typeof savedSpansSchema>;
