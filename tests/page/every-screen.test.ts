/** Every screen at every width and in both schemes: no barriers, no small targets, nothing sideways; zoomed, still, by either clock. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { atPage } from "../help/at-page.ts";
import { sideways, suitsEverybody } from "../help/page.ts";
import { morning } from "../help/planned-shop.ts";

const shop = atPage();

/** Every place, and what stands there only once it has read what it shows. */
const screens = (): Readonly<Record<string, string>> => ({
  "/": ".oven-card",
  [`/load/${shop.plan.loads[0]?.id}`]: ".targets",
  "/pans": "tbody tr",
  "/happened": "form .field",
  "/rush": ".jobline",
  "/why": "main select option",
  "/what-if": "main label.tick",
  "/close": ".figures dd",
  "/shop": ".ways a",
  "/shop/oven/box": "form .field",
  "/shop/coating/cast-two-coat": "form .field",
  "/shop/prices": "form + section form .field, section ~ section form .field",
  "/shop/work": "section ~ section form .field",
  "/shop/hours": "form .field",
  "/shop/rules": "form .field",
  "/shop/metals": "form fieldset .field",
  "/shop/calendar": "section ~ section form .field",
  "/shop/new-oven": "form .field",
  "/about": ".dangers",
});
const places = (): readonly string[] => Object.keys(screens());

async function goTo(page: Page, place: string): Promise<void> {
  await page.evaluate(`location.hash = "#${place}"`);
  await page
    .locator(screens()[place] ?? "")
    .first()
    .waitFor({ state: "attached" });
}

it.each([
  [390, "light"],
  [390, "dark"],
  [1280, "light"],
  [1280, "dark"],
] as const)("every screen suits everybody at %i px, %s", async (width, scheme) => {
  const page = await shop.open("#/", { width, scheme });
  for (const place of places()) {
    await goTo(page, place);
    const name = `${place === "/" ? "day" : place.slice(1).replaceAll("/", "-")}-${width}-${scheme}`;
    await expect(suitsEverybody(page, name), place).resolves.toBeUndefined();
  }
});

it("every screen reads at 200 %: a window of 1280 px has 640 then (WCAG 2.2, 1.4.4 and 1.4.10)", async () => {
  const page = await shop.browser.newPage({ viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
  await page.clock.setFixedTime(morning);
  await page.goto(`${shop.service.address}/`);
  await page.waitForSelector("h1");
  for (const place of places()) {
    await goTo(page, place);
    expect(await sideways(page), place).toBeLessThanOrEqual(0);
    const cut =
      await page.evaluate(`[...document.querySelectorAll("h1, h2, h3, button, a.button, dt, dd, legend, label")]
      .filter((one) => one.checkVisibility() && !one.classList.contains("aloud") && one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline")
      .map((one) => one.textContent.slice(0, 60))`);
    expect(cut, place).toEqual([]);
  }
  await page.close();
});

it("nothing moves where less motion is asked for", async () => {
  const page = await shop.open("#/");
  for (const place of places()) {
    await goTo(page, place);
    const moving = await page.evaluate(`[...document.querySelectorAll("*")]
      .filter((one) => { const { transitionDuration, animationName } = getComputedStyle(one); return transitionDuration !== "0s" || animationName !== "none"; })
      .map((one) => one.tagName + "." + one.className)`);
    expect(moving, place).toEqual([]);
    expect(await page.evaluate("document.getAnimations().length"), place).toBe(0);
  }
});

it.each([
  ["en-US", 12],
  ["en-GB", 24],
  ["de-DE", 24],
  ["pt-PT", 24],
] as const)("every clock counts as %s does, to %i", async (locale, to) => {
  const page = await shop.open("#/", { locale });
  for (const place of places().slice(0, 8)) {
    await goTo(page, place);
    // A countdown is no time of day; a field's own clock is the browser's.
    const text: string = await page.evaluate(`(() => {
      for (const one of document.querySelectorAll(".clockface")) one.style.visibility = "hidden";
      return document.querySelector("main").innerText;
    })()`);
    if (to === 12) expect(text, place).not.toMatch(/\b(1[3-9]|2[0-3]):[0-5]\d/);
    else expect(text, place).not.toMatch(/\d\s?(AM|PM)\b/i);
    if (place === "/") expect(text).toMatch(to === 12 ? /\d:[0-5]\d\s(AM|PM)/ : /\b\d\d:[0-5]\d/);
  }
});
