import { describe, expect, it } from "vitest";
import type { PlanFile } from "../../../../api/contract/plan.ts";
import { packCourse, unpackCourse } from "../../../../api/planning/course.ts";
import type { Course } from "../../../../api/planning/course.ts";
import { planDay } from "../../../../api/planning/plan-day.ts";
import { remakeDay } from "../../../../api/planning/remake-day.ts";
import { validDay } from "../../../help/planned.ts";
import { shopDay } from "../../../help/service.ts";

const PATIENCE = { timeout: 60_000 };
const noon = Date.parse("2026-03-10T12:00:00Z");
const bare = { seed: 3, gapPercent: 0, clock: { now: () => noon }, secondsNow: () => performance.now() / 1000 };

interface Kept {
  readonly plan: PlanFile;
  readonly course: Course;
}

async function kept(name: string, wish: { seconds: number | null; steps: number | null; stopAfterMs?: number }) {
  const day = validDay(shopDay(name));
  const began = performance.now();
  const stopped = (): boolean => performance.now() - began > (wish.stopAfterMs ?? Infinity);
  const onTheWay: Kept[] = [];
  const { seconds, steps } = wish;
  const last = await planDay(day, { ...bare, seconds, steps, stopped }, ({ plan, course }) =>
    onTheWay.push({ plan: plan(), course: course() }),
  );
  return { day, last, onTheWay };
}

describe("the course of a search", PATIENCE, () => {
  it.each([
    ["full-day", { seconds: 2, steps: null }],
    ["full-day", { seconds: 60, steps: null, stopAfterMs: 1500 }],
    ["full-day", { seconds: null, steps: 50 }],
    ["full-day", { seconds: 1, steps: 1_000_000 }],
    // A day that comes down to jobs has a search of its own.
    ["fixed-cycle", { seconds: 1, steps: null }],
    ["fixed-cycle", { seconds: 60, steps: null, stopAfterMs: 700 }],
  ] as const)("%s, %j: makes the plan again, and each that was found on the way", PATIENCE, async (name, wish) => {
    const { day, last, onTheWay } = await kept(name, wish);
    const all: readonly Kept[] = [last, ...onTheWay.slice(-2)];
    expect(onTheWay.length).toBeGreaterThan(0);
    for (const { plan, course } of all) {
      const read = unpackCourse(packCourse(course));
      expect(read).toEqual(course);
      expect(JSON.stringify(remakeDay({ day, seed: 3, gapPercent: 0, course: read }))).toBe(JSON.stringify(plan));
    }
  });

  it("tells the budget in at most 512 parts", PATIENCE, async () => {
    const { last } = await kept("full-day", { seconds: 1, steps: null });
    expect(last.course.ticks).toHaveLength(512);
    expect(last.course).toMatchObject({
      steps: null,
      cutAt: null,
      stoppedAt: null,
      bounds: [],
      offers: [],
      pauses: null,
    });
    expect(packCourse(last.course).length).toBeLessThan(4000);
  });
});
