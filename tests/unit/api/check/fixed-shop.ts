/**
 * A shop that knows only its habits, on the night London's clocks go back (2025-10-26, a day of 25 h, the change at
 * 01:00 UTC; check value from memory). All figures are worked out by hand:
 *
 * Space: a disc of 20 cm counts 4 dm², the rectangle of 30 × 10 cm 3 dm². Two discs are 8 of the 9 dm²; 11 are too many.
 * F-1 holds the discs for their 30 min, F-2 the rectangle for its 45 min: at 12 kW 6 + 9 = 15 kWh, 1.5 units, 3 kg CO2e.
 * Crew: 00:30 summer time (23:30 UTC) to 01:20 winter time (01:20 UTC) are 110 min, at 12 an hour 22.
 * B is done at 01:20 + 5 min inspection + 10 min finishing = 01:35, 5 min late, at 6 an hour 0.50.
 * Cost: 15 · 0.1 + 22 + 0.5 = 24. One pan per firing: 30 + 30 + 45 min, 21 kWh. Ticket order: as planned.
 */
import type { DayFile } from "../../../../api/contract/day.ts";
import { daySchema } from "../../../../api/contract/day.ts";
import type { PlanFile, PlanLoad } from "../../../../api/contract/plan.ts";
import { planSchema } from "../../../../api/contract/plan.ts";
import type { DayAndPlan } from "./plan-from-decisions.ts";

const dayFile: DayFile = {
  formatVersion: 1,
  title: "The long night",
  timeZone: "Europe/London",
  planFrom: "2025-10-26T00:30",
  staffed: [{ from: "2025-10-26T00:30", to: "2025-10-26T04:00" }],
  ambientC: 20,
  prices: { gasPerKWh: 0.1, crewPerHour: 12, latePerPanHour: 6 },
  gas: { kind: "propane", grossKWhPerUnit: 10, unit: "kg", kgCO2ePerKWh: 0.2 },
  booth: { sprayers: 1, changeoverMinutes: 6 },
  finishMinutes: 10,
  materials: { steel: { specificHeatJPerKgK: 480 } },
  coatings: [
    coating("short", 30, { sprayMinutes: 2, flashMinutes: 10, solventMlPerM2: 100 }),
    coating("long", 45, { sprayMinutes: 3, flashMinutes: 10, solventMlPerM2: 0 }),
  ],
  ovens: [
    {
      id: "box",
      cycle: { kind: "fixed", loadMinutes: 2, unloadMinutes: 3, gasKW: 12 },
      space: { kind: "area", dm2: 9 },
      maxLoadKg: 3,
    },
  ],
  pans: [
    pan("A", { coating: "short", quantity: 2, shape: { kind: "disc", diameterCm: 20 } }),
    pan("B", {
      coating: "long",
      sprayed: true,
      shape: { kind: "rectangle", widthCm: 30, depthCm: 10 },
      promisedAt: "2025-10-26T01:30+00:00",
    }),
  ],
};

function coating(
  id: string,
  cycleMinutes: number,
  coat: { sprayMinutes: number; flashMinutes: number; solventMlPerM2: number },
): DayFile["coatings"][number] {
  return { id, coats: [{ ...coat, mixGroup: "any", inspectMinutes: 5, bake: { cycleMinutes } }] };
}

type PanFile = DayFile["pans"][number];

function pan(id: string, fields: Pick<PanFile, "coating" | "shape"> & Partial<PanFile>): PanFile {
  return { id, readyAt: "2025-10-26T00:30", heightCm: 5, massKg: 1, material: "steel", ...fields };
}

/** Solvent of a disc of 20 cm, 5 cm high: (π/4 · 0.2² + π · 0.2 · 0.05) m² · 100 ml/m² = 2π ml. */
const discMl = 2 * Math.PI;

const nothingPredicted = {
  setPointC: null,
  ventMinutes: 0,
  burnerOnAt: null,
  setPointAt: null,
  burnerOffAt: null,
  chamberStartC: null,
  slackMinutes: null,
  curve: [],
} as const;

function inBox(id: string, item: number, cooledAt: string): PlanLoad["pans"][number] {
  const nowhere = { shelf: null, xCm: null, yCm: null, turned: false };
  return { id, item, coat: 1, ...nowhere, inWindowAt: null, soakMinutes: null, peakC: null, cooledAt };
}

const plan: PlanFile = {
  formatVersion: 1,
  dayTitle: "The long night",
  madeAt: "2025-10-26T00:10:00+01:00",
  search: {
    status: "proven",
    seconds: 0.1,
    bestPossibleCost: 24,
    gapPercent: 0,
    lpSolves: 1,
    lpEngine: "javascript-lp-solver",
    steps: null,
    seed: null,
    unavoidable: null,
  },
  cost: { total: 24, gas: 1.5, crew: 22, late: 0.5, leftOver: 0, moved: 0 },
  gas: {
    kWh: 15,
    units: 1.5,
    unit: "kg",
    kgCO2e: 3,
    comparedWith: [
      { habit: "one pan per firing", firings: 3, kWh: 21, savedKWh: 6, savedCost: 0.6 },
      { habit: "ticket order", firings: 2, kWh: 15, savedKWh: 0, savedCost: 0 },
    ],
  },
  loads: [
    {
      id: "F-1",
      oven: "box",
      kind: "bake",
      state: "planned",
      ...nothingPredicted,
      curve: [],
      doorOpensAt: "2025-10-26T00:45:00+01:00",
      doorClosesAt: "2025-10-26T00:47:00+01:00",
      unloadAt: "2025-10-26T01:17:00+01:00",
      doneAt: "2025-10-26T01:20:00+01:00",
      gasKWh: 6,
      massKg: 2,
      solventMl: 2 * discMl,
      pans: [inBox("A", 1, "2025-10-26T01:20:00+01:00"), inBox("A", 2, "2025-10-26T01:20:00+01:00")],
    },
    {
      id: "F-2",
      oven: "box",
      kind: "bake",
      state: "planned",
      ...nothingPredicted,
      curve: [],
      doorOpensAt: "2025-10-26T01:30:00+01:00",
      doorClosesAt: "2025-10-26T01:32:00+01:00",
      unloadAt: "2025-10-26T01:17:00+00:00",
      doneAt: "2025-10-26T01:20:00+00:00",
      gasKWh: 9,
      massKg: 1,
      solventMl: 0,
      pans: [inBox("B", 1, "2025-10-26T01:20:00+00:00")],
    },
  ],
  prep: [],
  booth: [
    {
      id: "A",
      item: 1,
      coat: 1,
      sprayer: 1,
      from: "2025-10-26T00:30:00+01:00",
      to: "2025-10-26T00:32:00+01:00",
    },
    {
      id: "A",
      item: 2,
      coat: 1,
      sprayer: 1,
      from: "2025-10-26T00:32:00+01:00",
      to: "2025-10-26T00:34:00+01:00",
    },
  ],
  tickets: [
    { ticket: "A", readyAt: "2025-10-26T01:35:00+01:00", promisedAt: null, lateMinutes: 0, reason: null },
    {
      ticket: "B",
      readyAt: "2025-10-26T01:35:00+00:00",
      promisedAt: "2025-10-26T01:30:00+00:00",
      lateMinutes: 5,
      reason: null,
    },
  ],
  leftOver: [],
  warnings: [],
  cautions: [],
};

export function fixedPlan(): DayAndPlan {
  return { dayFile, day: daySchema.parse(dayFile), plan: planSchema.parse(plan) };
}
