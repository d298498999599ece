/** A day of five pans and a plan for it, written down by hand so that every printed figure can be worked out on paper. */
import { daySchema } from "../../../../api/contract/day.ts";
import type { Day } from "../../../../api/contract/day.ts";
import { planSchema } from "../../../../api/contract/plan.ts";
import type { PlanFile } from "../../../../api/contract/plan.ts";

/** Lisbon keeps UTC+0 in winter. */
const at = (clock: string, day = "2026-03-10"): string => `${day}T${clock}:00+00:00`;

const window = { metalLowC: 250, metalHighC: 300, soakLeastMinutes: 10, soakMostMinutes: 25 };
const coat = { flashMinutes: 10, mixGroup: "fluoropolymer", solventMlPerM2: 60, inspectMinutes: 3, bake: window };

export const handDay: Day = daySchema.parse({
  formatVersion: 1,
  title: "Tuesday, hand shop",
  timeZone: "Europe/Lisbon",
  planFrom: "2026-03-10T07:30",
  staffed: [{ from: "2026-03-10T07:30", to: "2026-03-10T12:00" }],
  prices: { gasPerKWh: 0.1, crewPerHour: 6, latePerPanHour: 6 },
  gas: { kind: "natural", grossKWhPerUnit: 11, unit: "m3", kgCO2ePerKWh: 0.183 },
  booth: { sprayers: 1, changeoverMinutes: 6 },
  materials: { aluminium: { specificHeatJPerKgK: 900 } },
  coatings: [
    {
      id: "two-coat",
      coats: [
        { ...coat, name: "primer", sprayMinutes: 4, paint: "primer P" },
        { ...coat, name: "top coat", sprayMinutes: 5, paint: "top coat T" },
      ],
    },
  ],
  ovens: [
    {
      id: "gas-1",
      name: "Gas box oven",
      cycle: {
        kind: "thermal",
        burnerKW: 40,
        efficiency: 0.75,
        heatCapacityKJPerK: 120,
        wallLossWPerK: 8,
        exhaustWPerK: 30,
        coastExhaustWPerK: 90,
        filmWPerM2K: 28,
        purgeMinutes: 4,
        loadMinutes: 4,
        unloadMinutes: 4,
        doorTauMinutes: 9,
        doorLimitC: 450,
        setPointMaxC: 430,
      },
      space: {
        kind: "shelves",
        gapCm: 2,
        shelves: [
          { id: "low", widthCm: 110, depthCm: 80, clearHeightCm: 18, offsetC: -4 },
          { id: "high", widthCm: 110, depthCm: 80, clearHeightCm: 18, offsetC: 3 },
        ],
      },
    },
  ],
  pans: [
    {
      id: "K-1-A",
      ticket: "K-1",
      quantity: 3,
      coating: "two-coat",
      nextCoat: 2,
      readyAt: "2026-03-10T07:30",
      promisedAt: "2026-03-10T16:00",
      shape: { kind: "disc", diameterCm: 28 },
      heightCm: 5,
      massKg: 0.9,
      material: "aluminium",
    },
    {
      id: "K-2-A",
      ticket: "K-2",
      quantity: 2,
      coating: "two-coat",
      readyAt: "2026-03-10T07:30",
      prepMinutes: 15,
      promisedAt: "2026-03-10T08:00",
      shape: { kind: "rectangle", widthCm: 40, depthCm: 25 },
      heightCm: 5,
      massKg: 1.2,
      material: "aluminium",
    },
  ],
});

const baked = {
  coat: 2,
  soakMinutes: 11.8,
  peakC: 282.4,
  inWindowAt: "2026-03-10T08:29:20+00:00",
  cooledAt: at("08:58"),
};

export const handPlan: PlanFile = planSchema.parse({
  formatVersion: 1,
  dayTitle: "Tuesday, hand shop",
  madeAt: at("07:12"),
  search: {
    status: "time",
    seconds: 1.9,
    bestPossibleCost: 9.5,
    gapPercent: 5,
    lpSolves: 0,
    lpEngine: "javascript-lp-solver",
  },
  cost: { total: 10, gas: 2.2, crew: 6.8, late: 0.6, leftOver: 0.4, moved: 0 },
  gas: {
    kWh: 22,
    units: 2,
    unit: "m3",
    kgCO2e: 4.026,
    comparedWith: [
      { habit: "one pan per firing", firings: 4, kWh: 55, savedKWh: 33, savedCost: 3.3 },
      { habit: "ticket order", firings: 2, kWh: 20, savedKWh: -2, savedCost: -0.2 },
    ],
  },
  loads: [
    {
      id: "L1",
      oven: "gas-1",
      kind: "bake",
      state: "planned",
      setPointC: 280,
      ventMinutes: 6,
      doorOpensAt: at("08:06"),
      doorClosesAt: at("08:10"),
      burnerOnAt: at("08:14"),
      setPointAt: "2026-03-10T08:27:10+00:00",
      burnerOffAt: at("08:40"),
      unloadAt: at("08:41"),
      doneAt: at("08:45"),
      chamberStartC: 20,
      gasKWh: 22,
      massKg: 3.9,
      solventMl: 25.4,
      slackMinutes: 5,
      pans: [
        { id: "K-1-A", item: 1, shelf: "low", xCm: 16, yCm: 16, turned: false, ...baked },
        { id: "K-1-A", item: 2, shelf: "low", xCm: 46.5, yCm: 16, turned: false, ...baked },
        {
          id: "K-1-A",
          item: 3,
          shelf: "high",
          xCm: 16,
          yCm: 16,
          turned: false,
          ...baked,
          soakMinutes: 14.2,
          peakC: 288,
        },
        { id: "K-2-A", item: 1, shelf: "high", xCm: 45, yCm: 24, turned: true, ...baked, coat: 1 },
      ],
      curve: [],
    },
  ],
  prep: [{ id: "K-2-A", item: 1, bench: 1, from: at("07:30"), to: at("07:45") }],
  booth: [
    { id: "K-1-A", item: 1, coat: 2, sprayer: 1, from: at("07:30"), to: at("07:35") },
    { id: "K-1-A", item: 2, coat: 2, sprayer: 1, from: at("07:35"), to: at("07:40") },
    { id: "K-1-A", item: 3, coat: 2, sprayer: 1, from: at("07:40"), to: at("07:45") },
    { id: "K-2-A", item: 1, coat: 1, sprayer: 1, from: at("07:52"), to: at("07:56") },
  ],
  tickets: [
    { ticket: "K-1", readyAt: "2026-03-10T09:21:30+00:00", promisedAt: at("16:00"), lateMinutes: 0, reason: null },
    {
      ticket: "K-2",
      readyAt: at("02:00", "2026-03-11"),
      promisedAt: at("08:00"),
      lateMinutes: 1080,
      reason: "one pan is left over",
    },
  ],
  leftOver: [{ id: "K-2-A", item: 2, coat: 1, reason: "no firing fits before 12:00" }],
  warnings: [{ code: "draw-off", message: "The bottle gives too little for the burner." }],
  cautions: ["Metal just out of the oven burns and looks cold."],
});
