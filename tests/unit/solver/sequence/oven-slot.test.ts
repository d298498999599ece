/**
 * Ovens before a break, in plans as the search makes them: an attended one is fired empty, one that needs nobody may be left full. And
 * doors onto a chamber that was too hot for the load, against every minute and every run of the fan.
 */
import { describe, expect, it } from "vitest";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { closeBook, EXACT_BUCKET_K, SEARCH_BUCKET_K } from "../../../../solver/loads/recipe-book.ts";
import { setPointsFrom } from "../../../../solver/sequence/firing-met.ts";
import { IdleOven } from "../../../../solver/sequence/idle-oven.ts";
import { OvenSlots } from "../../../../solver/sequence/oven-slot.ts";
import type { ThermalCycle } from "../../../../solver/shop.ts";
import { gatherBenchDays, generatedDay } from "../../../help/days.ts";
import { planOf, requestOf } from "../../../help/exact-bound.ts";
import { leftInside, withPause } from "../../../help/left-inside.ts";
import { planned } from "../../../help/planned.ts";

it("is pre-heated before the break for the door after it, where that shortens the day", () => {
  const [day] = gatherBenchDays().filter(({ name }) => name === "6-cold-calm");
  const request = requestOf(day!.day);
  const [morning, afternoon] = request.staffed;
  const { loads } = planOf(request, 20_000);
  const at = loads.findIndex(({ kind, done }, load) => kind === "preheat" && loads[load + 1]!.doorOpens > done);
  const [preheat, bake] = [loads[at]!, loads[at + 1]!];
  expect(preheat.done).toBeLessThanOrEqual(morning!.to);
  expect(bake.doorOpens).toBe(afternoon!.from);
  // As cool as the load before left it, the chamber would be another 100 K down.
  expect(bake.chamberStartC!).toBeGreaterThan(preheat.chamberStartC! + 50);
  expect(bake.chamberStartC!).toBeLessThan(preheat.setPointC!);
});

it("is loaded before the break and unloaded after it, where nobody needs to be there", async () => {
  const wish = { pans: 4, ovens: 1, door: "cold", pace: "overloaded", seed: 14 } as const;
  const file = withPause(generatedDay(wish), { afterMinutes: 150, minutes: 90 });
  const alone = requestOf(file);
  const unattended = planOf(alone, 600);
  expect(leftInside(unattended, alone)).toBe(1);
  const watched = requestOf({ ...file, ovens: file.ovens.map((oven) => ({ ...oven, attended: true })) });
  const attended = planOf(watched, 600);
  expect(leftInside(attended, watched)).toBe(0);
  expect(unattended.cost.total).toBeLessThan(0.95 * attended.cost.total);
  // Throws where the checker finds fault.
  const { plan } = await planned(file, 600);
  expect(plan.cost.total).toBeCloseTo(unattended.cost.total, 1);
  expect(plan.cautions.join(" ")).toMatch(/nobody is there/);
});

