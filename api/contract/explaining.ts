/** May these share a firing, and if not, why: the sentence with the numbers, and both metals drawn over their windows. */
import { z } from "zod";
import { name, notNegative } from "./parts.ts";

export const explainAskSchema = z.strictObject({
  one: name.describe("a pan, or one piece of a line of alike pans"),
  other: name.describe("another pan, or a load of the plan in force"),
});

/** One metal: the window of the coat it needs, and what the drawn firing does to it. */
const metalSchema = z.object({
  pan: name,
  coat: z.int().positive(),
  coatName: z.string(),
  shelf: z.string().nullable().describe("where it stands in the drawn firing; null: on no shelf that takes both"),
  lowestC: z.number().describe("metal at or above this cures"),
  highestC: z.number().describe("metal above this is spoilt: the coat's limit or the piece's own, the lower"),
  guardC: notNegative.describe("kept from both ends: unevenness and the thermometer's error"),
  soakLeastMinutes: notNegative,
  soakMostMinutes: notNegative,
  inWindowMinute: z.number().nullable().describe("when it is at lowestC + guardC; null: never"),
  soakMinutes: notNegative.describe("at lowestC + guardC or above"),
  aboveLowMinutes: notNegative.describe("at lowestC or above; beyond soakMostMinutes it is spoilt"),
  peakC: z.number(),
  kept: z.boolean().describe("this firing keeps its window"),
  why: z.string().describe("what it misses; empty where kept"),
});

const curvePointSchema = z.object({
  minute: z.int().nonnegative().describe("from the door's closing"),
  chamberC: z.number(),
  oneC: z.number().describe("metal of `metals[0]`"),
  otherC: z.number().describe("metal of `metals[1]`"),
});

/** The firing that takes both, or the one that comes nearest to it. */
export const drawnFiringSchema = z.object({
  oven: name,
  setPointC: z.number(),
  burnerOffMinute: z.int().nonnegative(),
  unloadMinute: z.int().nonnegative(),
  chamberStartC: z.number().describe("when the door opens"),
  metals: z
    .array(metalSchema)
    .length(2)
    .describe("the first asked about, then the other; of a load the pan that fits worst"),
  points: z.array(curvePointSchema).describe("a point a minute until the door opens"),
});

export const explainAnswerSchema = z.object({
  shares: z.boolean(),
  words: z.array(z.string()),
  oven: name.nullable(),
  setPointC: z.number().nullable(),
  burnerOffMinutes: z.number().nullable(),
  slackMinutes: z.number().nullable(),
  gasKWh: z.number().nullable(),
  reasons: z.array(
    z.object({
      code: z.string(),
      oven: name.nullable(),
      numbers: z.record(z.string(), z.union([z.number(), z.string()])),
    }),
  ),
  firing: drawnFiringSchema.nullable().describe("null: no oven that both may go into can be followed (fixed cycles)"),
});
export type ExplainAnswer = z.output<typeof explainAnswerSchema>;
export type DrawnFiring = z.output<typeof drawnFiringSchema>;
