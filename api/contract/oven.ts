/** Ovens in the day file: the cycle that heats, the space that holds. */
import { z } from "zod";
import { celsius, instant, most, name, notNegative, positive, wholeMinutes } from "./parts.ts";

/** One chamber with a burner; every figure can be measured with a stopwatch, a gas meter and a thermometer. */
const thermalCycleSchema = z.strictObject({
  kind: z.literal("thermal"),
  burnerKW: positive,
  efficiency: positive.max(1).describe("share of the gross heat that reaches the chamber"),
  heatCapacityKJPerK: positive,
  wallLossWPerK: notNegative,
  exhaustWPerK: notNegative.describe("fan on: purge and burning"),
  coastExhaustWPerK: notNegative.describe("fan while coasting and venting"),
  filmWPerM2K: positive.describe("convection and radiation together"),
  purgeMinutes: notNegative,
  loadMinutes: wholeMinutes,
  unloadMinutes: wholeMinutes,
  doorTauMinutes: positive.describe("time constant of the chamber with the door open"),
  doorLimitC: celsius.describe("no door opens above this chamber temperature"),
  setPointMaxC: celsius,
  setPointStepC: z.number().min(0.5).default(5),
  guardC: notNegative.default(5).describe("stands for unevenness and the thermometer's error"),
  earlyMinutes: wholeMinutes.default(1).describe("the burner may go off this much early"),
  slackMinutes: wholeMinutes.default(2).describe("… and this much late"),
  startC: celsius.optional().describe("chamber at planFrom, or at the first held load's door; default: ambientC"),
});

/** A shop that knows only its habits: the door stays closed for the longest `cycleMinutes` of the load. */
const fixedCycleSchema = z.strictObject({
  kind: z.literal("fixed"),
  loadMinutes: wholeMinutes,
  unloadMinutes: wholeMinutes,
  gasKW: notNegative.describe("gross, while the door is closed"),
});

const shelfSchema = z.strictObject({
  id: name,
  widthCm: positive,
  depthCm: positive,
  clearHeightCm: positive,
  maxKg: positive.nullable().default(null).describe("null: no limit"),
  offsetC: z.number().default(0).describe("shelf air minus chamber, °C"),
});

export const ovenSchema = z
  .strictObject({
    id: name,
    name: name.optional().describe("default: the id"),
    cycle: z.discriminatedUnion("kind", [thermalCycleSchema, fixedCycleSchema]),
    space: z.discriminatedUnion("kind", [
      z.strictObject({
        kind: z.literal("shelves"),
        gapCm: notNegative.default(2).describe("between pans and to every edge"),
        shelves: z.array(shelfSchema).min(1).max(most.shelves),
      }),
      z.strictObject({ kind: z.literal("area"), dm2: positive }),
    ]),
    maxLoadKg: positive.nullable().default(null).describe("null: no limit"),
    maxSolventMl: notNegative.nullable().default(null).describe("from the oven's own plate; null: no limit"),
    attended: z.boolean().default(true).describe("true: the whole firing lies inside one staffed interval"),
    outUntil: instant
      .nullable()
      .default(null)
      .describe("added: out of use until then: no fan, burner or door before it, save for loads that are facts"),
    lastGroups: z.array(name).max(most.groups).default([]).describe("mix groups that stood in it before planFrom"),
  })
  .transform((oven) => ({ ...oven, name: oven.name ?? oven.id }));
