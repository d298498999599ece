/** Coat systems in the day file: the coats of each, how they are sprayed, mixed and baked. */
import { z } from "zod";
import { celsius, most, name, notNegative, positive, wholeMinutes } from "./parts.ts";

/** The cure: the four figures of the metal window go together; `cycleMinutes` serves ovens with a fixed cycle. */
const bakeSchema = z.strictObject({
  metalLowC: celsius.nullable().default(null).describe("lowest metal temperature that cures, °C"),
  metalHighC: celsius.nullable().default(null).describe("highest metal temperature the coat stands, °C"),
  soakLeastMinutes: notNegative
    .nullable()
    .default(null)
    .describe("least minutes at metalLowC + guardC or above; 0: it must get there"),
  soakMostMinutes: positive.nullable().default(null).describe("most minutes at metalLowC or above"),
  cycleMinutes: z
    .int()
    .positive()
    .nullable()
    .default(null)
    .describe("door-closed minutes in an oven with a fixed cycle; null: it goes into none"),
});

const coatSchema = z.strictObject({
  name: name.optional().describe("default: coat 1, coat 2, …"),
  sprayMinutes: wholeMinutes.describe("0: a step without spraying"),
  flashMinutes: notNegative.describe("end of spraying to the door's opening, at least"),
  maxWaitMinutes: notNegative.nullable().default(null).describe("end of spraying to the door's closing, at most"),
  mixGroup: name,
  solventMlPerM2: notNegative.describe("per m² of coated area: inside base and wall"),
  inspectMinutes: notNegative,
  bake: bakeSchema,
  ovens: z
    .array(name)
    .min(1)
    .max(most.ovens)
    .nullable()
    .default(null)
    .describe("ids of the only ovens it may go into; null: any"),
  paint: name.optional().describe("what is in the gun; default: coating id/coat name"),
});

export const coatingSchema = z
  .strictObject({
    id: name,
    name: name.optional().describe("default: the id"),
    coats: z.array(coatSchema).min(1).max(most.coats),
  })
  .transform((coating) => ({
    ...coating,
    name: coating.name ?? coating.id,
    coats: coating.coats.map((coat, i) => {
      const coatName = coat.name ?? `coat ${i + 1}`;
      return { ...coat, name: coatName, paint: coat.paint ?? `${coating.id}/${coatName}` };
    }),
  }));
