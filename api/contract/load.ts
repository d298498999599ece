/** One firing, as the plan file lists it, and as the day file holds it fixed. */
import { z } from "zod";
import { celsius, count, instant, most, name, notNegative, offsetInstant, wholeMinutes } from "./parts.ts";

const kind = z.enum(["bake", "clean burn", "preheat"]);

/** Where a pan stands. `shelf`, `xCm`, `yCm` are null in an oven whose space is an area. */
const place = {
  id: name,
  item: count,
  coat: count,
  shelf: name.nullable(),
  xCm: z.number().nullable().describe("centre of the footprint from the shelf's left edge"),
  yCm: z.number().nullable().describe("centre of the footprint from the shelf's front edge"),
  turned: z.boolean().describe("rectangle turned by 90°"),
};

/** Null in a fixed cycle: inWindowAt, soakMinutes, peakC. inWindowAt is null too where the metal never gets there. */
const panFigures = {
  inWindowAt: offsetInstant.nullable(),
  soakMinutes: notNegative.nullable(),
  peakC: celsius.nullable(),
  cooledAt: offsetInstant,
};

const curvePointSchema = z.object({
  minute: z.int().nonnegative(),
  chamberC: z.number(),
  slowestC: z.number(),
  fastestC: z.number(),
});

export const loadSchema = z.object({
  id: name,
  oven: name,
  kind,
  state: z.enum(["planned", "pinned", "firing", "fired"]),
  setPointC: celsius.nullable().describe("null in a fixed cycle"),
  ventMinutes: wholeMinutes,
  doorOpensAt: offsetInstant,
  doorClosesAt: offsetInstant,
  burnerOnAt: offsetInstant.nullable(),
  setPointAt: offsetInstant.nullable().describe("null where the chamber only falls"),
  burnerOffAt: offsetInstant.nullable(),
  unloadAt: offsetInstant,
  doneAt: offsetInstant,
  chamberStartC: z.number().nullable(),
  gasKWh: notNegative,
  massKg: notNegative,
  solventMl: notNegative,
  pans: z.array(z.object({ ...place, ...panFigures })),
  slackMinutes: z.int().nonnegative().nullable(),
  curve: z.array(curvePointSchema),
});

/** A plan's figures ride along when a load is copied from it; planning works them out anew. */
const rideAlong = {
  burnerOnAt: instant.nullable().optional(),
  setPointAt: instant.nullable().optional(),
  chamberStartC: z.number().nullable().optional(),
  gasKWh: notNegative.optional(),
  massKg: notNegative.optional(),
  solventMl: notNegative.optional(),
  slackMinutes: z.int().nonnegative().nullable().optional(),
  curve: z.array(curvePointSchema).max(most.curve).optional(),
};

/** A load that planning must not touch. Schedule instants on whole minutes. */
export const heldLoadSchema = z.strictObject({
  id: name,
  oven: name,
  kind: kind.default("bake"),
  state: z.enum(["fired", "firing", "pinned"]),
  setPointC: celsius.nullable().default(null).describe("null in a fixed cycle"),
  ventMinutes: wholeMinutes.default(0),
  doorOpensAt: instant,
  doorClosesAt: instant,
  burnerOffAt: instant.nullable().default(null).describe("null in a fixed cycle"),
  unloadAt: instant,
  doneAt: instant,
  pans: z
    .array(
      z.strictObject({
        ...place,
        item: count.default(1),
        shelf: place.shelf.default(null),
        xCm: place.xCm.default(null),
        yCm: place.yCm.default(null),
        turned: place.turned.default(false),
        inWindowAt: instant.nullable().optional(),
        soakMinutes: notNegative.nullable().optional(),
        peakC: celsius.nullable().optional(),
        cooledAt: instant.optional(),
      }),
    )
    .max(most.pans)
    .default([]),
  ...rideAlong,
});
