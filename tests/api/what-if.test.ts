/** What-if over HTTP: variants beside the day as it stands, with the same steps; nothing of it is saved. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { WhatIf } from "../../api/contract/what-if.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

const day = shopDay("small-morning");
const shelf = { kind: "shelf-out", oven: "box", shelf: "top" } as const;
const variants = [
  { kind: "wait", minutes: 15 },
  { kind: "wait", minutes: 60 },
  { kind: "sprayers", more: 1 },
  { kind: "slack", minutes: 2 },
  shelf,
] as const;

describe("a what-if", () => {
  let service: TestService;
  let told: WhatIf;
  const worked = async (id: string): Promise<WhatIf> => {
    for (;;) {
      const { body } = await service.ask("GET", `/what-ifs/${id}`);
      if (body.state !== "searching") return body as WhatIf;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  };
  beforeAll(async () => {
    service = await testService({ now: `${day.planFrom}:00Z` });
    await service.ask("PUT", "/day", { body: day });
    const asked = await service.ask("POST", "/what-ifs", { body: { variants, steps: 200 } });
    expect(asked.status, asked.text).toBe(202);
    expect(asked.headers.get("location")).toBe(`/what-ifs/${asked.body.id}`);
    told = await worked(asked.body.id);
  });
  afterAll(() => service.stop());

  it("works every variant out with the same steps, in the order asked", () => {
    expect(told.base.state).toBe("done");
    expect(told.variants.map(({ variant }) => variant)).toEqual(variants);
    for (const one of [told.base, ...told.variants]) {
      expect(one.state, one.problem ?? "").toBe("done");
      expect(one.steps).toBeLessThanOrEqual(200);
    }
  });

  it("says how far each is from the day as it stands", () => {
    const base = told.base.figures!;
    for (const { figures, difference, told: words } of told.variants) {
      expect(difference!.cost).toBeCloseTo(figures!.cost - base.cost, 9);
      expect(difference!.gasKWh).toBeCloseTo(figures!.gasKWh - base.gasKWh, 9);
      expect(difference!.latePanMinutes).toBeCloseTo(figures!.latePanMinutes - base.latePanMinutes, 9);
      const { gasMoney, crewMoney, lateMoney, leftOverMoney } = figures!;
      expect(gasMoney + crewMoney + lateMoney + leftOverMoney).toBeCloseTo(figures!.cost, 2);
      expect(words.join(" ")).toMatch(/^Costs /);
    }
    // An hour in which no door opens cannot bring the end forward on a day whose first door opens within it.
    expect(told.variants[1]!.difference!.finishMinutes).toBeGreaterThan(0);
  });

  it("saves nothing", async () => {
    expect((await service.ask("GET", "/plans")).body.plans).toEqual([]);
    expect((await service.ask("GET", "/day")).body).toEqual(day);
    expect((await service.ask("GET", "/events")).body.events).toHaveLength(1);
  });

  it("says why a variant cannot be worked out, and works the others out", async () => {
    const unknown = { kind: "shelf-out", oven: "box", shelf: "cellar" };
    const { body } = await service.ask("POST", "/what-ifs", { body: { variants: [unknown, variants[0]], steps: 20 } });
    const answer = await worked(body.id);
    expect(answer.variants[0]).toMatchObject({ state: "failed", problem: "There is no shelf cellar in box." });
    expect(answer.variants[1]!.state).toBe("done");
  });

  it("can be stopped, and only so many run at once", async () => {
    const long = { variants: variants.slice(0, 4), steps: 20_000 };
    const asked = await Promise.all([1, 2, 3, 4].map(() => service.ask("POST", "/what-ifs", { body: long })));
    expect(asked.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([202, 202, 202, 409]);
    for (const { status, body } of asked)
      if (status === 202) expect((await service.ask("DELETE", `/what-ifs/${body.id}`)).body.state).toBe("stopped");
    expect((await service.ask("GET", "/what-ifs/none")).status).toBe(404);
  });

  it("refuses too many variants and unknown ones", async () => {
    const many = Array.from({ length: 9 }, () => variants[0]);
    expect((await service.ask("POST", "/what-ifs", { body: { variants: many } })).status).toBe(422);
    expect((await service.ask("POST", "/what-ifs", { body: { variants: [] } })).status).toBe(422);
    expect((await service.ask("POST", "/what-ifs", { body: { variants: [{ kind: "luck" }] } })).status).toBe(422);
  });
});