// A primer and a heavy sol-gel load whose windows hardly meet: whole minutes bake them in narrow ranges of chambers only.
describe("a load that few chambers bake", () => {
  const request = requestOf(generatedDay({ pans: 6, ovens: 1, door: "cold", pace: "calm", seed: 405 }));
  const day = dayModel(request);
  const cycle = request.ovens[0]!.cycle as ThermalCycle;
  const kindOf = (lineAt: number): number => day.kinds.findIndex(({ line }) => line === request.lines[lineAt]);
  const [primer, solGel] = [kindOf(0), kindOf(1)];
  const book = closeBook(day, 400);
  const recipe = book.recipe(0, [primer, solGel, solGel, solGel, solGel])!;
  const asked = {
    recipe,
    free: 0,
    chamberC: 90,
    soiled: false,
    burnsFirst: false,
    earliestOpen: 31,
    doneBy: Infinity,
    setPointC: 0,
    preheat: "never",
    coastMinutes: null,
    minutePrice: 0.1,
    heatCreditPerK: 0,
  } as const;

  it("opens at the first minute at which the fan can bring a burnt oven down to a chamber that bakes it", () => {
    const shut = { free: 0, chamberC: 90, before: [], from: 0, open: 31 };
    const oven = new IdleOven(day, cycle, EXACT_BUCKET_K);
    const burnt = oven.cleaned(shut, { from: 0, to: request.staffed[0]!.to })[0]!;
    const bakesAt = (minute: number): number[] =>
      Array.from({ length: minute - burnt.from + 1 }, (_, fanMinutes) => oven.chamberAt(burnt, minute, fanMinutes))
        .filter((chamberC) => chamberC <= cycle.doorLimitC)
        .filter((chamberC) => book.firings(recipe, chamberC, EXACT_BUCKET_K).length > 0);
    const minutes = Array.from({ length: 120 }, (_, after) => burnt.from + after);
    const first = minutes.find((minute) => bakesAt(minute).length > 0)!;
    // It could open two minutes before, on chambers that bake nothing.
    const coolEnough = minutes.find(
      (minute) => oven.chamberAt(burnt, minute, minute - burnt.from) <= cycle.doorLimitC,
    )!;
    expect(first).toBe(coolEnough + 2);
    const slot = new OvenSlots(book, EXACT_BUCKET_K).slot({ ...asked, soiled: true })!;
    expect(slot.doorOpens).toBe(first);
    expect(bakesAt(first)).toContain(slot.chamberStartC);
  });

  it("is fired at once where only rounding has moved the chamber out of a range that bakes it", () => {
    const from = (chamberC: number, bucketK: number): number =>
      new OvenSlots(book, bucketK).slot({ ...asked, chamberC, earliestOpen: 0 })!.doorOpens;
    const bakes = (chamberC: number): boolean => book.firings(recipe, chamberC, SEARCH_BUCKET_K).length > 0;
    expect([185, 190, 195, 200].map(bakes)).toEqual([false, false, false, true]);
    expect(from(193, SEARCH_BUCKET_K)).toBe(0);
    expect(from(193, EXACT_BUCKET_K)).toBeGreaterThan(0);
    expect(from(190, SEARCH_BUCKET_K)).toBeGreaterThan(0);
  });
});

// Three heavy sol-gel pans and a light primer: on the warm shelves they are done minutes sooner, and bake from fewer chambers.
it("bakes a load on those of its shelves that suit the chamber that it meets", () => {
  const day = dayModel(requestOf(generatedDay({ pans: 7, ovens: 1, door: "cold", pace: "calm", seed: 421 })));
  const kindOf = (lineAt: number): number => day.kinds.findIndex(({ line }) => line === day.request.lines[lineAt]);
  const [solGel, primer] = [kindOf(2), kindOf(4)];
  const book = closeBook(day, 0);
  const recipe = book.recipe(0, [solGel, solGel, solGel, primer])!;
  const all = [recipe, ...recipe.others];
  const slots = new OvenSlots(book, EXACT_BUCKET_K);
  const question = {
    free: 0,
    soiled: false,
    burnsFirst: false,
    earliestOpen: 0,
    doneBy: Infinity,
    setPointC: 0,
    preheat: "never",
    coastMinutes: null,
    minutePrice: 10,
    heatCreditPerK: 0,
  } as const;
  const { loadMinutes, unloadMinutes } = day.request.ovens[0]!.cycle;
  const chosen = new Set<number>();
  for (const chamberC of [60, 100, 140, 163, 180, 205]) {
    const minutes = all.map((one) => book.firings(one, chamberC, EXACT_BUCKET_K)[0]?.unloadMinutes ?? Infinity);
    const slot = slots.slot({ ...question, recipe, chamberC })!;
    // It may wait for a chamber that bakes the others.
    expect(slot.done, `${chamberC}`).toBeLessThanOrEqual(loadMinutes + Math.min(...minutes) + unloadMinutes);
    const firings = book.firings(slot.recipe, slot.chamberStartC, EXACT_BUCKET_K);
    expect(firings).toContainEqual(slot.option);
    chosen.add(all.indexOf(slot.recipe));
  }
  // Not those that most chambers bake.
  expect([...chosen].some((at) => at > 0)).toBe(true);
  // The last hand looks at set-points of all of them, whichever has been fired.
  const [narrow] = recipe.others;
  expect(book.firings(narrow!, 163, EXACT_BUCKET_K)).toEqual([]);
  expect(setPointsFrom(book, narrow!, 163)).toEqual([255]);
});
