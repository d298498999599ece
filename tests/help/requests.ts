/** Small requests built by hand: a fixed-cycle oven whose loads count by area, so that every number can be worked out. */
import type { Coat, Oven, PanLine, PlanRequest } from "../../solver/shop.ts";

export function fixedCoat(over: Partial<Coat> = {}): Coat {
  return {
    name: "coat",
    sprayMinutes: 0,
    flashMinutes: 0,
    maxWaitMinutes: null,
    mixGroup: "fluoropolymer",
    solventMlPerM2: 0,
    inspectMinutes: 0,
    ovens: null,
    paint: "grey",
    window: null,
    cycleMinutes: 30,
    ...over,
  };
}

export function fixedOven(over: Partial<Oven> = {}): Oven {
  return {
    id: "oven",
    name: "oven",
    cycle: { kind: "fixed", loadMinutes: 5, unloadMinutes: 5, gasKW: 12 },
    space: { kind: "area", dm2: 20 },
    maxLoadKg: Infinity,
    maxSolventMl: Infinity,
    attended: true,
    lastGroups: [],
    ...over,
  };
}

export function areaLine(id: string, over: Partial<PanLine> = {}): PanLine {
  return {
    id,
    ticket: id,
    quantity: 1,
    coating: 0,
    nextCoat: 1,
    sprayed: false,
    readyMinute: 0,
    prepMinutes: 0,
    promisedMinute: null,
    latePerHour: 0,
    leftOverCost: 100,
    shape: { kind: "area", dm2: 10 },
    heightCm: 5,
    massKg: 1,
    specificHeatJPerKgK: 900,
    metalLimitC: Infinity,
    ...over,
  };
}

export function smallRequest(over: Partial<PlanRequest> = {}): PlanRequest {
  return {
    planFromMinute: 0,
    staffed: [{ from: 0, to: 600 }],
    nextOpenMinute: 1440,
    ambientC: 20,
    prices: { gasPerKWh: 0.1, crewPerHour: 6, movePerPan: 0 },
    gas: { kind: "natural", unit: "m3", grossKWhPerUnit: 11, kgCO2ePerKWh: 0.183, unitsLeft: null, maxDrawKW: null },
    benches: 1,
    booth: { sprayers: 1, changeoverMinutes: 6, handleAtC: 40, coolFilmWPerM2K: 12 },
    finishMinutes: 0,
    mixing: { rule: "any", neverTogether: [], cleanBurn: null },
    coatings: [{ id: "one-coat", name: "one coat", coats: [fixedCoat()] }],
    ovens: [fixedOven()],
    lines: [],
    held: [],
    inForce: [],
    ...over,
  };
}

/** Alike pans of 10 dm², each a ticket of its own, with a primer and a top coat: bakes 0 and 1, 2 and 3, … */
export function twoCoatRequest(floorDm2: number, ...ids: readonly string[]): PlanRequest {
  const coats = [fixedCoat({ name: "primer" }), fixedCoat({ name: "top coat" })];
  return smallRequest({
    coatings: [{ id: "two", name: "two coats", coats }],
    ovens: [fixedOven({ space: { kind: "area", dm2: floorDm2 } })],
    lines: ids.map((id) => areaLine(id)),
  });
}
