import { describe, expect, it } from "vitest";
import { planFiring, stepBudget } from "../../../solver/index.ts";
import type { FiringPlan, PlanRequest } from "../../../solver/index.ts";
import { areaLine, fixedCoat, fixedOven, smallRequest } from "../../help/requests.ts";

function planned(request: PlanRequest, steps = 400): FiringPlan {
  const planning = planFiring(request, { seed: 1, progress: stepBudget(steps), gapPercent: 0 });
  let step = planning.next();
  while (step.done !== true) step = planning.next();
  return step.value;
}

describe("a day planned by hand", () => {
  it("puts two pans that fill the oven into one load and says what it costs", () => {
    const plan = planned(smallRequest({ lines: [areaLine("A"), areaLine("B")] }));
    expect(plan.loads).toHaveLength(1);
    const [load] = plan.loads;
    // Door 0–5, closed for the cycle of 30 min, unloaded 35–40.
    expect([load!.doorOpens, load!.doorCloses, load!.unload, load!.done]).toEqual([0, 5, 35, 40]);
    // 12 kW for half an hour.
    expect(plan.gasKWh).toBeCloseTo(6, 9);
    // 6 kWh × 0.10 + 40 min × 6/h.
    expect(plan.cost.total).toBeCloseTo(0.6 + 4, 9);
    // One pan per firing would take two such cycles.
    expect(plan.savings[0]).toMatchObject({ habit: "one pan per firing", firings: 2, kWh: 12, savedKWh: 6 });
  });

  it("fires the promised pan first where both cannot share", () => {
    const lines = [
      areaLine("early", { shape: { kind: "area", dm2: 15 } }),
      areaLine("promised", { shape: { kind: "area", dm2: 15 }, promisedMinute: 40, latePerHour: 60 }),
    ];
    const plan = planned(smallRequest({ lines }));
    expect(plan.loads.map((load) => load.pans[0]!.line)).toEqual([1, 0]);
    expect(plan.cost.late).toBe(0);
  });

  it("sprays, flashes, bakes, inspects and sprays again in order", () => {
    const coats = [
      fixedCoat({ name: "primer", sprayMinutes: 4, flashMinutes: 10, inspectMinutes: 3 }),
      fixedCoat({ name: "top coat", sprayMinutes: 5, flashMinutes: 10, inspectMinutes: 4, paint: "black" }),
    ];
    const coatings = [{ id: "two-coat", name: "two coats", coats }];
    const plan = planned(smallRequest({ coatings, lines: [areaLine("A", { prepMinutes: 15 })], finishMinutes: 20 }));
    expect(plan.prep).toEqual([{ line: 0, item: 1, bench: 1, from: 0, to: 15 }]);
    // Primer sprayed 15–19, flashed by 29, door 29–34, closed to 64, done 69, inspected 72.
    // Top coat sprayed 72–77, flashed by 87, door 87–92, closed to 122, done 127.
    expect(plan.booth.map(({ from, to }) => [from, to])).toEqual([
      [15, 19],
      [72, 77],
    ]);
    expect(plan.loads.map(({ doorOpens, done }) => [doorOpens, done])).toEqual([
      [29, 69],
      [87, 127],
    ]);
    // Inspected for 4 min and finished for 20.
    expect(plan.tickets[0]).toMatchObject({ ready: 151, lateMinutes: 0 });
  });

  it("leaves a pan over that the day has no time for, and says so", () => {
    const plan = planned(smallRequest({ staffed: [{ from: 0, to: 30 }], lines: [areaLine("A")] }));
    expect(plan.loads).toEqual([]);
    expect(plan.leftOver).toMatchObject([{ line: 0, item: 1, coat: 1, reason: { code: "no-room-in-horizon" } }]);
    expect(plan.cost).toMatchObject({ leftOver: 100, total: 100 });
  });

  it("leaves a pan over where baking it costs more than leaving it", () => {
    const plan = planned(smallRequest({ lines: [areaLine("A", { leftOverCost: 1 })] }));
    expect(plan.leftOver).toMatchObject([{ line: 0, reason: { code: "costs-more-than-leaving" } }]);
    expect(plan.cost.total).toBe(1);
  });

  it("keeps an unattended firing's door work, but not its bake, inside staffed time", () => {
    const staffed = [
      { from: 0, to: 10 },
      { from: 35, to: 60 },
    ];
    const ovens = [fixedOven({ attended: false })];
    const plan = planned(smallRequest({ staffed, ovens, lines: [areaLine("A")] }));
    expect(plan.loads).toMatchObject([{ doorOpens: 0, doorCloses: 5, unload: 35, done: 40 }]);
    // The crew is paid for 10 + 5 staffed minutes.
    expect(plan.cost.crew).toBeCloseTo(1.5, 9);
  });

  it("prices a pan that a re-plan moves by more than a quarter of an hour", () => {
    const lines = [areaLine("A", { readyMinute: 50 })];
    const prices = { gasPerKWh: 0, crewPerHour: 0, movePerPan: 2 };
    const inForce = [{ line: 0, item: 1, doorOpens: 34 }];
    expect(planned(smallRequest({ lines, prices, inForce })).cost.moved).toBe(2);
    expect(planned(smallRequest({ lines, prices, inForce: [{ line: 0, item: 1, doorOpens: 35 }] })).cost.moved).toBe(0);
  });

  it("makes the same plan again from the same request, seed and steps, and leaves the request as it was", () => {
    const lines = Array.from({ length: 7 }, (_, index) =>
      areaLine(`P${index}`, {
        shape: { kind: "area", dm2: 4 + index },
        promisedMinute: 60 + 20 * index,
        latePerHour: 3,
      }),
    );
    const request = smallRequest({ lines });
    const before = structuredClone(request);
    expect(planned(request, 3000)).toEqual(planned(request, 3000));
    expect(request).toEqual(before);
  });
});
