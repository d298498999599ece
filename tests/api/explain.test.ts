/** Why not, over HTTP: two pans, or a pan and a load, with the metals drawn over their windows. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ExplainAnswer } from "../../api/contract/explaining.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

let shop: TestService;
beforeAll(async () => {
  shop = await testService({ now: "2026-09-15T05:00:00Z" });
});
afterAll(() => shop.stop());

const explain = async (one: string, other: string): Promise<ExplainAnswer> => {
  const { status, body, text } = await shop.ask("POST", "/explain", { body: { one, other } });
  expect(status, text).toBe(200);
  return body as ExplainAnswer;
};

/** What must hold of any answer: the drawing says what the sentence says. */
function sound(answer: ExplainAnswer): void {
  expect(answer.words.join(" ")).not.toMatch(/ -\d|NaN|undefined/);
  if (answer.firing === null) return;
  const { metals, points, unloadMinute, setPointC } = answer.firing;
  expect(points.map(({ minute }) => minute)).toEqual(Array.from({ length: unloadMinute + 1 }, (_, i) => i));
  for (const [at, metal] of metals.entries()) {
    const curve = points.map(({ oneC, otherC }) => (at === 0 ? oneC : otherC));
    // Within a minute the metal may go a little beyond the points.
    expect(metal.peakC).toBeGreaterThanOrEqual(Math.max(...curve) - 0.1);
    expect(metal.peakC).toBeLessThan(Math.max(...curve) + 8);
    const minutesIn = curve.filter((c) => c >= metal.lowestC + metal.guardC).length;
    expect(Math.abs(minutesIn - metal.soakMinutes)).toBeLessThanOrEqual(1.5);
    expect(metal.why === "").toBe(metal.kept);
    if (!metal.kept) expect(metal.why).not.toMatch(/ -\d|NaN/);
  }
  if (answer.shares) {
    expect(metals.every(({ kept }) => kept)).toBe(true);
    expect(setPointC).toBe(answer.setPointC);
  } else if (answer.reasons.some(({ code }) => /meet/.test(code))) expect(metals.every(({ kept }) => kept)).toBe(false);
}

describe("two pans", () => {
  it.each(["small-morning", "full-day", "two-ovens-two-days"])("of %s are answered, pair by pair", async (name) => {
    const day = shopDay(name);
    await shop.ask("PUT", "/day", { body: day });
    const ids = day.pans.map(({ id }) => id).slice(0, 7);
    const answers = [];
    for (const [i, one] of ids.entries()) for (const other of ids.slice(i + 1)) answers.push(await explain(one, other));
    answers.forEach(sound);
    expect(answers.some(({ shares }) => shares)).toBe(true);
  });

  it("that need not soak are told the soak that the day file says", async () => {
    const day = shopDay("small-morning");
    const coatings = day.coatings.map(({ coats, ...coating }) => ({
      ...coating,
      coats: coats.map((coat) => ({ ...coat, bake: { ...coat.bake, soakLeastMinutes: 0 } })),
    }));
    await shop.ask("PUT", "/day", { body: { ...day, coatings } });
    const [one, other] = day.pans.map(({ id }) => id);
    const answer = await explain(one!, other!);
    sound(answer);
    expect(answer.firing!.metals.map(({ soakLeastMinutes }) => soakLeastMinutes)).toEqual([0, 0]);
  });

  it("whose ranges do not meet are told their temperatures, not minutes", async () => {
    const day = shopDay("small-morning");
    const [pan] = day.pans;
    const window = (metalLowC: number, metalHighC: number) => ({
      metalLowC,
      metalHighC,
      soakLeastMinutes: 8,
      soakMostMinutes: 20,
    });
    const [coating] = day.coatings;
    const [coat] = coating!.coats;
    const coatings = [
      { ...coating!, id: "cool", coats: [{ ...coat!, bake: window(180, 220) }] },
      { ...coating!, id: "hot", coats: [{ ...coat!, bake: window(300, 340) }] },
    ];
    const pans = coatings.map(({ id }) => ({ ...pan!, id: `P-${id}`, ticket: `T-${id}`, quantity: 1, coating: id }));
    const put = await shop.ask("PUT", "/day", { body: { ...day, coatings, pans } });
    expect(put.status, put.text).toBe(200);
    const answer = await explain("P-cool", "P-hot");
    sound(answer);
    expect(answer.reasons[0]!.code).toBe("ranges-do-not-meet");
    expect(answer.words[0]).toMatch(
      /P-hot needs its metal at 30\d °C at least and P-cool may not get hotter than 21\d °C/,
    );
    expect(answer.firing!.metals.map(({ lowestC, highestC }) => [lowestC, highestC])).toEqual([
      [180, 220],
      [300, 340],
    ]);
  });
});

describe("a pan and a load of the plan in force", () => {
  it("are answered for that load's oven, against the pan that fits worst", async () => {
    const day = shopDay("small-morning");
    shop.setNow("2026-06-09T05:00:00Z");
    await shop.ask("PUT", "/day", { body: day });
    const { body: asked } = await shop.ask("POST", "/plans", { body: { steps: 100, seconds: 60 } });
    const { plan } = await shop.finished(asked.id);
    expect((await shop.ask("POST", `/plans/${asked.id}/accept`, { body: {} })).status).toBe(200);
    const bakes = plan!.loads.filter(({ kind }) => kind === "bake");
    for (const load of bakes) {
      const inside = new Set(load.pans.map(({ id }) => id));
      const others = [...new Set(plan!.loads.flatMap(({ pans }) => pans.map(({ id }) => id)))].filter(
        (id) => !inside.has(id),
      );
      for (const pan of others.slice(0, 3)) {
        const answer = await explain(pan, load.id);
        sound(answer);
        if (answer.firing !== null) expect(inside.has(answer.firing.metals[1]!.pan)).toBe(true);
        if (answer.shares) expect(answer.oven).toBe(load.oven);
      }
      expect((await shop.ask("POST", "/explain", { body: { one: load.pans[0]!.id, other: load.id } })).status).toBe(
        409,
      );
    }
    expect((await shop.ask("POST", "/explain", { body: { one: "nobody", other: bakes[0]!.id } })).status).toBe(404);
    expect((await shop.ask("POST", "/explain", { body: { one: "nobody", other: "nothing" } })).status).toBe(404);
  });
});
