/** The first view while things happen: two devices in step, a search followed and stopped, the service away. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { anotherShop, atPage } from "../help/at-page.ts";
import type { OpeningAt } from "../help/at-page.ts";
import { shifts } from "../help/page.ts";

const shop = atPage();

async function opened(opening: OpeningAt = {}): Promise<Page> {
  const page = await shop.open("", opening);
  await page.locator(".oven-card").first().waitFor();
  return page;
}

/** How the browser tells that nobody answers. */
const lost = /net::ERR_|status of 50\d/;

describe("two devices", () => {
  it("stay in step: what one reports the other shows, without being touched", async () => {
    const [tablet, phone] = [await opened(), await opened({ width: 390 })];
    await phone.evaluate('location.hash = "#/pans"');
    await tablet.evaluate('location.hash = "#/pans"');
    for (const page of [tablet, phone]) await page.getByRole("button", { name: "Report B-16-A" }).waitFor();
    await shop.service.ask("POST", "/events", { body: { kind: "pan-held", pan: "B-16-A", note: "no lid" } });
    for (const page of [tablet, phone]) await page.getByText("on hold: no lid").waitFor();
    await shop.service.ask("POST", "/events", { body: { kind: "pan-ready", pan: "B-16-A" } });
    for (const page of [tablet, phone]) await page.getByText("on hold: no lid").waitFor({ state: "detached" });
  });
});

describe("a running search", () => {
  it("is followed live without moving the page, and stopped by a button", async () => {
    const page = await opened();
    shop.service.setNow("2026-06-09T07:06:00Z");
    const started = await shop.service.ask("POST", "/plans", { body: { seconds: 60, gapPercent: 0 } });
    await page.getByText("still searching").waitFor();
    await page.getByRole("button", { name: "Use this plan" }).waitFor();
    const before = (await shifts(page)).length;
    const shown = await page.locator("#clock + .frame").innerHTML();
    // Until a better plan is shown, and long enough for several: their steps read otherwise.
    await expect.poll(() => page.locator("#clock + .frame").innerHTML()).not.toBe(shown);
    await page.waitForTimeout(4000);
    expect((await shifts(page)).slice(before)).toEqual([]);
    await page.getByRole("button", { name: "Stop, keep the best so far" }).click();
    await page.getByText("still searching").waitFor({ state: "detached" });
    expect((await shop.service.finished(started.body.id)).state).toBe("stopped");
    await page.getByRole("button", { name: "Keep the plan in use" }).click();
    await page.getByText("This plan is proposed").waitFor({ state: "detached" });
  });
});

it("tells that the service went, though it answered still when the line to it was cut", async () => {
  const away = await anotherShop();
  const page = await shop.open("", { at: away.service, says: lost });
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
  await page.addInitScript(`{
    const { EventSource } = window;
    window.EventSource = class extends EventSource {
      constructor(path) {
        super(path);
        if (path === "/changes") window.line = this;
      }
    };
  }`);
  await page.reload();
  await page.locator(".oven-card").first().waitFor();
  // As the browser tells of a line cut by a service that is going: its other lines are served to their end.
  const answered = page.waitForResponse((response) => new URL(response.url()).pathname === "/loads");
  await page.evaluate('window.line.dispatchEvent(new Event("error"))');
  expect((await answered).status()).toBe(200);
  expect(await page.getByText("The service does not answer").count()).toBe(0);
  await away.service.stop();
  await page.getByText("The service does not answer. This is what it said last").waitFor();
});

it("is read without the service, says so, and comes back into step with it", async () => {
  const away = await anotherShop();
  const page = await shop.open("", { at: away.service, says: lost });
  await page.evaluate("navigator.serviceWorker.ready.then(() => true)");
  // From now on the worker sees every answer.
  await page.reload();
  await page.locator(".oven-card").first().waitFor();
  await page.evaluate(
    'location.hash = "#/load/" + encodeURIComponent(document.querySelector(".loadline a").textContent)',
  );
  await page.locator(".shelves").waitFor();
  await away.service.stop();
  await page.getByText("The service does not answer. This is what it said last").waitFor();
  await page.goto(`${away.service.address}/`);
  await page.getByText("The service does not answer. This is what it said last").waitFor();
  const rows = page.locator("table", { hasText: "Earliest burner off" }).locator("tbody");
  for (const { id, setPointC } of away.plan.loads)
    await rows
      .locator("tr", { hasText: id })
      .filter({ hasText: `${setPointC} °C` })
      .waitFor();
  // Nothing is told to be saved that is not.
  await page.evaluate(
    'location.hash = "#/load/" + encodeURIComponent(document.querySelector(".loadline a").textContent)',
  );
  await page.getByRole("button", { name: "Opened" }).click();
  await page.getByText("Nothing was saved.").waitFor();
});
