/** Plans over the wire: asked for, under way, made, compared, accepted; and the quote for a rush job. */
import { z } from "zod";
import { happenedSchema } from "./happened.ts";
import { panSchema } from "./pan.ts";
import { instant, name, notNegative, offsetInstant } from "./parts.ts";
import { planSchema } from "./plan.ts";

const budget = {
  seconds: z.number().positive().max(600).default(20).describe("how long the search may take"),
  steps: z.int().positive().max(100_000_000).optional().describe("stop after so many steps: repeatable"),
  seed: z.int().min(0).max(4_294_967_295).default(1),
  gapPercent: z
    .number()
    .min(0)
    .max(100)
    .default(0.1)
    .describe("good enough: within so many percent of the best possible"),
};

const who = z.string().trim().max(60).default("").describe("who asks");

export const planAskSchema = z.strictObject({
  from: z
    .enum(["day", "now"])
    .default("day")
    .describe("day: from the day's planFrom on; now: what is left from now on"),
  ...budget,
});

export const replanAskSchema = z.strictObject({
  happened: z.array(happenedSchema).max(100).default([]).describe("recorded before planning, all or none"),
  now: instant.optional().describe("default: the service's clock"),
  who,
  ...budget,
});

export const quoteAskSchema = z.strictObject({
  pans: z.array(panSchema).min(1).max(50).describe("the job, not yet taken; a promisedAt is the customer's wish"),
  now: instant.optional(),
  marginMinutes: z
    .number()
    .min(0)
    .max(1440)
    .default(10)
    .describe("kept between the earliest safe hand-over and the promise"),
  ...budget,
});

export const acceptSchema = z.strictObject({
  who,
  note: z.string().trim().max(500).default(""),
  offer: name
    .optional()
    .describe(
      "of a quote, the one that was seen: refused where a better one has come since. The search ends either way",
    ),
});

export const searchStateSchema = z.enum(["queued", "searching", "done", "stopped", "cut short", "failed"]);

/** What a pan's first bake not yet begun was and will be. */
const bakeSchema = z.object({
  load: name,
  oven: name,
  coat: z.int(),
  setPointC: z.number().nullable(),
  doorOpensAt: offsetInstant,
});

export const panDifferenceSchema = z.object({
  pan: name,
  ticket: name,
  change: z.enum(["same", "earlier", "later", "new", "left over", "planned again", "done", "on hold", "gone", "none"]),
  minutes: z.number().nullable().describe("later by; negative: earlier; null: not comparable"),
  moved: z.boolean().describe("more than 15 min from the plan in force, or dropped: priced by movePerPan"),
  was: bakeSchema.nullable(),
  becomes: bakeSchema.nullable(),
  words: z.string(),
});

export const ticketDifferenceSchema = z.object({
  ticket: name,
  waitsFor: z.array(name).describe("pans of it outside the plan: it cannot be handed over whole before they are done"),
  promisedAt: offsetInstant.nullable(),
  wasReadyAt: offsetInstant.nullable(),
  readyAt: offsetInstant.nullable(),
  minutes: z.number().nullable(),
  wasLateMinutes: z.number().nullable(),
  lateMinutes: z.number().nullable(),
  words: z.string(),
});

export const differenceSchema = z.object({
  from: name.describe("the plan it is compared with"),
  asOf: offsetInstant,
  pans: z.array(panDifferenceSchema),
  tickets: z.array(ticketDifferenceSchema),
  gasKWh: z.number().describe("more gas from now on; negative: less"),
  ovenMinutes: z.number().describe("more minutes of ovens in use"),
  crewMinutes: z.number().describe("more staffed minutes to the last load's end"),
  latePanMinutes: z.number().describe("more minutes late, summed over pans"),
  money: z.object({
    gas: z.number(),
    crew: z.number(),
    late: z.number(),
    leftOver: z.number(),
    moved: z.number(),
    total: z.number(),
  }),
  words: z.array(z.string()).describe("what changes, in sentences; empty: nothing"),
});

const onHoldSchema = z.object({ pan: name, why: z.string() });

/** A load that is over or under way: what planning took as given. */
const factSchema = z.object({
  load: name,
  oven: name,
  state: z.string(),
  doorOpensAt: instant,
  doneAt: instant,
  pans: z.array(name),
});

/** How far an interrupted load had come, pan by pan, by the oven's physics; measure before believing it. */
export const interruptionSchema = z.object({
  load: name,
  at: offsetInstant,
  chamberC: z.number(),
  pans: z.array(
    z.object({
      pan: name,
      coat: z.int(),
      metalC: z.number(),
      peakC: z.number(),
      soakMinutes: z.number().describe("at metalLowC + guardC or above, until the burner was lost"),
      missingMinutes: z.number().describe("of the least soak"),
      advice: z.enum(["bake again", "extend and inspect", "inspect", "strip"]),
      words: z.string(),
    }),
  ),
  steps: z.array(z.string()).describe("what to do at the oven, in order"),
});

export const searchSchema = z.object({
  id: name,
  kind: z.enum(["plan", "replan", "quote"]),
  state: searchStateSchema,
  madeAt: offsetInstant,
  replaces: name.nullable(),
  inForce: z.boolean(),
  acceptedAt: offsetInstant.nullable(),
  cost: z.number().nullable(),
  bestPossibleCost: z.number().nullable(),
  seconds: notNegative,
  plan: planSchema.nullable().describe("null: none found yet, or it failed the check"),
  difference: differenceSchema.nullable().describe("null: there is no plan in force to compare with"),
  onHold: z.array(onHoldSchema).describe("pans that cannot be planned as things stand"),
  soFar: z.array(factSchema).describe("loads over or under way when it was made; planning leaves them alone"),
  lostPins: z.array(name).describe("pinned loads that no sound plan could keep; they were planned anew"),
  problem: z.string().nullable().describe("why there is no plan"),
});
export type SearchAnswer = z.output<typeof searchSchema>;
export type Difference = z.output<typeof differenceSchema>;
export type PanDifference = z.output<typeof panDifferenceSchema>;
export type TicketDifference = z.output<typeof ticketDifferenceSchema>;
export type Interruption = z.output<typeof interruptionSchema>;

export const replanAnswerSchema = searchSchema.extend({
  recorded: z.array(z.int()).describe("numbers of the events"),
  interrupted: z.array(interruptionSchema),
  notes: z.array(z.string()),
});

export const quoteAnswerSchema = searchSchema.extend({
  offer: name
    .nullable()
    .describe("stands for this plan with these figures: send it with the acceptance; null: no plan yet"),
  quote: z
    .object({
      earliestReadyAt: offsetInstant.nullable().describe("earliest safe hand-over; null: not within the day"),
      promiseAt: offsetInstant.nullable().describe("what to promise"),
      wishAt: offsetInstant.nullable(),
      wishKept: z.boolean().nullable(),
      slips: z.array(z.object({ ticket: name, minutes: z.number(), lateMinutes: z.number(), words: z.string() })),
      extraGasKWh: z.number(),
      extraOvenMinutes: z.number(),
      extraMoney: z.number().describe("what taking the job costs, its own lateness not counted"),
      suggestedSurcharge: notNegative,
      words: z.array(z.string()),
    })
    .nullable(),
});
export type Quote = NonNullable<z.output<typeof quoteAnswerSchema>["quote"]>;
