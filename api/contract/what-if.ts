/** What if: a few variants of the rest of the day, each searched with the same budget beside the day as it stands. Saves nothing. */
import { z } from "zod";
import { count, instant, name, notNegative, offsetInstant } from "./parts.ts";

export const variantSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("wait"),
    minutes: count.max(720).describe("no door opens for so long; bench and booth go on"),
  }),
  z.strictObject({ kind: z.literal("sprayers"), more: count.max(10).default(1).describe("so many more at the booth") }),
  z.strictObject({
    kind: z.literal("slack"),
    minutes: count.max(60).describe("every burner may go off so much later than now with every window kept"),
  }),
  z.strictObject({ kind: z.literal("shelf-out"), oven: name, shelf: name }),
]);
export type Variant = z.output<typeof variantSchema>;

export const whatIfAskSchema = z.strictObject({
  variants: z.array(variantSchema).min(1).max(8),
  now: instant.optional().describe("default: the service's clock"),
  steps: z.int().min(1).max(20_000).default(1500).describe("search steps of each, the day as it stands included"),
  seed: z.int().min(0).max(4_294_967_295).default(1),
});
export type WhatIfAsk = z.output<typeof whatIfAskSchema>;

/** What one plan comes to, from now to its last load. */
export const figuresSchema = z.object({
  cost: z.number().describe("in the day's currency"),
  gasKWh: notNegative,
  gasMoney: z.number(),
  crewMinutes: notNegative.describe("staffed minutes until the last load is done"),
  crewMoney: z.number(),
  lateTickets: z.int().nonnegative(),
  latePanMinutes: notNegative.describe("minutes late, summed over pans"),
  lateMoney: z.number(),
  leftOverPans: z
    .int()
    .nonnegative()
    .describe("pans that do not get all their coats, those that cannot be planned included"),
  leftOverMoney: z.number(),
  firings: z.int().nonnegative(),
  finishAt: offsetInstant.nullable().describe("when the last load is done; null: no load"),
});
export type Figures = z.output<typeof figuresSchema>;

/** More than the day as it stands; negative: less. */
const figuresDifferenceSchema = z.object({
  cost: z.number(),
  gasKWh: z.number(),
  gasMoney: z.number(),
  crewMinutes: z.number(),
  crewMoney: z.number(),
  lateTickets: z.int(),
  latePanMinutes: z.number(),
  lateMoney: z.number(),
  leftOverPans: z.int(),
  leftOverMoney: z.number(),
  firings: z.int(),
  finishMinutes: z.number().nullable().describe("later by; null: one of the two has no load"),
});
export type FiguresDifference = z.output<typeof figuresDifferenceSchema>;

export const whatIfCaseSchema = z.object({
  variant: variantSchema.nullable().describe("null: the day as it stands"),
  words: z.string().describe("what is changed"),
  state: z.enum(["queued", "searching", "done", "failed"]),
  steps: z
    .int()
    .nonnegative()
    .nullable()
    .describe("taken; null: not done. Fewer than asked for where it was proven best"),
  figures: figuresSchema.nullable(),
  difference: figuresDifferenceSchema.nullable().describe("null for the day as it stands, and until both are done"),
  told: z.array(z.string()).describe("the difference in sentences; what to mind"),
  problem: z.string().nullable(),
});
export type WhatIfCase = z.output<typeof whatIfCaseSchema>;

export const whatIfSchema = z.object({
  id: name,
  state: z.enum(["searching", "done", "stopped"]),
  asOf: offsetInstant.describe("from when on it is planned"),
  currency: z.string(),
  steps: z.int().positive(),
  base: whatIfCaseSchema,
  variants: z.array(whatIfCaseSchema).describe("in the order asked for"),
});
export type WhatIf = z.output<typeof whatIfSchema>;
