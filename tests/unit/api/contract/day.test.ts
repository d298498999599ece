import { describe, expect, it } from "vitest";
import { daySchema } from "../../../../api/contract/day.ts";
import type { DayFile } from "../../../../api/contract/day.ts";

const smallest: DayFile = {
  formatVersion: 1,
  timeZone: "Europe/Lisbon",
  planFrom: "2026-03-10T07:30",
  staffed: [{ from: "2026-03-10T07:30", to: "2026-03-10T18:00" }],
  materials: { aluminium: { specificHeatJPerKgK: 900 } },
  coatings: [
    {
      id: "glaze",
      coats: [
        {
          sprayMinutes: 3,
          flashMinutes: 10,
          mixGroup: "silicone",
          solventMlPerM2: 0,
          inspectMinutes: 0,
          bake: { cycleMinutes: 30 },
        },
      ],
    },
  ],
  ovens: [
    {
      id: "box",
      cycle: { kind: "fixed", loadMinutes: 0, unloadMinutes: 0, gasKW: 0 },
      space: { kind: "shelves", gapCm: 0, shelves: [{ id: "only", widthCm: 1, depthCm: 1, clearHeightCm: 1 }] },
    },
  ],
  pans: [
    {
      id: "tin",
      coating: "glaze",
      readyAt: "2026-03-10T07:30",
      shape: { kind: "disc", diameterCm: 1 },
      heightCm: 0,
      massKg: 1,
      material: "aluminium",
    },
  ],
};

describe("the day file", () => {
  it("fills in what may be left out, down to a 1 cm shelf with loading in no time", () => {
    expect(daySchema.parse(smallest)).toMatchObject({
      title: "",
      ambientC: 20,
      nextOpen: null,
      prices: {
        gasPerKWh: 0,
        crewPerHour: 0,
        latePerPanHour: 0,
        rushLatePerPanHour: 0,
        leftOverPerPan: 1000,
        movePerPan: 0,
      },
      gas: { kind: "natural", unit: "m3", grossKWhPerUnit: 11, unitsLeft: null, maxDrawKW: null },
      prep: { benches: 1 },
      booth: { sprayers: 1, changeoverMinutes: 0, handleAtC: 40, coolFilmWPerM2K: 12 },
      finishMinutes: 0,
      mixing: { rule: "any", neverTogether: [], cleanBurn: null },
      coatings: [
        { name: "glaze", coats: [{ name: "coat 1", paint: "glaze/coat 1", maxWaitMinutes: null, ovens: null }] },
      ],
      ovens: [{ name: "box", attended: true, maxLoadKg: null, maxSolventMl: null, lastGroups: [] }],
      pans: [
        {
          ticket: "tin",
          quantity: 1,
          nextCoat: 1,
          sprayed: false,
          prepMinutes: 0,
          promisedAt: null,
          priority: "normal",
        },
      ],
      held: [],
      inForce: [],
    });
  });

  it("lets a rush pan cost what any late pan costs where no dearer rate is given", () => {
    expect(daySchema.parse({ ...smallest, prices: { latePerPanHour: 7 } }).prices.rushLatePerPanHour).toBe(7);
  });

  it("starts an oven that stood cold at room temperature, with the usual guards", () => {
    const cycle = {
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
      doorLimitC: 200,
      setPointMaxC: 430,
    } as const;
    const day = daySchema.parse({ ...smallest, ambientC: 27, ovens: [{ ...smallest.ovens[0], cycle }] });
    expect(day.ovens[0]?.cycle).toEqual({
      ...cycle,
      setPointStepC: 5,
      guardC: 5,
      earlyMinutes: 1,
      slackMinutes: 2,
      startC: 27,
    });
  });

  it("reads a filled day as the same day again", () => {
    const filled = daySchema.parse(smallest);
    expect(daySchema.parse(JSON.parse(JSON.stringify(filled)))).toEqual(filled);
  });
});
