/** Pans in the day file: what there is to bake, one line per kind of piece. */
import { z } from "zod";
import { celsius, count, instant, name, notNegative, positive, wholeMinutes } from "./parts.ts";

const shapeSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("disc"), diameterCm: positive }),
  z.strictObject({ kind: z.literal("rectangle"), widthCm: positive, depthCm: positive }),
  z.strictObject({ kind: z.literal("area"), dm2: positive }),
]);

export const panSchema = z
  .strictObject({
    id: name,
    ticket: name.optional().describe("the customer's order; default: the id"),
    quantity: count.default(1).describe("alike pieces, items 1..quantity"),
    coating: name.describe("id of the coat system"),
    nextCoat: count.default(1).describe("first coat still due"),
    sprayed: z.boolean().default(false).describe("true: the coat is on and flashed at readyAt"),
    readyAt: instant,
    prepMinutes: wholeMinutes.default(0).describe("bench work still to do from readyAt on"),
    promisedAt: instant.nullable().default(null),
    overdue: z
      .boolean()
      .default(false)
      .describe("added: it came back to the bench after its promise, so a promise before readyAt is no slip"),
    priority: z.enum(["normal", "rush"]).default("normal"),
    latePerHour: notNegative.nullable().default(null).describe("per piece; null: the price by priority"),
    leftOverCost: notNegative.nullable().default(null).describe("per piece; null: leftOverPerPan"),
    shape: shapeSchema,
    heightCm: notNegative,
    massKg: positive.describe("one piece"),
    material: name.describe("a key of materials"),
    metalLimitC: celsius.nullable().default(null).describe("what the piece itself survives; null: no limit known"),
  })
  .transform((pan) => ({ ...pan, ticket: pan.ticket ?? pan.id }));
