import { expect, it } from "vitest";
import type { DayFile } from "../../../../api/contract/day.ts";
import { burnOwedTo } from "../../../../api/contract/words.ts";
import { generatedDay } from "../../../help/days.ts";

const cleanBurn = { after: ["silicone"], before: ["fluoropolymer"], setPointC: 420, holdMinutes: 20 };
const file = generatedDay({ seed: 1, pans: 1, ovens: 2, door: "hot", pace: "calm" });
const line = file.pans[0]!;
const coat = file.coatings[0]!.coats[0]!;
const coats = ["sol-gel", "fluoropolymer"].map((mixGroup) => ({ ...coat, mixGroup }));
const day: DayFile = {
  ...file,
  mixing: { cleanBurn },
  coatings: [{ id: "both", coats }],
  pans: [{ ...line, id: "P", coating: "both" }],
};

const burn = (id: string, oven: string) => ({ id, oven, kind: "clean burn" as const, pans: [] });
const load = (id: string, oven: string, number: number) => ({
  id,
  oven,
  kind: "bake" as const,
  pans: [{ id: "P", coat: number }],
});

it("a clean burn is owed to the first later load of its oven that may not go into a soiled one", () => {
  const loads = [load("L1", "a", 2), burn("L2", "a"), load("L3", "a", 1), load("L4", "b", 2), load("L5", "a", 2)];
  expect(burnOwedTo(day, loads, loads[1]!)).toBe("L5");
  expect(burnOwedTo(day, loads, loads[0]!)).toBeUndefined();
  expect(burnOwedTo(day, loads.slice(0, 4), loads[1]!)).toBeUndefined();
  expect(burnOwedTo({ ...day, mixing: {} }, loads, loads[1]!)).toBeUndefined();
});
