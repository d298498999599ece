/**
 * Five invented coat systems in the ranges of the trade (metal windows: common practice, no source): two coats of
 * fluoropolymer, three with a low mid bake, two on castings that are outgassed bare first, sol-gel, silicone glaze.
 */
import type { DayFile } from "../../api/contract/day.ts";
import type { Chance } from "./day-chance.ts";

export type CoatingInput = DayFile["coatings"][number];
type CoatInput = CoatingInput["coats"][number];

export const coatingIds = ["two-coat", "three-coat", "cast-two-coat", "sol-gel", "tin-glaze"] as const;
export type CoatingId = (typeof coatingIds)[number];

/** `firstOven` is the only oven for sol-gel where the day has it so. */
export function inventCoatings(chance: Chance, firstOven: string | undefined): CoatingInput[] {
  const primer = fluoropolymer("primer", "primer F", [250, 300, 10, 24], 70, 35);
  const top = fluoropolymer("top coat", "top coat F", [380, 415, 5, 15], 60, 40);
  const wait = (): number =>
    chance.byShare([
      [6, 240],
      [2, 120],
      [1, 75],
    ]);
  const waits = (coat: CoatInput): CoatInput => (coat.sprayMinutes === 0 ? coat : { ...coat, maxWaitMinutes: wait() });
  const coatings: CoatingInput[] = [
    { id: "two-coat", name: "Two-coat non-stick", coats: [primer, top] },
    { id: "three-coat", name: "Three-coat non-stick, low mid bake", coats: [primer, midCoat, top] },
    { id: "cast-two-coat", name: "Two-coat non-stick on castings", coats: [outgassing, primer, top] },
    {
      id: "sol-gel",
      name: "Sol-gel single coat",
      coats: [firstOven === undefined ? solGel : { ...solGel, ovens: [firstOven] }],
    },
    { id: "tin-glaze", name: "Silicone tin glaze", coats: [glaze] },
  ];
  return coatings.map((coating) => ({ ...coating, coats: coating.coats.map(waits) }));
}

type Window = readonly [lowC: number, highC: number, leastMinutes: number, mostMinutes: number];

function bake([lowC, highC, least, most]: Window, cycleMinutes: number): CoatInput["bake"] {
  return { metalLowC: lowC, metalHighC: highC, soakLeastMinutes: least, soakMostMinutes: most, cycleMinutes };
}

function fluoropolymer(name: string, paint: string, window: Window, solvent: number, cycle: number): CoatInput {
  return {
    name,
    paint,
    sprayMinutes: 5,
    flashMinutes: 10,
    mixGroup: "fluoropolymer",
    solventMlPerM2: solvent,
    inspectMinutes: 3,
    bake: bake(window, cycle),
  };
}

const midCoat = { ...fluoropolymer("mid coat", "mid coat F", [110, 155, 5, 18], 60, 20), sprayMinutes: 4 };

const outgassing: CoatInput = {
  name: "outgassing bake",
  sprayMinutes: 0,
  flashMinutes: 0,
  mixGroup: "bare metal",
  solventMlPerM2: 0,
  inspectMinutes: 3,
  bake: bake([395, 435, 20, 60], 55),
};

const solGel: CoatInput = {
  name: "sol-gel",
  sprayMinutes: 6,
  flashMinutes: 15,
  mixGroup: "sol-gel",
  solventMlPerM2: 110,
  inspectMinutes: 4,
  bake: bake([205, 255, 12, 30], 35),
};

const glaze: CoatInput = {
  name: "glaze",
  sprayMinutes: 4,
  flashMinutes: 12,
  mixGroup: "silicone",
  solventMlPerM2: 140,
  inspectMinutes: 2,
  bake: bake([210, 250, 15, 34], 40),
};
