/** A proposed plan whose day has moved on, in a real browser: said so, planned again in the way it was asked for, then taken. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { atPage, refusal } from "../help/at-page.ts";
import { suitsEverybody } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";
import { shopDay, testService } from "../help/service.ts";
import type { TestService } from "../help/service.ts";

const shop = atPage();
const day = shopDay("small-morning");
const fewSteps = { steps: 6, seconds: 120 };
const outdated = "The day has changed since it was asked for.";

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const isMain = (page: Page, name: string) => button(page, name).evaluate((one) => !one.classList.contains("second"));

async function propose(service: TestService, ask: object = {}): Promise<string> {
  const { id } = (await service.ask("POST", "/plans", { body: { ...fewSteps, ...ask } })).body;
  await service.finished(id);
  return id;
}

/** The search asked for last, with what it was planned from. */
async function newest(service: TestService) {
  const [{ id, replaces }] = (await service.ask("GET", "/plans")).body.plans;
  const { planFrom } = (await service.ask("GET", `/plans/${id}/request`)).body.day;
  return { id, replaces, planFrom };
}

/** Taking a plan ends its search. */
async function use(page: Page): Promise<void> {
  await button(page, "Use this plan").click();
  await page.getByText("This plan is proposed").waitFor({ state: "detached" });
}

describe("a plan that nothing in use stands behind", () => {
  let away: TestService;
  beforeAll(async () => {
    away = await testService({ now: morning });
    await away.ask("PUT", "/day", { body: day });
  });
  afterAll(() => away.stop());

  it("is outdated by a day file put in beside it: refused, planned again, then taken", async () => {
    const first = await propose(away);
    const page = await shop.open("", { at: away, says: refusal });
    await button(page, "Plan the day").waitFor();
    expect(await page.getByText(outdated).count()).toBe(0);
    expect([await isMain(page, "Use this plan"), await isMain(page, "Plan the day")]).toEqual([true, false]);

    away.setNow("2026-06-09T07:10:00Z");
    expect((await away.ask("PUT", "/day", { body: { ...day, title: "Put in beside" } })).status).toBe(200);
    await page.reload();
    await page.getByText(outdated).waitFor();
    expect([await isMain(page, "Use this plan"), await isMain(page, "Plan the day")]).toEqual([false, true]);
    await button(page, "Use this plan").click();
    await page.getByRole("alert").filter({ hasText: "plan again, then accept" }).waitFor();
    expect((await away.ask("GET", "/plans/in-force")).status).toBe(404);

    await button(page, "Plan the day").click();
    await page.getByText("still searching").waitFor();
    await button(page, "Use this plan").waitFor();
    expect(await button(page, "Plan the day").count()).toBe(0);
    expect(await page.getByText(outdated).count()).toBe(0);
    expect(await page.getByRole("alert").count()).toBe(0);
    await use(page);
    const inForce = (await away.ask("GET", "/plans/in-force")).body;
    expect(inForce.id).not.toBe(first);
    expect(inForce.plan.dayTitle).toBe("Put in beside");
    expect((await newest(away)).planFrom).toBe(day.planFrom);
  });

  it("is of what is left again where it was so before", async () => {
    away.setNow("2026-06-09T07:20:00Z");
    await away.ask("PUT", "/day", { body: day });
    await propose(away, { from: "now" });
    away.setNow("2026-06-09T07:30:00Z");
    const page = await shop.open("", { at: away, now: "2026-06-09T07:30:00Z" });
    await button(page, "Plan what is left from now").click();
    await page.getByText("still searching").waitFor();
    expect((await newest(away)).planFrom).toBe("2026-06-09T08:30:00+01:00");
    await use(page);
  });
});

it("beside the plan in use, is of the rest of the day again after a report, and has room for its buttons", async () => {
  const { service } = shop;
  service.setNow("2026-06-09T07:10:00Z");
  await propose(service);
  const page = await shop.open("");
  await button(page, "Plan what is left from now").waitFor();
  service.setNow("2026-06-09T07:11:00Z");
  const held = { kind: "pan-held", pan: "B-16-A", note: "no lid" };
  expect((await service.ask("POST", "/events", { body: held })).status).toBe(201);
  await page.getByText(outdated).waitFor();
  expect(await isMain(page, "Plan what is left from now")).toBe(true);
  expect(await button(page, "Keep the plan in use").count()).toBe(1);
  for (const width of [1280, 390]) {
    await page.setViewportSize({ width, height: 900 });
    await suitsEverybody(page, `plan-again-${width}`);
  }
  service.setNow("2026-06-09T07:12:00Z");
  await button(page, "Plan what is left from now").click();
  await page.getByText("still searching").waitFor();
  const again = await newest(service);
  expect(again.replaces).toBe(shop.id);
  expect(again.planFrom).toBe("2026-06-09T08:12:00+01:00");
  await use(page);
  expect((await service.ask("GET", "/plans/in-force")).body.id).toBe(again.id);
});
