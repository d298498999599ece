/**
 * The day file: what there is to bake, with what, and when. The one source of its types, of OpenAPI and of messages.
 *
 * Units are in the names (°C, cm, kg, minutes, gross kWh). Unknown fields are refused. Limits here are only physical;
 * what is merely unlikely is warned about in api/day/checks.
 */
import { z } from "zod";
import { coatingSchema } from "./coating.ts";
import { heldLoadSchema } from "./load.ts";
import { ovenSchema } from "./oven.ts";
import { panSchema } from "./pan.ts";
import { celsius, count, instant, most, name, notNegative, positive, wholeMinutes } from "./parts.ts";

/** What is not priced costs nothing, save a pan left over: at nothing, baking nothing would be the cheapest plan. */
const pricesSchema = z
  .strictObject({
    gasPerKWh: notNegative.default(0),
    crewPerHour: notNegative.default(0),
    latePerPanHour: notNegative.default(0),
    rushLatePerPanHour: notNegative.optional().describe("default: latePerPanHour"),
    leftOverPerPan: notNegative.default(1000),
    movePerPan: notNegative.default(0),
  })
  .transform((prices) => ({ ...prices, rushLatePerPanHour: prices.rushLatePerPanHour ?? prices.latePerPanHour }));

const gasSchema = z.strictObject({
  kind: name.describe("natural, propane, butane, lpg, …"),
  grossKWhPerUnit: positive,
  unit: name.describe("m3, kg, l, therm, …: what the bill or the bottle counts in"),
  kgCO2ePerKWh: notNegative,
  unitsLeft: notNegative.nullable().default(null).describe("what a bottle still holds; null: mains"),
  maxDrawKW: positive.nullable().default(null).describe("what it can give at that level; null: no limit"),
});

/** Natural gas, rounded from the UK government's conversion factors of 2025 (11.29 kWh/m³, 0.18296 kg/kWh gross). */
const naturalGas = { kind: "natural", grossKWhPerUnit: 11, unit: "m3", kgCO2ePerKWh: 0.183 } as const;

const boothSchema = z.strictObject({
  sprayers: z
    .int()
    .nonnegative()
    .max(most.hands)
    .default(1)
    .describe("0: no limit and no tasks, the minutes still pass"),
  changeoverMinutes: wholeMinutes.default(0),
  handleAtC: celsius.default(40),
  coolFilmWPerM2K: positive.default(12),
});

const mixingSchema = z.strictObject({
  rule: z.enum(["any", "same-group"]).default("any"),
  neverTogether: z
    .array(z.tuple([name, name]))
    .max(most.pairs)
    .default([]),
  cleanBurn: z
    .strictObject({
      after: z.array(name).min(1).max(most.groups),
      before: z.array(name).min(1).max(most.groups),
      setPointC: celsius,
      holdMinutes: notNegative,
    })
    .nullable()
    .default(null),
});

/** On a re-plan: where the plan in force had the first bake not yet begun of each pan; prices `moved`. */
const inForceSchema = z.strictObject({ id: name, item: count.default(1), doorOpensAt: instant });

/** On a re-plan: bakes of the plan in force still to come, in order of door opening; planning begins from them. */
const inForceLoadSchema = z.strictObject({
  oven: name,
  setPointC: celsius.nullable().default(null).describe("null in a fixed cycle"),
  doorOpensAt: instant,
  pans: z.array(z.strictObject({ id: name, item: count.default(1), coat: count })).max(most.pans),
});

/** A record has no length of its own to the schema library. */
const mostEntries =
  (maximum: number): z.core.CheckFn<object> =>
  ({ value, issues }) => {
    if (Object.keys(value).length > maximum)
      issues.push({ code: "too_big", origin: "array", maximum, inclusive: true, input: value });
  };

export const daySchema = z
  .strictObject({
    formatVersion: z.literal(1),
    title: z.string().max(200).default(""),
    timeZone: name.describe("IANA name, as Europe/Lisbon"),
    currency: name.default("EUR"),
    planFrom: instant,
    staffed: z
      .array(z.strictObject({ from: instant, to: instant }))
      .min(1)
      .max(most.staffed),
    nextOpen: instant.nullable().default(null).describe("when work goes on; null: 14 h after the last `to`"),
    ambientC: celsius.default(20),
    prices: pricesSchema.prefault({}),
    gas: gasSchema.prefault(naturalGas),
    prep: z
      .strictObject({ benches: z.int().nonnegative().max(most.hands).default(1).describe("0: no limit and no tasks") })
      .prefault({}),
    booth: boothSchema.prefault({}),
    finishMinutes: notNegative.default(0).describe("after the last coat's inspection"),
    mixing: mixingSchema.prefault({}),
    materials: z.record(name, z.strictObject({ specificHeatJPerKgK: positive })).check(mostEntries(most.materials)),
    coatings: z.array(coatingSchema).min(1).max(most.coatings),
    ovens: z.array(ovenSchema).min(1).max(most.ovens),
    pans: z.array(panSchema).max(most.pans),
    held: z.array(heldLoadSchema).max(most.held).default([]),
    inForce: z.array(inForceSchema).max(most.pans).default([]),
    inForceLoads: z.array(inForceLoadSchema).max(most.pans).default([]).describe("added"),
  })
  .transform((day) => ({ ...day, ovens: day.ovens.map((oven) => withStart(oven, day.ambientC)) }));

/** An oven whose start is not given stood cold: it starts at room temperature. */
function withStart(oven: z.output<typeof ovenSchema>, ambientC: number) {
  const { cycle } = oven;
  return { ...oven, cycle: cycle.kind === "fixed" ? cycle : { ...cycle, startC: cycle.startC ?? ambientC } };
}

/** The day as written: fields with a default may be missing. */
export type DayFile = z.input<typeof daySchema>;
/** The day with every default filled in, save `nextOpen`. */
export type Day = z.output<typeof daySchema>;
export type DayPan = Day["pans"][number];
export type DayOven = Day["ovens"][number];
export type DayCoating = Day["coatings"][number];
export type DayCoat = DayCoating["coats"][number];
export type DayHeldLoad = Day["held"][number];
