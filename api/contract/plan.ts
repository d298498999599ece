/**
 * The plan file: the answer. Instants carry the zone's offset; what a person does falls on whole minutes, instants of
 * physics carry seconds. Fields marked "added" are ours beyond the agreed shape and may be missing in other planners' files.
 */
import { z } from "zod";
import { loadSchema } from "./load.ts";
import { count, name, notNegative, offsetInstant, positive } from "./parts.ts";

const searchSchema = z.object({
  status: z.enum(["proven", "good", "time", "stopped"]),
  seconds: notNegative,
  bestPossibleCost: notNegative.describe("lower bound on the cost of every plan that obeys the rules; 0: none known"),
  gapPercent: notNegative,
  lpSolves: z.int().nonnegative(),
  lpEngine: z.string(),
  steps: z.int().nonnegative().nullable().default(null).describe("added: search steps taken"),
  seed: z.int().nullable().default(null).describe("added: same day, seed and steps give the same plan"),
  unavoidable: z
    .object({ gas: notNegative, crew: notNegative, late: notNegative })
    .nullable()
    .default(null)
    .describe("added: what of the bound each part of the cost makes unavoidable"),
});

const costSchema = z.object({
  total: notNegative,
  gas: notNegative,
  crew: notNegative,
  late: notNegative,
  leftOver: notNegative,
  moved: notNegative,
});

const gasUseSchema = z.object({
  kWh: notNegative,
  units: notNegative,
  unit: name,
  kgCO2e: notNegative,
  comparedWith: z.array(
    z.object({
      habit: z.enum(["one pan per firing", "ticket order"]),
      firings: z.int().nonnegative(),
      kWh: notNegative,
      savedKWh: z.number(),
      savedCost: z.number(),
    }),
  ),
});

const task = { id: name, item: count, from: offsetInstant, to: offsetInstant };

const ticketSchema = z.object({
  ticket: name,
  readyAt: offsetInstant,
  promisedAt: offsetInstant.nullable(),
  lateMinutes: notNegative,
  reason: z.string().nullable().default(null).describe("added: why it is late; null where it is not"),
});

export const planSchema = z.object({
  formatVersion: z.literal(1),
  dayTitle: z.string(),
  madeAt: offsetInstant,
  search: searchSchema,
  cost: costSchema,
  gas: gasUseSchema,
  loads: z.array(loadSchema),
  prep: z.array(z.object({ ...task, bench: positive.int() })),
  booth: z.array(z.object({ ...task, coat: count, sprayer: positive.int() })),
  tickets: z.array(ticketSchema),
  leftOver: z.array(
    z.object({ id: name, item: count, coat: count.describe("first coat that no load bakes"), reason: z.string() }),
  ),
  warnings: z.array(z.object({ code: z.string(), message: z.string() })).default([]),
  cautions: z.array(z.string()).default([]).describe("added: what can hurt someone, and whose word rules"),
});

export type PlanFile = z.output<typeof planSchema>;
export type PlanLoad = PlanFile["loads"][number];
