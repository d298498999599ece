/** Every screen beside the day: readable at 200 % zoom, told in the units of the device, reached by the keyboard. */
import type { Request } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { openPage, sideways, tabTo } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";
import type { Opened } from "../help/page.ts";

/** Each screen, and what stands on it only once everything is there. */
const screens = [
  ["#/rush", "2. Which coat?"],
  ["#/why", "B-11-A"],
  ["#/what-if", "A shelf out"],
  ["#/close", "Closed days"],
  ["#/shop", "The windows as a table"],
  ["#/shop/oven/box", "Highest set-point"],
  ["#/shop/coating/two-coat", "Cures from"],
  ["#/shop/prices", "Gas, a kWh"],
  ["#/shop/work", "Booth"],
  ["#/shop/hours", "Another interval"],
  ["#/about", "Version "],
] as const;
const shop = atPage();
const asked = new Set<Request>();
let one: Opened;

/** One page for all: a screen is shown by its address alone. */
beforeAll(async () => {
  // A window of 1280 px at 200 % has 640 px to lay out.
  one = await openPage(shop.browser, `${shop.service.address}/#/rush`, { now: morning, width: 640 });
  // A stream stays open; everything else that is asked for is answered.
  one.page.on("request", (request) => request.resourceType() !== "eventsource" && asked.add(request));
  one.page.on("requestfinished", (request) => asked.delete(request));
  one.page.on("requestfailed", (request) => asked.delete(request));
});

async function shown(hash: string, mark: string): Promise<void> {
  await one.page.evaluate(`location.hash = "${hash}"`);
  await one.page.locator(`nav a[aria-current][href="${hash.split("/").slice(0, 2).join("/")}"]`).waitFor();
  await one.page.locator("main").getByText(mark).first().waitFor({ state: "attached" });
  await expect.poll(() => asked.size).toBe(0);
}

describe("every screen beside the day", () => {
  it.each(screens)("%s fits the window at 200 % zoom", async (hash, mark) => {
    await shown(hash, mark);
    expect(await sideways(one.page)).toBeLessThanOrEqual(0);
  });

  it.each(screens)(
    "%s shows no metric unit where others are chosen, and the same again when they are put back",
    async (hash, mark) => {
      const { page } = one;
      await shown(hash, mark);
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
      await expect.poll(text).not.toMatch(/\d °C|, °C|\d kg\b|, kg$|\d cm\b|, cm$|\d kWh\b/m);
      for (const [name, unit] of [
        ["Temperature", "°C"],
        ["Length", "cm"],
        ["Mass", "kg"],
        ["Gas", "kWh"],
      ] as const)
        await page.locator("footer").getByLabel(name).selectOption(unit);
      await expect.poll(text).toBe(before);
    },
  );

  it.each(screens.slice(0, 5))("%s is reached from the navigation by the keyboard alone", async (hash) => {
    const { page } = one;
    const [from, mark] = hash === "#/shop" ? screens[0] : screens[4];
    await shown(from, mark);
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
