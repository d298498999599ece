/** A clean burn that an oven owes: before the load that needs it, or before one that does not while there is nothing to bake. */
import { describe, expect, it } from "vitest";
import { exactBound, planOf } from "../../../help/exact-bound.ts";
import { demoCycle } from "../../../help/random-ovens.ts";
import { areaLine, fixedCoat, fixedOven, smallRequest } from "../../../help/requests.ts";
import { dayModel } from "../../../../solver/day/day-model.ts";
import { COARSE_AS_IS, FINEST } from "../../../../solver/bound/grain.ts";
import { EXACT_BUCKET_K, RecipeBook } from "../../../../solver/loads/recipe-book.ts";
import { seededRandom } from "../../../../solver/random.ts";
import { Evaluator } from "../../../../solver/sequence/evaluate.ts";
import { Draft } from "../../../../solver/sequence/draft.ts";
import { retune } from "../../../../solver/sequence/moves.ts";
import { newLoad, withBakes } from "../../../../solver/sequence/sequence.ts";
import { polish } from "../../../../solver/sequence/polish.ts";
import type { PlannedLoad } from "../../../../solver/sequence/sequence.ts";
import { Timetable } from "../../../../solver/sequence/timetable.ts";
import type { Coat, PlanRequest } from "../../../../solver/shop.ts";

const solGel: Partial<Coat> = {
  mixGroup: "sol-gel",
  window: { metalLowC: 205, metalHighC: 255, soakLeastMinutes: 10, soakMostMinutes: 40 },
};
const topCoat: Partial<Coat> = {
  mixGroup: "fluoropolymer",
  window: { metalLowC: 380, metalHighC: 420, soakLeastMinutes: 5, soakMostMinutes: 20 },
};

const shelf = { id: "only", widthCm: 80, depthCm: 60, clearHeightCm: 20, maxKg: Infinity, offsetC: 0 };
const oneShelf = { kind: "shelves", gapCm: 2, shelves: [shelf] } as const;

/** The oven was left soiled. The sol-gel coat may go in after 90 minutes, the top coat after 120: the crew waits for both. */
function shop(lastGroups: readonly string[] = ["silicone"]): PlanRequest {
  return smallRequest({
    prices: { gasPerKWh: 0.1, crewPerHour: 20, movePerPan: 0 },
    mixing: {
      rule: "any",
      neverTogether: [],
      cleanBurn: { after: ["silicone"], before: ["fluoropolymer"], setPointC: 420, holdMinutes: 20 },
    },
    coatings: [solGel, topCoat].map((coat, at) => ({ id: `${at}`, name: `${at}`, coats: [fixedCoat(coat)] })),
    ovens: [fixedOven({ cycle: demoCycle, space: oneShelf, lastGroups })],
    lines: [
      areaLine("sol-gel", { coating: 0, readyMinute: 90, leftOverCost: 500, shape: { kind: "disc", diameterCm: 24 } }),
      areaLine("top coat", {
        coating: 1,
        readyMinute: 120,
        leftOverCost: 500,
        shape: { kind: "disc", diameterCm: 24 },
      }),
    ],
  });
}

const SOL_GEL = newLoad(0, [0]);
const TOP_COAT = newLoad(0, [1]);
const TASTE = { haste: 1, heatCredit: 0 };

function exactly(request: PlanRequest): Evaluator {
  return new Evaluator(new Timetable(new RecipeBook(dayModel(request), 0), EXACT_BUCKET_K));
}

/** Clean burns before each load. */
function burnsOf({ timetable }: Evaluator, loads: readonly PlannedLoad[]): number[] {
  const state = timetable.startState();
  return loads.map((load) => {
    const { slot } = timetable.place(state, load, TASTE)!;
    return slot.before.filter(({ kind }) => kind === "clean burn").length;
  });
}

describe("a clean burn that is owed", () => {
  it("comes before the load that needs it, before one that does not if told so, and never twice", () => {
    const exact = exactly(shop());
    expect(burnsOf(exact, [SOL_GEL, TOP_COAT])).toEqual([0, 1]);
    expect(burnsOf(exact, [{ ...SOL_GEL, burnsFirst: true }, TOP_COAT])).toEqual([1, 0]);
    expect(
      burnsOf(exact, [
        { ...SOL_GEL, burnsFirst: true },
        { ...TOP_COAT, burnsFirst: true },
      ]),
    ).toEqual([1, 0]);
    expect(burnsOf(exactly(shop([])), [{ ...SOL_GEL, burnsFirst: true }, TOP_COAT])).toEqual([0, 0]);
  });

  it("is moved to where there is time for it by the last hand, and back where that is of no use", () => {
    const polishedFrom = (request: PlanRequest, loads: readonly PlannedLoad[]): readonly PlannedLoad[] => {
      const exact = exactly(request);
      const start = { ...TASTE, loads };
      const first = { sequence: start, cost: exact.cost(start) };
      exact.accept(start);
      return [...polish(exact, first, () => false)].at(-1)!.sequence.loads;
    };
    expect(polishedFrom(shop(), [SOL_GEL, TOP_COAT]).map(({ burnsFirst }) => burnsFirst)).toEqual([true, undefined]);
    const alone = { ...shop(), lines: shop().lines.slice(0, 1) };
    expect(polishedFrom(alone, [{ ...SOL_GEL, burnsFirst: true }])[0]!.burnsFirst).toBeUndefined();
  });

  it("is tried by the search before loads that may do without a clean oven, and no others", () => {
    const exact = exactly(shop());
    const random = seededRandom(3);
    const tried = new Set<string>();
    for (let round = 0; round < 200; round++) {
      const draft = new Draft(exact.timetable.book, [SOL_GEL, TOP_COAT]);
      retune(draft, random)?.forEach(({ burnsFirst }, at) => burnsFirst === true && tried.add(`load ${at}`));
    }
    expect([...tried]).toEqual(["load 0"]);
    expect(withBakes({ ...SOL_GEL, burnsFirst: true }, [1]).burnsFirst).toBe(true);
  });

  it("is planned in the idle morning, as the bound has it: two bakes end an hour sooner than with the burn between them", () => {
    const request = shop();
    const plan = planOf(request, 3_000);
    expect(plan.loads.map(({ kind }) => kind)).toEqual(["clean burn", "bake", "bake"]);
    expect(plan.loads[0]!.done).toBeLessThanOrEqual(90);
    const exact = exactly(request);
    const between = exact.cost({ ...TASTE, loads: [SOL_GEL, TOP_COAT] });
    // 20 money an hour.
    expect(plan.cost.total).toBeLessThan(between - 15);
    const upper = plan.cost.total * 1.06;
    const { bound, ended } = exactBound(request, {
      upper,
      labels: 20_000,
      grain: COARSE_AS_IS,
      closer: FINEST,
      rides: false,
    });
    expect(ended).toBe(true);
    expect(bound).toBeLessThanOrEqual(plan.cost.total + 1e-6);
    expect(bound).toBeGreaterThan(0.98 * plan.cost.total);
  });
});
