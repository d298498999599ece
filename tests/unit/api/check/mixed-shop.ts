/**
 * An invented shop over two days with the change to summer time between them: a load already fired, one pinned, two
 * coats, a silicone bake with the clean burn after it, a preheat, a pan left over, a pan that a re-plan moved.
 */
import type { Day, DayFile } from "../../../../api/contract/day.ts";
import type { PlanFile, PlanLoad } from "../../../../api/contract/plan.ts";
import type { DayAndPlan, Decision, Place } from "./plan-from-decisions.ts";
import { memberOf, thermalCycle, writePlan } from "./plan-from-decisions.ts";
import { onePanByPlanner, saving } from "./habit-by-planner.ts";

export function mixedShop(): DayFile {
  return {
    formatVersion: 1,
    title: "Two days in March",
    timeZone: "Europe/Lisbon",
    currency: "EUR",
    planFrom: "2026-03-27T08:00",
    staffed: [
      { from: "2026-03-27T07:00", to: "2026-03-27T17:00" },
      { from: "2026-03-30T08:00", to: "2026-03-30T12:00" },
    ],
    nextOpen: "2026-03-31T08:00",
    ambientC: 20,
    prices: {
      gasPerKWh: 0.11,
      crewPerHour: 6,
      latePerPanHour: 6,
      rushLatePerPanHour: 40,
      leftOverPerPan: 30,
      movePerPan: 1,
    },
    gas: { kind: "natural", grossKWhPerUnit: 11, unit: "m3", kgCO2ePerKWh: 0.183 },
    prep: { benches: 1 },
    booth: { sprayers: 1, changeoverMinutes: 6, handleAtC: 40, coolFilmWPerM2K: 12 },
    finishMinutes: 20,
    mixing: {
      rule: "any",
      neverTogether: [["silicone", "fluoropolymer"]],
      cleanBurn: { after: ["silicone"], before: ["fluoropolymer"], setPointC: 420, holdMinutes: 20 },
    },
    materials: { aluminium: { specificHeatJPerKgK: 900 }, "cast iron": { specificHeatJPerKgK: 500 } },
    coatings: [
      {
        id: "two-coat",
        coats: [
          {
            name: "primer",
            sprayMinutes: 4,
            flashMinutes: 10,
            maxWaitMinutes: 60,
            mixGroup: "fluoropolymer",
            solventMlPerM2: 60,
            inspectMinutes: 3,
            bake: { metalLowC: 250, metalHighC: 300, soakLeastMinutes: 10, soakMostMinutes: 25 },
          },
          {
            name: "top coat",
            sprayMinutes: 5,
            flashMinutes: 10,
            maxWaitMinutes: 90,
            mixGroup: "fluoropolymer",
            solventMlPerM2: 60,
            inspectMinutes: 4,
            bake: { metalLowC: 380, metalHighC: 415, soakLeastMinutes: 5, soakMostMinutes: 15 },
          },
        ],
      },
      {
        id: "silicone",
        coats: [
          {
            name: "coat",
            sprayMinutes: 4,
            flashMinutes: 5,
            maxWaitMinutes: 120,
            mixGroup: "silicone",
            solventMlPerM2: 80,
            inspectMinutes: 3,
            bake: { metalLowC: 200, metalHighC: 250, soakLeastMinutes: 10, soakMostMinutes: 30 },
          },
        ],
      },
    ],
    ovens: [
      {
        id: "gas-1",
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
          doorLimitC: 200,
          setPointMaxC: 430,
          setPointStepC: 5,
          guardC: 5,
          earlyMinutes: 1,
          slackMinutes: 2,
          startC: 60,
        },
        space: {
          kind: "shelves",
          gapCm: 2,
          shelves: [
            { id: "top", widthCm: 110, depthCm: 80, clearHeightCm: 18, maxKg: 5, offsetC: 3 },
            { id: "middle", widthCm: 110, depthCm: 80, clearHeightCm: 18, maxKg: 30, offsetC: 0 },
          ],
        },
        maxLoadKg: 12,
        maxSolventMl: 40,
        attended: true,
      },
    ],
    pans: [
      pan("K-200-A", { nextCoat: 1, sprayed: true, promisedAt: "2026-03-27T11:50" }),
      pan("K-201-A", { ticket: "K-201", quantity: 2, prepMinutes: 15, promisedAt: "2026-03-27T16:00" }),
      {
        ...pan("K-201-B", { ticket: "K-201", promisedAt: "2026-03-27T16:00" }),
        shape: { kind: "rectangle", widthCm: 40, depthCm: 25 },
        massKg: 2.6,
        material: "cast iron",
      },
      pan("S-1", { coating: "silicone", readyAt: "2026-03-27T09:00", promisedAt: null }),
      pan("K-203-A", { quantity: 2, readyAt: "2026-03-27T12:00", priority: "rush", promisedAt: "2026-03-31T07:00" }),
    ],
    held: [],
    inForce: [
      { id: "K-201-A", item: 1, doorOpensAt: "2026-03-27T09:10" },
      { id: "S-1", item: 1, doorOpensAt: "2026-03-27T11:35" },
      { id: "K-203-A", item: 2, doorOpensAt: "2026-03-30T10:00" },
      { id: "K-200-A", item: 1, doorOpensAt: "2026-03-27T10:20" },
    ],
  };
}

