/** Every screen beside the day: readable at 200 % zoom, told in the units of the device, reached by the keyboard. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { openBrowser } from "../help/browser.ts";
import { buildPage, openPage, sideways, tabTo } from "../help/page.ts";
import type { Opened } from "../help/page.ts";
import type { TestService } from "../help/service.ts";
import { shopInUse } from "../help/shop-in-use.ts";

// A busy machine opens pages slowly.
vi.setConfig({ testTimeout: 60_000 });

const now = "2026-06-09T07:05:00Z";
const screens = [
  "#/rush",
  "#/why",
  "#/what-if",
  "#/close",
  "#/shop",
  "#/shop/oven/box",
  "#/shop/coating/two-coat",
  "#/shop/prices",
  "#/shop/work",
  "#/shop/hours",
  "#/about",
] as const;
let browser: Browser;
let service: TestService;
let one: Opened;

/** One page for all: a screen is shown by its address alone. */
beforeAll(async () => {
  await buildPage();
  browser = await openBrowser();
  service = await shopInUse(now);
  // A window of 1280 px at 200 % has 640 px to lay out.
  one = await openPage(browser, `${service.address}/#/rush`, { now, width: 640 });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

async function shown(hash: string): Promise<void> {
  await one.page.evaluate(`location.hash = "${hash}"`);
  await one.page.locator(`nav a[aria-current][href="${hash.split("/").slice(0, 2).join("/")}"]`).waitFor();
  await one.page.locator("main :is(form, dl, ul, .fields)").first().waitFor();
}

describe("every screen beside the day", () => {
  it.each(screens)("%s fits the window at 200 % zoom", async (hash) => {
    await shown(hash);
    expect(await sideways(one.page)).toBeLessThanOrEqual(0);
  });

  it.each(screens)(
    "%s shows no metric unit where others are chosen, and the same again when they are put back",
    async (hash) => {
      const { page } = one;
      await shown(hash);
      const text = async (): Promise<string> => {
        const fields = await page
          .locator("main input[inputmode]")
          .evaluateAll((all) => all.map((field) => "value" in field && field.value));
        return `${await page.locator("main").innerText()}\n${fields.join(" ")}`;
      };
      let before = "";
      for (let last = ""; before === "" || before !== last; await page.waitForTimeout(150)) {
        last = before;
        before = await text();
      }
      for (const [name, unit] of [
        ["Temperature", "°F"],
        ["Length", "in"],
        ["Mass", "lb"],
        ["Gas", "therm"],
      ] as const)
        await page.locator("footer").getByLabel(name).selectOption(unit);
      const changed = await text();
      expect(changed).not.toMatch(/\d °C|, °C|\d kg\b|, kg$|\d cm\b|, cm$|\d kWh\b/m);
      for (const [name, unit] of [
        ["Temperature", "°C"],
        ["Length", "cm"],
        ["Mass", "kg"],
        ["Gas", "kWh"],
      ] as const)
        await page.locator("footer").getByLabel(name).selectOption(unit);
      expect(await text()).toBe(before);
    },
  );

  it.each(screens.slice(0, 5))("%s is reached from the navigation by the keyboard alone", async (hash) => {
    const { page } = one;
    await shown(hash === "#/shop" ? "#/rush" : "#/shop");
    await page.locator(".skip").focus();
    await tabTo(page, `nav a[href='${hash}']`);
    await page.keyboard.press("Enter");
    await page.locator(`nav a[aria-current][href="${hash}"]`).waitFor();
    await tabTo(page, "main :is(input, select, button, a)");
  });

  it("complains of nothing meanwhile", () => {
    expect(one.complaints).toEqual([]);
  });
});
