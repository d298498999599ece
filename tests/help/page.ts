/** The built page in a real browser: opened at a width and in a scheme, with everything the console complains of. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";

const axe = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/** A busy machine answers slowly: what is waited for still comes. */
const patienceMs = 100_000;

export interface Opened {
  readonly page: Page;
  /** Errors and warnings of the console, and uncaught errors. */
  readonly complaints: string[];
}

export interface Opening {
  readonly width?: number;
  readonly scheme?: "light" | "dark";
  /** What the page's clock shows. */
  readonly now?: string;
  /** The browser's language; the default counts hours to 24. */
  readonly locale?: string;
}

export async function openPage(browser: Browser, address: string, opening: Opening = {}): Promise<Opened> {
  const { width = 1280, scheme = "light", now, locale = "en-GB" } = opening;
  const page = await browser.newPage({
    reducedMotion: "reduce",
    viewport: { width, height: 900 },
    colorScheme: scheme,
    locale,
  });
  page.setDefaultTimeout(patienceMs);
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.addInitScript(shiftWatch);
  if (now !== undefined) await page.clock.setFixedTime(now);
  await page.goto(address);
  await page.waitForSelector("h1");
  return { page, complaints };
}

/** Closes a page once the answers a test rewrites on their way are through: a page that goes on asking would take one away half read. */
export async function closePage(page: Page): Promise<void> {
  if (page.isClosed()) return;
  await page.unrouteAll({ behavior: "wait" });
  await page.close();
}

const shiftWatch = `window.moved = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries())
      if (!one.hadRecentInput)
        window.moved.push({ by: one.value, what: one.sources.map(({ node }) => node?.className ?? node?.nodeName).join(", ") });
  }).observe({ type: "layout-shift", buffered: true });`;

/** Every piece that moved by itself since the page was opened, with its share of the cumulative layout shift (CLS). */
export async function shifts(page: Page): Promise<readonly { readonly by: number; readonly what: string }[]> {
  return page.evaluate("window.moved");
}

/** What the accessibility checker finds, as "rule: element". */
export async function barriers(page: Page): Promise<string[]> {
  // As an expression: the page's content policy keeps added scripts out.
  await page.evaluate(`${axe};0`);
  return page.evaluate(
    "axe.run({runOnly:['wcag2a','wcag2aa','wcag21a','wcag21aa','wcag22aa']}).then(({violations}) => violations.flatMap((one) => one.nodes.map((node) => one.id + ': ' + node.html.slice(0, 160))))",
  );
}

/**
 * Things to press that a glove misses: lower or narrower than 48 px, as "36 x 20 Save". Links inside a sentence are exempt,
 * and loads in the drawing of the day, whose width is their time: the table below links to the same sheets.
 */
export async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(`[...document.querySelectorAll("button, a[href], input:not([type=checkbox], [type=radio]), select, summary, label:has(input[type=checkbox], input[type=radio])")]
    .filter((one) => one.offsetParent !== null && !one.closest("p.fine, li, td p, svg") && !one.matches(".skip, p > a:not(.button)"))
    .map((one) => [one.getBoundingClientRect(), one])
    .filter(([box]) => box.width > 0 && (box.height < 47.5 || box.width < 47.5))
    .map(([box, one]) => Math.round(box.width) + " x " + Math.round(box.height) + " " + (one.innerText || one.name || one.id))`);
}

/** How far the page is wider than its window, px; a page that does not scroll sideways gives 0 or less. */
export async function sideways(page: Page): Promise<number> {
  return page.evaluate("document.documentElement.scrollWidth - innerWidth");
}

/** Holds the page as it is now to what everybody needs: no barriers, no small targets, nothing sideways. */
export async function suitsEverybody(page: Page, picture?: string): Promise<void> {
  if (picture !== undefined) await shoot(page, picture);
  expect(await barriers(page)).toEqual([]);
  expect(await smallTargets(page)).toEqual([]);
  expect(await sideways(page)).toBeLessThanOrEqual(0);
}

const pictures = fileURLToPath(new URL("../../.ci/shots/", import.meta.url));

/** Keeps a picture of the whole page, to look at. */
export async function shoot(page: Page, name: string): Promise<void> {
  await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
}

/** Presses Tab until the element is focused; throws where the keyboard does not get there. */
export async function tabTo(page: Page, selector: string, most = 120): Promise<void> {
  for (let i = 0; i < most; i++) {
    if (await page.evaluate(`document.activeElement?.matches(${JSON.stringify(selector)}) ?? false`)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`The keyboard does not reach ${selector}`);
}