type PanFile = DayFile["pans"][number];

function pan(id: string, changes: Partial<PanFile>): PanFile {
  return {
    id,
    coating: "two-coat",
    readyAt: "2026-03-27T07:00",
    shape: { kind: "disc", diameterCm: 28 },
    heightCm: 5,
    massKg: 0.9,
    material: "aluminium",
    metalLimitC: 450,
    ...changes,
  };
}

/** What the shop decided: times local, minutes of burning counted from the door closing. */
const loads: readonly Decision[] = [
  bake("F1", "fired", [270, 31, 8], "2026-03-27T07:00", [place("K-200-A", 1, 1, "top", 16, 16)]),
  bake("P1", "pinned", [270, 32, 7], "2026-03-27T08:50", [
    place("K-201-A", 1, 1, "middle", 16, 16),
    place("K-201-A", 2, 1, "middle", 46, 16),
    { ...place("K-201-B", 1, 1, "top", 14.5, 22), turned: true },
  ]),
  bake("L2", "planned", [405, 41, 16], "2026-03-27T10:20", [
    place("K-200-A", 1, 2, "middle", 16, 16),
    place("K-201-A", 1, 2, "middle", 46, 16),
    place("K-201-A", 2, 2, "middle", 76, 16),
    place("K-201-B", 1, 2, "top", 22, 14.5),
  ]),
  {
    ...bake("L3", "planned", [225, 25, 4], "2026-03-27T11:45", [place("S-1", 1, 1, "middle", 40, 30)]),
    ventMinutes: 3,
  },
  { ...bake("C1", "planned", [420, 60, 0], "2026-03-27T12:40", []), kind: "clean burn" },
  { ...bake("H1", "planned", [195, 20, 0], "2026-03-30T08:00", []), kind: "preheat" },
  bake("L4", "planned", [285, 26, 8], "2026-03-30T08:20", [place("K-203-A", 1, 1, "middle", 16, 16)]),
];

function bake(
  id: string,
  state: Decision["state"],
  [setPointC, burnMinutes, coastMinutes]: readonly [number, number, number],
  opens: string,
  pans: readonly Place[],
): Decision {
  return { id, oven: "gas-1", kind: "bake", state, setPointC, ventMinutes: 0, opens, burnMinutes, coastMinutes, pans };
}

function place(id: string, item: number, coat: number, shelf: string, xCm: number, yCm: number): Place {
  return { id, item, coat, shelf, xCm, yCm };
}

