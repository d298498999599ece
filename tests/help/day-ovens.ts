/** Invented ovens for invented days: gas box ovens that load hot or cold, with shelves of their own offsets. */
import type { DayFile } from "../../api/contract/day.ts";
import type { Chance } from "./day-chance.ts";

export type OvenInput = DayFile["ovens"][number];
type CycleInput = OvenInput["cycle"];
type ShelfInput = Extract<OvenInput["space"], { kind: "shelves" }>["shelves"][number];

export interface OvenWish {
  readonly ovens: number;
  /** Hot: the door opens at any set-point. Cold: only once the chamber has fallen to about 200 °C. */
  readonly door: "hot" | "cold";
  readonly cycle: "thermal" | "fixed";
}

export function inventOvens(chance: Chance, wish: OvenWish): OvenInput[] {
  return Array.from({ length: wish.ovens }, (_, i) => ({
    id: `oven-${i + 1}`,
    name: i === 0 ? "Big box oven" : `Box oven ${i + 1}`,
    cycle: wish.cycle === "fixed" ? fixedCycle(chance) : thermalCycle(chance, wish.door),
    space: { kind: "shelves" as const, gapCm: chance.oneOf([2, 2, 3]), shelves: shelves(chance) },
    maxLoadKg: chance.oneOf([45, 55, 70]),
    maxSolventMl: chance.oneOf([160, 220, 300]),
    attended: chance.happens(0.7),
    lastGroups: chance.byShare([
      [5, []],
      [3, ["fluoropolymer"]],
      [2, ["silicone"]],
    ]),
  }));
}

function thermalCycle(chance: Chance, door: OvenWish["door"]): CycleInput {
  return {
    kind: "thermal",
    burnerKW: chance.stepped(34, 56, 2),
    efficiency: chance.stepped(0.7, 0.85, 0.05),
    heatCapacityKJPerK: chance.stepped(80, 140, 10),
    wallLossWPerK: chance.whole(7, 13),
    exhaustWPerK: chance.stepped(24, 40, 2),
    coastExhaustWPerK: chance.stepped(80, 140, 10),
    filmWPerM2K: chance.whole(25, 32),
    purgeMinutes: chance.whole(3, 5),
    loadMinutes: chance.whole(3, 5),
    unloadMinutes: chance.whole(3, 5),
    doorTauMinutes: chance.whole(8, 14),
    doorLimitC: door === "hot" ? 450 : chance.stepped(190, 220, 10),
    setPointMaxC: chance.oneOf([430, 440]),
    setPointStepC: chance.oneOf([5, 5, 10]),
    guardC: chance.whole(4, 6),
    earlyMinutes: 1,
    slackMinutes: chance.oneOf([2, 2, 1]),
    ...(chance.happens(0.3) ? { startC: chance.stepped(90, door === "hot" ? 260 : 180, 10) } : {}),
  };
}

function fixedCycle(chance: Chance): CycleInput {
  return {
    kind: "fixed",
    loadMinutes: chance.whole(3, 5),
    unloadMinutes: chance.whole(3, 5),
    gasKW: chance.whole(18, 30),
  };
}

function shelves(chance: Chance): ShelfInput[] {
  const size = chance.oneOf([
    { widthCm: 70, depthCm: 60 },
    { widthCm: 80, depthCm: 70 },
    { widthCm: 100, depthCm: 75 },
  ]);
  const spread = chance.whole(2, 5);
  return ["top", "middle", "low"].map((id, i) => ({
    id,
    ...size,
    clearHeightCm: chance.oneOf([16, 18, 20]),
    maxKg: chance.oneOf([24, 30, null]),
    offsetC: (1 - i) * spread,
  }));
}
