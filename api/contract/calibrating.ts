/** An oven's figures proposed from its readings. Nothing changes until somebody puts them into the oven. */
import { z } from "zod";
import { count, instant, name, notNegative } from "./parts.ts";

export const calibrationAskSchema = z.strictObject({
  from: instant.optional().describe("only readings since then; default: all that are kept"),
});

const figureSchema = z.object({
  figure: z.enum([
    "heatCapacityKJPerK",
    "wallLossWPerK",
    "exhaustWPerK",
    "coastExhaustWPerK",
    "filmWPerM2K",
    "efficiency",
  ]),
  now: z.number(),
  proposed: z.number(),
  errorPercent: notNegative.describe("standard error of the proposed figure"),
  told: z.boolean().describe("false: the readings say little about it, so it leans on the present figure"),
});

const residualSchema = z.object({
  chamberK: notNegative.nullable(),
  metalK: notNegative.nullable(),
  gasKWh: notNegative.nullable(),
});

export const calibrationSchema = z.object({
  oven: name,
  firings: count.describe("loads whose readings were used"),
  readings: count,
  figures: z.array(figureSchema),
  residualNow: residualSchema.describe(
    "root mean square between readings and the present figures; null: none of the kind",
  ),
  residualProposed: residualSchema,
  proposedOven: z
    .unknown()
    .describe("the oven with the figures that the readings tell, to be put at /ovens/{id} with If-Match"),
  etag: z.string().describe("for that If-Match"),
  words: z.array(z.string()),
});
export type CalibrationAnswer = z.output<typeof calibrationSchema>;