const booth = [
  ["K-201-B", 1, 1, "2026-03-27T08:00"],
  ["K-201-A", 1, 1, "2026-03-27T08:15"],
  ["K-201-A", 2, 1, "2026-03-27T08:30"],
  ["K-200-A", 1, 2, "2026-03-27T09:20"],
  ["K-201-A", 1, 2, "2026-03-27T09:53"],
  ["K-201-A", 2, 2, "2026-03-27T09:58"],
  ["K-201-B", 1, 2, "2026-03-27T10:04"],
  ["S-1", 1, 1, "2026-03-27T11:30"],
  ["K-203-A", 1, 1, "2026-03-30T08:02"],
] as const;

/**
 * Crew: 08:00 to 17:00 on the first day and 08:00 to 09:02 on the second are 602 min at 6 an hour, 60.20.
 * Left over: one of two coats of one piece and both of the other, 30 · (1/2 + 1) = 45.
 * Moved: K-201-A item 1 opens 20 min sooner, K-203-A item 2 is dropped; S-1 is 10 min off and K-200-A stays: 2 · 1.
 */
const cost = { crew: 60.2, leftOver: 45, moved: 2 };

export function mixedPlan(): DayAndPlan {
  return planOf(mixedShop(), loads);
}

/** The silicone goes into a second oven, colder because nothing was fired in it; so the first needs no clean burn. */
export function twoOvenPlan(): DayAndPlan {
  const shop = mixedShop();
  const ovens = shop.ovens.flatMap((oven) => [oven, { ...oven, id: "gas-2" }]);
  const apart = loads
    .filter(({ kind }) => kind !== "clean burn")
    .map((load) => (load.id === "L3" ? { ...load, oven: "gas-2", burnMinutes: 29 } : load));
  return planOf({ ...shop, ovens }, apart);
}

function planOf(shop: DayFile, decided: readonly Decision[]): DayAndPlan {
  return writePlan(shop, {
    loads: decided,
    prep: [
      { id: "K-201-A", item: 1, bench: 1, from: "2026-03-27T08:00" },
      { id: "K-201-A", item: 2, bench: 1, from: "2026-03-27T08:15" },
    ],
    booth: booth.map(([id, item, coat, from]) => ({ id, item, coat, sprayer: 1, from })),
    leftOver: [
      { id: "K-203-A", item: 1, coat: 2, reason: "no firing fits before 12:00" },
      { id: "K-203-A", item: 2, coat: 1, reason: "no firing fits before 12:00" },
    ],
    cost,
    savings: habits,
  });
}

/**
 * One pan per firing: 10 bakes in ticket order, each in the oven of the plan. What ticket order takes is too much to work
 * out by hand, so it is only said to be 6 firings of 15 kWh.
 */
function habits(day: Day, planned: readonly PlanLoad[], gasKWh: number): PlanFile["gas"]["comparedWith"] {
  const bakes = planned.flatMap(({ oven, pans }) => pans.map((pan) => ({ oven, ...pan })));
  const order = day.pans.flatMap(({ id, quantity }) =>
    Array.from({ length: quantity }, (_, i) => bakes.filter((pan) => pan.id === id && pan.item === i + 1)).flat(),
  );
  const kWh = day.ovens.reduce((sum, { id }) => {
    const own = order.filter(({ oven }) => oven === id);
    const members = own.map((pan) => memberOf(day, id, { ...pan, shelf: "middle" }));
    const startC = planned.find(({ oven }) => oven === id)?.chamberStartC ?? day.ambientC;
    return sum + onePanByPlanner(thermalCycle(day, id), day.ambientC, members, [3, 0], startC);
  }, 0);
  const plan = { kWh: gasKWh, gasPerKWh: day.prices.gasPerKWh };
  return [saving("one pan per firing", order.length, kWh, plan), saving("ticket order", 6, 90, plan)];
}
