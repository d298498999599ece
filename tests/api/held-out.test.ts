import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkPlan } from "../../api/check/check-plan.ts";
import type { Happened } from "../../api/contract/happened.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { readDay } from "../../api/day/read-day.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService();
}, 60_000);
afterAll(() => shop.stop(), 60_000);

/** Park and Miller's minimal standard generator, so that every run tells the same days. */
function random(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

interface LoadNow {
  readonly id: string;
  readonly state: string;
  readonly load: PlanLoad;
}

function event(
  draw: () => number,
  at: number,
  day: ReturnType<typeof shopDay>,
  loads: readonly LoadNow[],
): Partial<Happened> | null {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)]!;
  const firing = loads.find(
    ({ state, load }) => state !== "interrupted" && Date.parse(load.doorClosesAt) <= at && Date.parse(load.doneAt) > at,
  );
  const next = loads.find(({ load }) => Date.parse(load.doorOpensAt) > at);
  const oven = day.ovens[0]!;
  const shelves = oven.space.kind === "shelves" ? oven.space.shelves : [];
  const waiting = next?.load.pans ?? [];
  const choices: (Partial<Happened> | undefined)[] = [
    firing && { kind: "load-interrupted", load: firing.id, cause: "power cut" },
    firing && { kind: "load-late", load: firing.id, minutes: 1 + Math.floor(draw() * 15) },
    next && { kind: "load-late", load: next.id, minutes: 1 + Math.floor(draw() * 30) },
    next && { kind: "load-pinned", load: next.id },
    waiting.length > 0 ? { kind: "pan-failed", pan: pick(waiting).id, cause: "pinholes", stripMinutes: 30 } : undefined,
    waiting.length > 0 ? { kind: "pan-withdrawn", pan: pick(waiting).id } : undefined,
    shelves.length > 1 ? { kind: "shelf-out", oven: oven.id, shelf: pick(shelves).id } : undefined,
    { kind: "sprayers-changed", sprayers: Math.floor(draw() * 2) },
    { kind: "bottle-changed", unitsLeft: 3, maxDrawKW: 27 },
  ];
  return pick(choices) ?? null;
}

describe("days that go wrong at random", () => {
  it.each([
    ["full-day", 11],
    ["two-ovens-two-days", 12],
    ["small-morning", 13],
  ])("%s: every re-plan is sound and leaves what is in the oven alone", { timeout: 120_000 }, async (name, seed) => {
    const draw = random(seed);
    const day = shopDay(name);
    await shop.ask("PUT", "/day", { raw: JSON.stringify(day), headers: { "Content-Type": "application/json" } });
    const asked = await shop.ask("POST", "/plans", { body: { steps: 20, seconds: 20 } });
    const first = await shop.finished(asked.body.id);
    await shop.ask("POST", `/plans/${first.id}/accept`, { body: {} });
    let now = Date.parse(first.plan!.loads[0]!.doorOpensAt);
    let planned = 0;
    for (let round = 0; round < 4; round++) {
      now += draw() * 80 * 60_000;
      shop.setNow(new Date(now).toISOString());
      const loads = (await shop.ask("GET", "/loads")).body.loads as LoadNow[];
      const said = event(draw, now, day, loads);
      const reply = await shop.ask("POST", "/replans", {
        body: { happened: said === null ? [] : [said], steps: 20, seconds: 20 },
      });
      expect([202, 404, 409]).toContain(reply.status);
      if (reply.status !== 202) continue;
      const done = await shop.finished(reply.body.id);
      expect(done.problem, `${said?.kind}`).toBeNull();
      planned++;
      const read = readDay((await shop.ask("GET", `/plans/${done.id}/request`)).body.day);
      expect(read.ok && checkPlan(read.day, done.plan!, { savings: false })).toEqual([]);
      for (const { id, load, state } of loads) {
        const isFiring =
          state !== "interrupted" && Date.parse(load.doorOpensAt) <= now && Date.parse(load.doneAt) > now;
        if (!isFiring || said?.kind === "load-interrupted" || said?.kind === "load-late") continue;
        expect(done.plan!.loads.find((one) => one.id === id)).toMatchObject({
          doorOpensAt: load.doorOpensAt,
          setPointC: load.setPointC,
          unloadAt: load.unloadAt,
          state: "firing",
        });
      }
      await shop.ask("POST", `/plans/${done.id}/accept`, { body: {} });
    }
    expect(planned).toBeGreaterThan(0);
  });
});
