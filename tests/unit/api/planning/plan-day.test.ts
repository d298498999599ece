import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { checkPlan } from "../../../../api/check/check-plan.ts";
import type { Day } from "../../../../api/contract/day.ts";
import { readDay } from "../../../../api/day/read-day.ts";
import { toRequest } from "../../../../api/day/to-solver.ts";
import { planDay } from "../../../../api/planning/plan-day.ts";
import type { DayProgress, PlanDayOptions } from "../../../../api/planning/plan-day.ts";
import { PlanFault } from "../../../../api/planning/plan-fault.ts";
import { writeChecked } from "../../../../api/planning/write-checked.ts";
import { planFiring, stepBudget } from "../../../../solver/index.ts";

const root = join(import.meta.dirname, "../../../..");

function dayOf(text: string): Day {
  const read = readDay(text);
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path}: ${message}`).join("\n"));
  expect(read.warnings).toEqual([]);
  return read.day;
}

const shop = (name: string): Day => dayOf(readFileSync(join(root, `fixtures/shops/${name}.json`), "utf8"));
const noon = Date.parse("2026-03-10T12:00:00Z");

function options(over: Partial<PlanDayOptions> = {}): PlanDayOptions {
  return {
    seed: 1,
    seconds: null,
    steps: 50,
    gapPercent: 0.1,
    clock: { now: () => noon },
    secondsNow: () => performance.now() / 1000,
    ...over,
  };
}

describe("planning a day", { timeout: 60_000 }, () => {
  it.each(["small-morning", "full-day", "rush-and-failure", "two-ovens-two-days", "fixed-cycle"])(
    "%s is valid without a warning, and its plan is sound",
    async (name) => {
      const day = shop(name);
      const { plan } = await planDay(day, options());
      expect(checkPlan(day, plan)).toEqual([]);
      expect(plan.loads.some(({ state }) => state === "planned")).toBe(true);
    },
  );

  it("dates the plan by the clock given, in the day's zone", async () => {
    const { plan } = await planDay(shop("small-morning"), options({ steps: 0 }));
    // Dublin keeps UTC+0 in March.
    expect(plan.madeAt).toBe("2026-03-10T12:00:00+00:00");
    expect(plan.search).toMatchObject({ seed: 1, lpEngine: "javascript-lp-solver" });
  });

  it("tells every better plan at once, each of them sound", async () => {
    const day = shop("small-morning");
    const told: DayProgress[] = [];
    const found: number[] = [];
    const { plan } = await planDay(day, options({ found: ({ cost }) => found.push(cost) }), (progress) =>
      told.push(progress),
    );
    expect(told.map(({ cost }) => cost)).toEqual(found);
    expect(found.at(-1)).toBeCloseTo(plan.cost.total, 2);
    for (const { plan: write } of told) expect(checkPlan(day, write(), { savings: false })).toEqual([]);
  });

  it("lets others be heard while it searches", async () => {
    let beats = 0;
    const heart = setInterval(() => (beats += 1), 10);
    await planDay(shop("full-day"), options({ steps: null, seconds: 1.5 }));
    clearInterval(heart);
    // At least one beat a slice; slices are 30 ms and the slowest steps a few hundred.
    expect(beats).toBeGreaterThan(5);
  });

  it("ends when somebody wants the best plan so far", async () => {
    let stopped = false;
    setTimeout(() => (stopped = true), 200);
    const wish = options({ steps: null, seconds: 600, stopped: () => stopped });
    const { plan } = await planDay(shop("full-day"), wish);
    expect(plan.search.status).toBe("stopped");
  });

  it("needs a limit", async () => {
    await expect(planDay(shop("small-morning"), options({ steps: null }))).rejects.toThrow("needs a limit");
  });

  it("hands no plan out that the checker faults, but keeps it with its day", () => {
    const day = shop("small-morning");
    const request = toRequest(day);
    const search = planFiring(request, { seed: 1, gapPercent: 0, progress: stepBudget(0) });
    let step = search.next();
    while (step.done !== true) step = search.next();
    const wrong = { ...step.value, gasKWh: step.value.gasKWh + 3 };
    const write = (plan: typeof wrong) =>
      writeChecked({ day, request, plan, seed: 1, seconds: 0, madeAt: noon, checkSavings: false });
    expect(write(step.value).gas.kWh).toBeCloseTo(step.value.gasKWh, 3);
    let fault: unknown;
    try {
      write(wrong);
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(PlanFault);
    expect(fault).toMatchObject({ day, plan: { formatVersion: 1 } });
    expect(fault instanceof PlanFault && fault.faults.map(({ rule }) => rule)).toContain("gas");
  });
});

describe("the README's day", () => {
  it("is a day that can be planned as it stands", async () => {
    const readme = readFileSync(join(root, "README.md"), "utf8");
    const example = /```json\n([\s\S]*?)```/.exec(readme)?.[1] ?? "";
    const { plan } = await planDay(dayOf(example), options({ steps: 20 }));
    expect(plan.leftOver).toEqual([]);
    expect(plan.loads.flatMap(({ pans }) => pans)).toHaveLength(3);
  });
});
